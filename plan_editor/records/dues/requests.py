"""Burials that are wished on a day; who is buried stands on the request's card alone."""

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
            key=asked.id,
            date=last_day(asked.details.wished),
            title=f"Burial, {called(plan, asked.details.grave) or 'no space chosen yet'}",
            says=_says(asked.details),
            item=asked.id,
        )
        for asked in plan.of(request.KIND)
        if asked.details.wished and asked.details.progress in _AWAITED
    )


def _says(told: RequestDetails) -> str:
    hour = f" at {told.hour}" if told.hour else ""
    return f"{told.sort.capitalize()}{hour}; {told.progress}."


DUE = SortOfDue(
    name="requests",
    title="Burials",
    task=True,
    find=find,
    source="The day that was wished.",
)
