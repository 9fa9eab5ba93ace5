"""The schedule of everything that is due, or will be within a year."""

from plan_editor.plan.plan import Plan
from plan_editor.records.days import months_after
from plan_editor.records.due import dues, sorts_of_due
from plan_editor.records.schedule import Asked, Heading, Line, Schedule

_MONTHS = 12


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each thing to be done, and each day to know of that is to come.

    The earliest comes first; what has no day because it was never done comes last.
    """
    found = dues(plan, asked.on, until=months_after(asked.on, _MONTHS))
    sorts = {s.name: s for s in sorts_of_due()}
    return tuple(
        Line(
            cells=(due.date or "never done", sorts[due.sort].title, due.title, due.says),
            item=due.item,
        )
        for due in sorted(found, key=lambda d: not d.date)
        if sorts[due.sort].task or not due.overdue(asked.on)
    )


SCHEDULE = Schedule(
    name="dues",
    title="What is due",
    purpose="For the parochial church council: everything with a day, a year ahead.",
    headings=(
        Heading(title="Due", share=1.0),
        Heading(title="Sort", share=1.3),
        Heading(title="What", share=2.5),
        Heading(title="Why", share=3.5),
    ),
    lines=lines,
    note="Days are reckoned from what is recorded on the plan, and are no more complete than"
    " that. What the law, the diocese or a faculty says goes before it.",
)
