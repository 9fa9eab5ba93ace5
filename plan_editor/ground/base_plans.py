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
