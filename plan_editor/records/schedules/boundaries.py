"""The terrier's schedule of what bounds the ground: walls, fences, hedges, gates."""

from typing import Any

from plan_editor.ground.dangers import Inspection
from plan_editor.kinds import boundary, fence, gate, hedge, wall
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan
from plan_editor.records.safety import latest_inspections
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import by_number, figure, state

_KINDS = (boundary.KIND, wall.KIND, fence.KIND, hedge.KIND, gate.KIND)


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each boundary, wall, fence, hedge and gate, kind by kind."""
    latest = latest_inspections(plan, on=asked.on)
    return tuple(
        Line(cells=_cells(one, latest.get(one.id)), item=one.id)
        for kind in _KINDS
        for one in sorted(plan.of(kind), key=by_number)
    )


def _cells(one: Item[Any], latest: Inspection | None) -> tuple[str, ...]:
    told = one.details
    sort = getattr(told, "sort", "")
    made_of = getattr(told, "material", "") or getattr(told, "species", "")
    return (
        one.called(),
        ", ".join(filter(None, (str(sort), made_of))),
        *_measured(one),
        figure(getattr(told, "height_m", None)),
        state(latest),
        told.kept_by or "not recorded",
        told.remarks,
    )


def _measured(one: Item[Any]) -> tuple[str, str]:
    """Return its length in metres and how that was taken; a gate's is what can pass."""
    if one.kind == gate.KIND and one.details.clear_width_m is not None:
        return figure(one.details.clear_width_m, 2), "clear width"
    match one.form:
        case Form.LINE:
            return figure(one.lies.length), "along it"
        case Form.AREA:
            return figure(one.lies.length), "round it"
        case _:
            return "", ""


SCHEDULE = Schedule(
    name="boundaries",
    title="Boundary features",
    purpose="For the terrier and inventory: what bounds the ground, its state and who repairs.",
    headings=(
        Heading(title="Feature", share=1.8),
        Heading(title="Sort and material", share=1.8),
        Heading(title="Length, m", share=1.0, figures=True),
        Heading(title="Measured", share=1.15),
        Heading(title="Height, m", share=0.95, figures=True),
        Heading(title="State at the latest inspection", share=1.7),
        Heading(title="Who repairs", share=1.7),
        Heading(title="Remarks", share=1.9),
    ),
    lines=lines,
    note="Lengths are on the flat, in metres of the grid, as good as the survey they rest on."
    " Who repairs is what the parish believes; deeds and agreements go before it, and a plan"
    " shows general boundaries only.",
)
