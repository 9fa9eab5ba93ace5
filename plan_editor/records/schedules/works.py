"""The schedule of works: what is to be done, how soon, with whose leave."""

from plan_editor.kinds import works
from plan_editor.kinds.works import Priority, Progress, WorksDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.schedule import Asked, Heading, Line, Schedule
from plan_editor.records.told import called, figure

_ENDED = (Progress.DONE, Progress.DROPPED)


def lines(plan: Plan, asked: Asked) -> tuple[Line, ...]:
    """Return a line for each work: those to be done by priority and day, then the others."""
    del asked
    return tuple(
        Line(cells=_cells(plan, work.details), item=work.id)
        for work in sorted(plan.of(works.KIND), key=_order)
    )


def _order(work: Item[WorksDetails]) -> tuple[bool, int, str, str]:
    told = work.details
    soon = len(Priority) if told.priority is None else tuple(Priority).index(told.priority)
    return told.progress in _ENDED, soon, told.due or "9999", told.what


def _cells(plan: Plan, told: WorksDetails) -> tuple[str, ...]:
    return (
        "" if told.priority is None else told.priority.value,
        told.what,
        called(plan, told.target),
        told.progress.value,
        told.leave or told.leave_needed.value,
        figure(told.estimate, 2),
        told.due,
        told.done,
        told.item_no,
    )


SCHEDULE = Schedule(
    name="works",
    title="Works",
    purpose="For the parochial church council and the architect: works wanted, ordered, done.",
    headings=(
        Heading(title="Priority", share=1.2),
        Heading(title="What", share=3.0),
        Heading(title="To what", share=1.6),
        Heading(title="Progress", share=1.0),
        Heading(title="Leave", share=1.8),
        Heading(title="Estimate, £", share=1.0, figures=True),
        Heading(title="Due", share=1.0),
        Heading(title="Done", share=1.0),
        Heading(title="Report item", share=0.8),
    ),
    lines=lines,
    note="Which works need a faculty, the archdeacon's consent or none is said by the Faculty"
    " Jurisdiction Rules: ask the archdeacon or the registry before work begins.",
)
