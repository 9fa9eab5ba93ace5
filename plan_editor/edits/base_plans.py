"""Base plans laid under the ground and placed."""

from dataclasses import dataclass, replace

import numpy as np
import shapely

from plan_editor.errors import EditRefused, PlanEditorError
from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.kinds import base_plan
from plan_editor.kinds.base_plan import BasePlanDetails, Content
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.plan import Plan
from plan_editor.survey.fitting import Affine, Fit, similarity
from plan_editor.survey.grid import Grid
from plan_editor.survey.models import Control

Extent = tuple[float, float, float, float]
"""Least x and y, greatest x and y, in pixels or a drawing's own units."""


def scan_item(name: str, digest: str, *, width: int, height: int) -> Item[BasePlanDetails]:
    """Return the item of a scan of so many pixels that has not been placed."""
    return _item(name, digest, Content.SCAN, (0.0, 0.0, float(width), float(height)))


def drawing_item(name: str, digest: str, *, extent: Extent) -> Item[BasePlanDetails]:
    """Return the item of a drawing that has not been placed; its extent in its own units.

    One that is flat, a single straight line perhaps, is given some room on both sides.
    """
    x0, y0, x1, y1 = extent
    room = max(x1 - x0, y1 - y0) / 100 or 1.0
    wide, high = (0.0 if far > near else room for near, far in ((x0, x1), (y0, y1)))
    roomy = (x0 - wide, y0 - high, x1 + wide, y1 + high)
    return _item(name, digest, Content.DRAWING, roomy)


def _item(name: str, digest: str, content: Content, extent: Extent) -> Item[BasePlanDetails]:
    details = BasePlanDetails(name=name, content=content, digest=digest, extent=extent)
    return new_item(base_plan.KIND, details=details)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceBasePlan:
    """Place a base plan by points of known coordinates: the best similarity through them.

    Args:
        id: the base plan.
        control: two points or more.
    """

    id: ItemId
    control: tuple[Control, ...]

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Place a base plan by {len(self.control)} points"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the base plan before and after.

        Raises:
            EditRefused: it is not on the plan, or the points do not place it.
        """
        item = _base_plan(plan, self.id)
        try:
            fit = fitted(item.details.content, self.control)
        except PlanEditorError as fault:
            raise EditRefused(str(fault)) from fault
        numbers = tuple(n for c in self.control for n in (c.x, c.y, c.east, c.north))
        details = replace(item.details, control=numbers, rmse_m=round(fit.rmse, 4))
        sd = fit.standard_deviation
        basis = replace(item.basis, sd_m=None if sd is None else round(sd, 4))
        known = replace(item, details=details, basis=basis)
        return (Change(item, placed(known, fit.parameters)),)


def fitted(content: Content, control: tuple[Control, ...]) -> Fit:
    """Return the best similarity through some points.

    Raises:
        CannotUse: the points do not place it.
    """
    # pixels count down, the units of a drawing count up
    down = 1.0 if content is Content.SCAN else -1.0
    fit = similarity([((c.x, down * c.y), (c.east, c.north)) for c in control])
    a, b, c, d, e, f = fit.parameters
    return replace(fit, parameters=(a, down * b, c, d, down * e, f))


def as_drawn(
    item: Item[BasePlanDetails], metres_per_unit: float, grid: Grid
) -> Item[BasePlanDetails]:
    """Return a drawing placed by its own coordinates, taken as those of the grid's system.

    Raises:
        EditRefused: they lie more than 100 km from the plan's origin.
    """
    m = metres_per_unit
    return placed(item, (m, 0.0, -grid.east, 0.0, m, -grid.north))


def placed(item: Item[BasePlanDetails], fit: Affine) -> Item[BasePlanDetails]:
    """Return a base plan with a fit, its outline on the ground as its shape.

    Raises:
        EditRefused: it shows nothing, would lie more than 100 km away, or be too small to see.
    """
    if not item.details.extent:
        raise EditRefused(f"{item.called()} shows nothing yet. Nothing was changed.")
    x0, y0, x1, y1 = item.details.extent
    a, b, c, d, e, f = fit
    corners = np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
    ground = corners @ np.array([(a, d), (b, e)]) + (c, f)
    if not (abs(ground) < FARTHEST).all():
        raise EditRefused(
            f"{item.called()} would lie more than 100 km from the plan's origin. Nothing was"
            " changed. Check the coordinates and their order, east before north."
        )
    try:
        there = item.at(shapely.Polygon(ground))
    except ValueError as fault:
        raise EditRefused(
            f"{item.called()} would be smaller than a millimetre on the ground. Nothing was"
            " changed. Check the coordinates."
        ) from fault
    return replace(there, details=replace(there.details, fit=fit))


def _base_plan(plan: Plan, wanted: ItemId) -> Item[BasePlanDetails]:
    found = next((i for i in plan.of(base_plan.KIND) if i.id == wanted), None)
    if found is None:
        raise EditRefused("That base plan is no longer on the plan. Nothing was changed.")
    return found
