"""The schedule of inspections that are due, or will be within a year."""

from plan_editor.plan.plan import Plan
from plan_editor.records.days import months_after
from plan_editor.records.due import dues
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import called, yes

_MONTHS = 12


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each inspection, the longest due first; those never done last."""
    found = dues(plan, asked.on, until=months_after(asked.on, _MONTHS))
    found = tuple(sorted(found, key=lambda d: not d.date))
    return tuple(
        Line(
            cells=(
                due.date or "never done",
                yes(bool(due.date) and due.overdue(asked.on)),
                called(plan, due.item) or due.title,
                due.says,
            ),
            item=due.item,
        )
        for due in found
        if due.sort == "inspections"
    )


SCHEDULE = Schedule(
    name="inspections_due",
    title="Inspections due",
    purpose="For whoever walks round: what is to be looked at, overdue first, a year ahead.",
    headings=(
        Heading(title="Due", share=1.0),
        Heading(title="Overdue", share=0.7),
        Heading(title="What", share=2.0),
        Heading(title="Why", share=4.0),
    ),
    lines=lines,
    note="Reckoned from the dates of inspections and the parish's own intervals. The rules of"
    " the diocese and the insurer go before it; testing is for trained people.",
)
