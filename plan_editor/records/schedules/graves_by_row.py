"""The schedule of graves, row by row."""

from collections.abc import Mapping
from itertools import chain

from plan_editor.ground.rows import rows
from plan_editor.ground.sections import section_of
from plan_editor.kinds import burial, grave, memorial
from plan_editor.kinds.grave import GraveDetails
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import by_number, figure

Names = Mapping[ItemId, list[str]]


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each grave: rows in the order of numbers, and along each row."""
    del asked
    there = {g.id: g for g in plan.of(grave.KIND)}
    ordered = sorted((row.ids for row in rows(plan)), key=lambda ids: _first(there, ids))
    lie, stand = _burials(plan), _memorials(plan)
    found = []
    for number, ids in enumerate(ordered, 1):
        part = _part(plan, ids[0])
        for place, item in enumerate(ids, 1):
            cells = (part, str(number), str(place), *_cells(there[item], lie, stand))
            found.append(Line(cells=cells, item=item))
    in_rows = frozenset(chain.from_iterable(ordered))
    alone = sorted((g for g in there.values() if g.id not in in_rows), key=by_number)
    for one in alone:
        part = _part(plan, one.id)
        found.append(Line(cells=(part, "none", "", *_cells(one, lie, stand)), item=one.id))
    return tuple(found)


def _first(
    there: Mapping[ItemId, Item[GraveDetails]], ids: tuple[ItemId, ...]
) -> tuple[bool, list[tuple[str, int]], str]:
    return min(by_number(there[i]) for i in ids)


def _cells(one: Item[GraveDetails], lie: Names, stand: Names) -> tuple[str, ...]:
    told = one.details
    return (
        one.number or "no number",
        told.state.value,
        "" if told.coffins is None else str(told.coffins),
        figure(told.depth_m, 2),
        "; ".join(lie.get(one.id, ())),
        "; ".join(stand.get(one.id, ())),
    )


def _part(plan: Plan, one: ItemId) -> str:
    part = section_of(plan, one)
    return "" if part is None else plan.items[part].details.name or "no name"


def _burials(plan: Plan) -> dict[ItemId, list[str]]:
    found: dict[ItemId, list[str]] = {}
    for entry in sorted(plan.of(burial.KIND), key=lambda b: b.details.buried):
        told = entry.details
        if told.grave is not None:
            name = " ".join(filter(None, (told.forenames, told.surname))) or "no name"
            year = f" {told.buried[:4]}" if told.buried else ""
            found.setdefault(told.grave, []).append(f"{name}{year}")
    return found


def _memorials(plan: Plan) -> dict[ItemId, list[str]]:
    found: dict[ItemId, list[str]] = {}
    for stone in sorted(plan.of(memorial.KIND), key=lambda m: natural(m.number)):
        if (on := stone.details.grave) is not None:
            told = filter(None, (stone.details.form.value, stone.number))
            found.setdefault(on, []).append(" ".join(told))
    return found


SCHEDULE = Schedule(
    name="graves_by_row",
    title="Graves by row",
    purpose="For the sexton: each grave where it comes along its row, and who lies there.",
    headings=(
        Heading(title="Section", share=1.5),
        Heading(title="Row", share=0.6),
        Heading(title="Place", share=0.75, figures=True),
        Heading(title="Grave", share=1.0),
        Heading(title="State", share=1.3),
        Heading(title="Depth for", share=0.85, figures=True),
        Heading(title="Depth dug, m", share=0.8, figures=True),
        Heading(title="Buried there", share=3.0),
        Heading(title="Memorial", share=1.6),
    ),
    lines=lines,
    note="Rows are found from how the graves lie, and counted from the lowest number. A plan"
    " cannot show burials that nobody recorded: probe before digging.",
)
