"""How well the place of something is known that was traced on a base plan."""

from math import hypot, sqrt

from plan_editor.kinds.base_plan import BasePlanDetails, Content
from plan_editor.plan.item import Item

POINTING_PX = 2.0 / sqrt(3.0)
"""What pointing at ink adds each way, in pixels of the scan: a standard deviation.

A hand that aims at the middle of a line misses it by up to two pixels, evenly spread, which has
the standard deviation 2/√3 (ISO/IEC Guide 98-3:2008, 4.3.7). Two pixels are our own figure: a
line of an old plan scanned at 150 to 300 dots an inch is two to five pixels wide.
"""


def traced_sd(base: Item[BasePlanDetails]) -> float | None:
    """Return the standard deviation of east and of north, in metres, of a place traced there.

    How the base plan lies and where the hand points miss independently, so that their squares
    add: sd² = fit² + pointing². What the draughtsman missed by is in the fit, as far as its
    points were drawn by him. On a drawing the ends of lines are caught exactly, and only the
    fit counts. None where it is not known how well the base plan lies.
    """
    fit = base.basis.sd_m
    if fit is None or base.details.content is not Content.SCAN or not base.details.fit:
        return fit
    return round(hypot(fit, POINTING_PX * metres_a_pixel(base.details)), 4)


def metres_a_pixel(details: BasePlanDetails) -> float:
    """Return the side on the ground of a pixel of a scan that is placed.

    Where it bends, by the straight fit that comes near it everywhere.
    """
    a, b, _, d, e, _ = details.fit
    return sqrt(abs(a * e - b * d))
