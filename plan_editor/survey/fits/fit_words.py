"""A fit in the words of somebody who holds the old plan in his hands."""

import math
from collections.abc import Sequence

import numpy as np
import shapely

from plan_editor.geometry.mappings import Straight
from plan_editor.survey.fits.fit_faults import called
from plan_editor.survey.fits.fitting import Fit
from plan_editor.survey.fits.models import Model
from plan_editor.survey.fits.paper import MM_PER_INCH

FEET_TO_THE_INCH = (5, 8, 10, 16, 20, 30, 32, 40, 50, 60, 64, 66, 80, 88, 100, 132, 200, 264)
"""Scales of plans drawn in feet and chains; common practice in Britain before the metre."""

METRIC = (20, 50, 100, 200, 250, 500, 1000, 1250, 2500, 5000, 10_000)
"""Scales of ISO 5455 and of British practice in metres."""

FOOT_M = 0.3048

WORTH_SAYING_DEG = 0.05
WORTH_SAYING_SHARE = 0.0005
MUCH_OUTSIDE = 0.25
MUCH_WORSE = 2.0
"""Turns, stretches, sheet outside the points and s0 below these are not spoken of."""

_LATTICE = 15


def in_words(fit: Fit) -> tuple[str, ...]:
    """Return sentences: how the sheet lies, how well its points agree, what to check."""
    found = (
        _lies(fit),
        agreement(fit),
        _left_out(fit),
        _overdone(fit),
        blunder_words(fit),
        outside_words(fit),
    )
    return tuple(filter(None, found))


def shape_words(fit: Fit) -> str:
    """Return what the paper has become: scale, turn, stretch, skew and bend, with commas."""
    parts = (_scale(fit), _turn(fit), *_stretch(fit), _bend(fit))
    return ", ".join(filter(None, parts))


def agreement(fit: Fit) -> str:
    """Return how well the points agree with the fit, on the ground and on the paper."""
    count = len(fit.control)
    if fit.standard_deviation is None and fit.model is not Model.WARP:
        return f"{count} points always fit like this: one more would show how well."
    unit = "units" if fit.paper.upward else "pixels"
    on_paper = f"{fit.rmse_paper:.3g} {unit}"
    if fit.rmse_mm is not None:
        on_paper = f"{fit.rmse_mm:.2f} mm on the paper"
    return f"Its {count} points agree within {fit.rmse:.2f} m, {on_paper} (root mean square)."


def blunder_words(fit: Fit) -> str:
    """Return which point to look at again; nothing where none is suspected."""
    if fit.blunder is None:
        return ""
    name = called(fit.control, fit.blunder.index)
    return (
        f"Look at {name} again: it is {math.hypot(*fit.blunder.off):.2f} m from where the"
        f" others have it. Without it they agree within {fit.blunder.without.rmse:.2f} m."
    )


def outside_words(fit: Fit) -> str:
    """Return a warning where much of the sheet lies outside the points."""
    if fit.outside is None or fit.outside < MUCH_OUTSIDE:
        return ""
    return (
        f"{round(fit.outside * 100)} % of the sheet lies outside its points: there nothing"
        " checks where it lies. Add points towards its edges before anything is traced there."
    )


def comparison(fits: Sequence[Fit], chosen: Fit) -> str:
    """Return why a kind of fit is recommended: by what points left out are missed."""
    tested = [(f.model.value, f.loo_rmse) for f in fits if f.loo_rmse is not None]
    if not tested:
        return (
            f"Recommended: {chosen.model.value}. With so few points nothing tells which kind of"
            " fit is best."
        )
    missed = ", ".join(f"{name} {loo:.2f} m" for name, loo in tested)
    return f"Recommended: {chosen.model.value}. Points left out are missed by: {missed}."


def bent_m(fit: Fit) -> float:
    """Return by how many metres at most it departs from its straight fit, among its points."""
    here = np.array([(c.x, c.y) for c in fit.control])
    (x0, y0), (x1, y1) = here.min(axis=0), here.max(axis=0)
    x, y = np.meshgrid(np.linspace(x0, x1, _LATTICE), np.linspace(y0, y1, _LATTICE))
    hull = shapely.MultiPoint(here).convex_hull
    within = shapely.intersects_xy(hull, x, y)
    places = np.vstack([here, np.column_stack([x[within], y[within]])])
    apart = fit.mapping.to_ground(places) - Straight(fit.straight).to_ground(places)
    return float(np.sqrt((apart**2).sum(axis=1)).max())


def _lies(fit: Fit) -> str:
    words = shape_words(fit)
    return f"{words[:1].upper()}{words[1:]}."


def _scale(fit: Fit) -> str:
    if fit.paper.dots_per_inch is None:
        return f"1 {'unit' if fit.paper.upward else 'pixel'} to {fit.scale:.4g} m"
    across, down = fit.paper.dots_per_inch
    to_the_inch = fit.scale * math.sqrt(across * down)
    ratio = to_the_inch / MM_PER_INCH * 1000
    feet = f"1 inch to {to_the_inch / FOOT_M:.3g} feet"
    metric = f"1:{float(f'{ratio:.3g}'):,.0f}"
    return f"{feet} ({metric})" if _drawn_in_feet(ratio) else f"{metric} ({feet})"


def _drawn_in_feet(ratio: float) -> bool:
    """Return whether a usual scale in feet is nearer than a usual metric one."""

    def off(usual: Sequence[float]) -> float:
        return min(abs(math.log(ratio / u)) for u in usual)

    return off([12 * feet for feet in FEET_TO_THE_INCH]) < off(METRIC)


def _turn(fit: Fit) -> str:
    turn = (fit.rotation_deg + 180) % 360 - 180
    if abs(turn) < WORTH_SAYING_DEG:
        return "north up"
    return f"turned {abs(turn):.1f}° {'clockwise' if turn > 0 else 'anticlockwise'}"


def _stretch(fit: Fit) -> tuple[str, ...]:
    """Return the words for a sheet of which an inch across is no longer an inch along."""
    across, along, out_of_square = stretches(fit)
    words = []
    share = max(across, along) / min(across, along) - 1
    if share >= WORTH_SAYING_SHARE:
        more, less = ("across", "along") if across > along else ("along", "across")
        words.append(f"stretched {share * 100:.1f} % more {more} than {less}")
    if out_of_square >= WORTH_SAYING_DEG:
        words.append(f"{out_of_square:.1f}° out of square")
    return tuple(words)


def stretches(fit: Fit) -> tuple[float, float, float]:
    """Return inches (or pixels) to the metre across and along, and degrees out of square."""
    a, b, _, d, e, _ = fit.straight
    x, y = fit.paper.dots_per_inch or (1.0, 1.0)
    across, along = math.hypot(a, d), math.hypot(b, e)
    lean = math.degrees(math.asin(min(1.0, abs(a * b + d * e) / across / along)))
    return 1 / across / x, 1 / along / y, lean


def _bend(fit: Fit) -> str:
    if fit.model not in (Model.PROJECTIVE, Model.WARP):
        return ""
    return f"bends up to {bent_m(fit):.2f} m from flat"


def _left_out(fit: Fit) -> str:
    if fit.loo_rmse is None:
        return ""
    return f"A point left out of the fit is missed by {fit.loo_rmse:.2f} m (root mean square)."


def _overdone(fit: Fit) -> str:
    if fit.s0 is None or fit.s0 < MUCH_WORSE:
        return ""
    return (
        f"The points disagree {fit.s0:.1f} times as much as their standard deviations let"
        " expect: the paper has stretched, or the points are worse known than was said."
    )
