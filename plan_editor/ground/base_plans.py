"""What lies under the ground: base plans, where they lie, and what may be done with them."""

from dataclasses import dataclass

from plan_editor.geometry.mappings import Mapping
from plan_editor.kinds import base_plan
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.fits.models import Model


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A base plan that has been placed.

    Args:
        item: its item.
        name: what it is called.
        is_scan: a picture; otherwise a drawing.
        digest: of its original bytes, kept with the plan.
        page: of a file of several pages, from 1.
        mapping: its way to metres east and north about the plan's origin; from pixels right
            and down from the top left of a scan, or the units of a drawing, right and up.
        opacity: 0 to 1.
        shown: on the screen.
        reproducible: it may be printed.
        acknowledgement: what must be printed with it: copyright line and licence number.
        rmse_m, loo_rmse_m: how well its control agrees, and by how much a point of it is missed
            that is left out; None where that is not known.
    """

    item: ItemId
    name: str
    is_scan: bool
    digest: str
    page: int = 1
    mapping: Mapping
    opacity: float
    shown: bool
    reproducible: bool
    acknowledgement: str
    rmse_m: float | None = None
    loo_rmse_m: float | None = None


def laid(plan: Plan) -> tuple[Laid, ...]:
    """Return the base plans that have been placed, the first laid first."""
    found = ((item, item.details.mapping) for item in plan.of(base_plan.KIND))
    return tuple(_laid(item, mapping) for item, mapping in found if mapping is not None)


def _laid(item: Item[base_plan.BasePlanDetails], mapping: Mapping) -> Laid:
    details = item.details
    licence = f"Licence {details.licence}." if details.licence else ""
    return Laid(
        item=item.id,
        name=details.name,
        is_scan=details.content is base_plan.Content.SCAN,
        digest=details.digest,
        page=details.page,
        mapping=mapping,
        opacity=details.opacity,
        shown=details.shown,
        reproducible=details.reproducible,
        acknowledgement=" ".join(filter(None, (details.copyright, licence))),
        rmse_m=details.rmse_m,
        loo_rmse_m=details.loo_rmse_m,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """What there is to say of a base plan, placed or not.

    Args:
        name: what it is called.
        sort: a scan or a drawing.
        page: of a file of several pages, from 1.
        placed: whether it lies on the ground.
        model: the kind of fit by which it was placed; None if not placed.
        metres: on the ground, of a pixel's side or a drawing's unit, where it bends by the
            straight fit that comes near it; None if not placed.
        rmse_m: how well its control agrees, in metres; None where it was not placed by points.
        loo_rmse_m: by how much a point of its control is missed that is left out of the fit, in
            metres; None where that is not known.
        source, date: where it comes from.
        reproducible: it may be printed.
    """

    name: str
    sort: str
    page: int
    placed: bool
    model: Model | None
    metres: float | None
    rmse_m: float | None
    loo_rmse_m: float | None
    source: str
    date: str
    reproducible: bool


def listed(plan: Plan) -> tuple[Listed, ...]:
    """Return what there is to say of every base plan, the first laid first."""
    return tuple(_listed(item.details) for item in plan.of(base_plan.KIND))


def _listed(details: base_plan.BasePlanDetails) -> Listed:
    fit = details.fit
    return Listed(
        name=details.name,
        sort=details.content.value,
        page=details.page,
        placed=bool(fit),
        model=details.model if fit else None,
        metres=abs(fit[0] * fit[4] - fit[1] * fit[3]) ** 0.5 if fit else None,
        rmse_m=details.rmse_m,
        loo_rmse_m=details.loo_rmse_m,
        source=details.source,
        date=details.date,
        reproducible=details.reproducible,
    )
