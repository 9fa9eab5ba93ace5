"""A scan placed by the coordinates that come with its file."""

from dataclasses import replace
from math import hypot

from plan_editor.edits.base_plans import placed
from plan_editor.geometry.mappings import Affine
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.item import Item
from plan_editor.survey.fits.models import Model
from plan_editor.survey.grids.grid import Grid

_ALIKE = 1e-9
"""Of the length of a pixel's side: sides that differ by less are equal and at right angles."""


def as_referenced(
    item: Item[BasePlanDetails], fit: Affine, grid: Grid
) -> Item[BasePlanDetails]:
    """Return a scan placed by its own coordinates.

    Args:
        item: the scan.
        fit: from its pixels to coordinates of the grid's system.
        grid: of the plan.

    Raises:
        EditRefused: it would lie more than 100 km from the plan's origin, or be too small.
    """
    a, b, c, d, e, f = fit
    east, north = grid.to_plan(c, f)
    # pixels count down: a similarity turns the scan over
    square = hypot(a + e, b - d) <= _ALIKE * hypot(a, d)
    model = Model.SIMILARITY if square else Model.AFFINE
    known = replace(item, details=replace(item.details, model=model, bend=()))
    return placed(known, (a, b, east, d, e, north))
