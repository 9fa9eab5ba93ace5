"""The schedule of memorials that are unsafe."""

from plan_editor.plan.plan import Plan
from plan_editor.records.safety import standings
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import by_number, called, figure, yes


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each memorial whose inspections call for immediate action."""
    found = [s for s in standings(plan, on=asked.on, kinds=("memorial",)) if s.unsafe]
    made = []
    for standing in sorted(found, key=lambda s: by_number(s.item)):
        stone, latest = standing.item, standing.latest
        told = None if latest is None else latest.details
        cells = (
            stone.called(),
            called(plan, stone.details.grave),
            stone.details.form.value,
            figure(stone.details.height_m, 2),
            "" if told is None else told.date,
            "" if told is None else told.test.value,
            "" if told is None else told.action,
            stone.details.list_entry,
            yes(stone.details.war_grave),
        )
        made.append(Line(cells=cells, item=stone.id))
    return tuple(made)


SCHEDULE = Schedule(
    name="unsafe",
    title="Unsafe memorials",
    purpose="For whoever keeps people away from stones that may fall, and has them made safe.",
    headings=(
        Heading(title="Memorial", share=1.6),
        Heading(title="On", share=1.4),
        Heading(title="Form", share=1.3),
        Heading(title="Height, m", share=1.0, figures=True),
        Heading(title="Inspected", share=1.3),
        Heading(title="Tested by", share=1.1),
        Heading(title="Action taken or wanted", share=2.4),
        Heading(title="List entry", share=0.9),
        Heading(title="War grave", share=0.8),
    ),
    lines=lines,
    note="By the latest inspection of each up to this day. A stone that stands in no line is"
    " not therefore safe: it may never have been looked at. Only trained people test memorials;"
    " work on them needs leave, and a war grave or a listed stone more.",
)
