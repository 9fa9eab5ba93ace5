"""Base plans laid under the ground and placed."""

from dataclasses import dataclass, replace
from math import sqrt

import shapely

from plan_editor.errors import EditRefused, PlanEditorError
from plan_editor.geometry.bending import Extent, outline
from plan_editor.geometry.mappings import Affine, Straight
from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.kinds import base_plan
from plan_editor.kinds.base_plan import BasePlanDetails, Content
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.plan import Plan
from plan_editor.survey.fits.fitting import fit
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import Paper
from plan_editor.survey.grids.grid import Grid


def scan_item(
    name: str, digest: str, *, width: int, height: int, page: int = 1
) -> Item[BasePlanDetails]:
    """Return the item of a page of a scan, of so many pixels, that has not been placed."""
    item = _item(name, digest, Content.SCAN, (0.0, 0.0, float(width), float(height)))
    return replace(item, details=replace(item.details, page=page))


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
    """Place a base plan by points of known coordinates: the best fit of a kind through them.

    What was traced on it stays where it is; ``refitting.RefitBasePlan`` takes it along.

    Args:
        id: the base plan.
        control: as many points as the kind of fit takes, or more.
        model: the kind of fit.
    """

    id: ItemId
    control: tuple[Control, ...]
    model: Model = Model.SIMILARITY

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Place a base plan by {len(self.control)} points"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the base plan before and after.

        Raises:
            EditRefused: it is not on the plan, or the points do not place it.
        """
        item = base_plan_of(plan, self.id)
        return (Change(item, placed_by(item, self.control, self.model)),)


def placed_by(
    item: Item[BasePlanDetails], control: tuple[Control, ...], model: Model
) -> Item[BasePlanDetails]:
    """Return a base plan placed by points, with all that is kept of its fit.

    It is as uncertain, each way, as points left out of the fit are missed by; where none could
    be left out, as the residuals say.

    Raises:
        EditRefused: the points do not place it.
    """
    try:
        found = fit(model, control, paper_of(item))
    except PlanEditorError as fault:
        raise EditRefused(str(fault)) from fault
    details = replace(
        item.details,
        model=model,
        bend=_kept(found.bend),
        control=tuple(n for c in control for n in (c.x, c.y, c.east, c.north)),
        control_sd=tuple(c.sd or 0.0 for c in control) if any(c.sd for c in control) else (),
        control_names=_names(control),
        rmse_m=round(found.rmse, 4),
        loo_rmse_m=None if found.loo_rmse is None else round(found.loo_rmse, 4),
    )
    sd = found.standard_deviation if found.loo_rmse is None else found.loo_rmse / sqrt(2.0)
    basis = replace(item.basis, sd_m=None if sd is None else round(sd, 4))
    return placed(replace(item, details=details, basis=basis), _six(_kept(found.straight)))


def paper_of(
    item: Item[BasePlanDetails], dots_per_inch: tuple[float, float] | None = None
) -> Paper:
    """Return what is known of the sheet that a base plan shows.

    Args:
        item: the base plan.
        dots_per_inch: of a scan, where its file tells them; they are not kept in the plan.
    """
    return Paper(
        upward=item.details.content is Content.DRAWING,
        extent=_four(item.details.extent),
        dots_per_inch=dots_per_inch,
    )


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
    extent = _four(item.details.extent)
    if extent is None:
        raise EditRefused(f"{item.called()} shows nothing yet. Nothing was changed.")
    known = replace(item, details=replace(item.details, fit=fit))
    mapping = known.details.mapping
    ground = Straight(fit) if mapping is None else mapping
    edge = outline(ground, extent)
    if not (abs(edge) < FARTHEST).all():
        raise EditRefused(
            f"{item.called()} would lie more than 100 km from the plan's origin. Nothing was"
            " changed. Check the coordinates and their order, east before north."
        )
    try:
        return known.at(shapely.Polygon(edge))
    except ValueError as fault:
        raise EditRefused(
            f"{item.called()} would be smaller than a millimetre on the ground. Nothing was"
            " changed. Check the coordinates."
        ) from fault


def base_plan_of(plan: Plan, wanted: ItemId) -> Item[BasePlanDetails]:
    """Return a base plan.

    Raises:
        EditRefused: it is not on the plan.
    """
    found = next((i for i in plan.of(base_plan.KIND) if i.id == wanted), None)
    if found is None:
        raise EditRefused("That base plan is no longer on the plan. Nothing was changed.")
    return found


_DIGITS = 12
"""More digits of a fit are not kept: the last of sixteen differs from machine to machine."""


def _kept(numbers: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(float(f"{n:.{_DIGITS}g}") + 0.0 for n in numbers)


def _names(control: tuple[Control, ...]) -> str:
    """Return the names one a line; nothing where none has one."""
    names = [" ".join(c.name.split()) for c in control]
    return "\n".join(names) if any(names) else ""


def _four(numbers: tuple[float, ...]) -> Extent | None:
    if not numbers:
        return None
    x0, y0, x1, y1 = numbers
    return x0, y0, x1, y1


def _six(numbers: tuple[float, ...]) -> Affine:
    a, b, c, d, e, f = numbers
    return a, b, c, d, e, f
