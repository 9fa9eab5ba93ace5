"""The schedule of trees."""

from plan_editor.ground.dangers import Inspection
from plan_editor.kinds import tree
from plan_editor.kinds.tree import TreeDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.safety import latest_inspections
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import by_number, figure, state, yes


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each tree, in the order of their numbers."""
    latest = latest_inspections(plan, on=asked.on)
    return tuple(
        Line(cells=_cells(one, latest.get(one.id)), item=one.id)
        for one in sorted(plan.of(tree.KIND), key=by_number)
    )


def _cells(one: Item[TreeDetails], latest: Inspection | None) -> tuple[str, ...]:
    told = one.details
    return (
        one.number or "no number",
        told.species,
        ", ".join(figure(stem, 0) for stem in told.stems_mm),
        figure(told.height_m),
        " / ".join(figure(s) for s in told.crown_m or ()),
        "" if told.category is None else told.category.value[0],
        yes(told.veteran),
        told.protected,
        yes(told.conservation_area),
        state(latest),
    )


SCHEDULE = Schedule(
    name="trees",
    title="Trees",
    purpose="For a tree surgeon and the council: each tree, its size, what protects it.",
    headings=(
        Heading(title="No.", share=0.9),
        Heading(title="Species", share=1.7),
        Heading(title="Stems, mm", share=1.1, figures=True),
        Heading(title="Height, m", share=0.8, figures=True),
        Heading(title="Crown N / E / S / W, m", share=1.9, figures=True),
        Heading(title="Category", share=0.9),
        Heading(title="Veteran", share=0.8),
        Heading(title="Preservation order", share=1.3),
        Heading(title="Conservation area", share=1.2),
        Heading(title="State at the latest inspection", share=2.2),
    ),
    lines=lines,
    note="Stems at 1.5 m above the ground and categories after BS 5837:2012; a spread that was"
    " not measured is taken as the mean of the others. Before work ask the council about orders"
    " and conservation areas, and the archdeacon about leave; look for nests and bats.",
)
