"""Burials that are wished on a day."""

from plan_editor.kinds import request
from plan_editor.kinds.request import Progress, RequestDetails
from plan_editor.plan.plan import Plan
from plan_editor.records.days import last_day
from plan_editor.records.due import Due, SortOfDue
from plan_editor.records.told import called

_AWAITED = (Progress.ASKED, Progress.AGREED, Progress.DUG)


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return a due for each burial that is wished on a day and has not taken place."""
    del on
    return tuple(
        Due(
            sort="requests",
            date=last_day(asked.details.wished),
            title=asked.called(),
            says=_says(plan, asked.details),
            item=asked.id,
        )
        for asked in plan.of(request.KIND)
        if asked.details.wished and asked.details.progress in _AWAITED
    )


def _says(plan: Plan, told: RequestDetails) -> str:
    where = called(plan, told.grave) or "no space chosen yet"
    hour = f" at {told.hour}" if told.hour else ""
    return f"{told.sort.capitalize()}{hour}, {where}; {told.progress}."


DUE = SortOfDue(
    name="requests",
    title="Burials",
    task=True,
    find=find,
    source="The day that was wished.",
)
