"""The schedules behind the plan of the ground."""

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.schedule import Column, Table
from plan_editor.ground.clearance import zones
from plan_editor.ground.measures import measures
from plan_editor.ground.rules import Purpose
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheets.ground.told import Told
from plan_editor.records.safety import Standing


def tables(told: Told) -> tuple[Table, ...]:
    """Return what there is, and what is unsafe."""
    made = [_quantities(told.plan)] if told.items else []
    return (*made, _unsafe(told)) if told.unsafe else tuple(made)


def _quantities(plan: Plan) -> Table:
    rows = tuple(
        (
            m.kind.plural,
            str(m.count),
            f"{m.area_m2:,.1f}" if m.area_m2 else "",
            f"{m.length_m:,.1f}" if m.length_m else "",
        )
        for m in measures(plan)
        if m.kind.drawn and m.kind.legend
    )
    return Table(
        heading="What there is",
        note="Areas and lengths on the flat, in metres of the grid; a line with a width counts "
        "with both. They are as exact as the places of the things measured.",
        columns=(
            Column(title="Kind", share=4.0),
            Column(title="Number", share=1.5, figures=True),
            Column(title="Area, m²", share=2.0, figures=True),
            Column(title="Length, m", share=2.0, figures=True),
        ),
        rows=rows,
    )


def _unsafe(told: Told) -> Table:
    reach = {p: _distances(told, p) for p in Purpose}
    rows = tuple(
        (
            s.item.number or "no number" if s.item.kind.name == "memorial" else s.item.called(),
            _on(told.plan, s),
            ""
            if (tall := getattr(s.item.details, "height_m", None)) is None
            else f"{tall:.2f}",
            in_words(s.latest.details.date) if s.latest else "",
            (s.latest.details.action if s.latest else "") or "to be decided",
            reach[Purpose.PEOPLE].get(s.item.id, ""),
            reach[Purpose.MACHINE].get(s.item.id, ""),
        )
        for s in sorted(told.unsafe, key=lambda s: s.item.number)
    )
    return Table(
        heading="What is unsafe",
        note="By the latest inspection of each. Keep away: metres from its outline by a local "
        "rule; no published distance is known. Fence off, tell the family of a stone, and have"
        " a trained person make it safe. * height not recorded, taken from the rule.",
        columns=(
            Column(title="What", share=1.5),
            Column(title="On", share=1.6),
            Column(title="Height, m", share=1.1, figures=True),
            Column(title="Inspected", share=1.9),
            Column(title="Found, and what to do", share=4.0),
            Column(title="People, m", share=1.1, figures=True),
            Column(title="Machines, m", share=1.2, figures=True),
        ),
        rows=rows,
    )


def _distances(told: Told, purpose: Purpose) -> dict[ItemId, str]:
    ids = [s.item.id for s in told.unsafe]
    return {
        kept.item.id: f"{kept.distance_m:.1f}" + ("*" if kept.assumed else "")
        for zone in zones(told.plan, ids, purpose=purpose)
        for kept in zone.kept_from
    }


def _on(plan: Plan, standing: Standing) -> str:
    on = getattr(standing.item.details, "grave", None)
    return plan.items[on].called() if on and on in plan.items else ""
