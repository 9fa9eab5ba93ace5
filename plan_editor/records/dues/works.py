"""Works with a day by which they are wanted."""

from plan_editor.kinds import works
from plan_editor.plan.plan import Plan
from plan_editor.records.days import last_day
from plan_editor.records.due import Due, SortOfDue
from plan_editor.records.programme import Work, leave_told, programme

_SORT = "works"


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return the works that are wanted by a day."""
    return tuple(_due(plan, x.work) for x in programme(plan, on) if x.work.details.due)


def _due(plan: Plan, work: Work) -> Due:
    told = work.details
    thing = None if told.target is None else plan.items[told.target]
    at = "" if thing is None else f", {thing.called()}"
    return Due(
        sort=_SORT,
        key=work.id,
        date=last_day(told.due),
        title=f"{told.what or works.KIND.title}{at}",
        says=f"{str(told.progress).capitalize()}; leave: {leave_told(work)}.",
        item=work.id if thing is None else thing.id,
    )


DUE = SortOfDue(
    name=_SORT, title="Works", task=True, find=find, source="The parish's own days."
)
