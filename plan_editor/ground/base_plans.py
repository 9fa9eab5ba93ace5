"""What lies under the ground: base plans, where they lie, and what may be done with them."""

from dataclasses import dataclass

from plan_editor.kinds import base_plan
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.fitting import Affine


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A base plan that has been placed.

    Args:
        item: its item.
        name: what it is called.
        is_scan: a picture; otherwise a drawing.
        digest: of its original bytes, kept with the plan.
        fit: a b c d e f: east = a x + b y + c, north = d x + e y + f, in metres about the
            plan's origin; x, y in pixels right and down from the top left of a scan, or in
            the units of a drawing, right and up.
        opacity: 0 to 1.
        shown: on the screen.
        reproducible: it may be printed.
        acknowledgement: what must be printed with it: copyright line and licence number.
    """

    item: ItemId
    name: str
    is_scan: bool
    digest: str
    fit: Affine
    opacity: float
    shown: bool
    reproducible: bool
    acknowledgement: str


def laid(plan: Plan) -> tuple[Laid, ...]:
    """Return the base plans that have been placed, the first laid first."""
    return tuple(
        _laid(item.id, item.details) for item in plan.of(base_plan.KIND) if item.details.fit
    )


def _laid(item: ItemId, details: base_plan.BasePlanDetails) -> Laid:
    a, b, c, d, e, f = details.fit
    licence = f"Licence {details.licence}." if details.licence else ""
    return Laid(
        item=item,
        name=details.name,
        is_scan=details.content is base_plan.Content.SCAN,
        digest=details.digest,
        fit=(a, b, c, d, e, f),
        opacity=details.opacity,
        shown=details.shown,
        reproducible=details.reproducible,
        acknowledgement=" ".join(filter(None, (details.copyright, licence))),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """What there is to say of a base plan, placed or not.

    Args:
        name: what it is called.
        sort: a scan or a drawing.
        placed: whether it lies on the ground.
        metres: on the ground, of a pixel's side or a drawing's unit; None if not placed.
        rmse_m: how well its control agrees, in metres; None where it was not placed by points.
        source, date: where it comes from.
        reproducible: it may be printed.
    """

    name: str
    sort: str
    placed: bool
    metres: float | None
    rmse_m: float | None
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
        placed=bool(fit),
        metres=abs(fit[0] * fit[4] - fit[1] * fit[3]) ** 0.5 if fit else None,
        rmse_m=details.rmse_m,
        source=details.source,
        date=details.date,
        reproducible=details.reproducible,
    )
