"""Reservations that end: on that day the space is free again, unless the faculty is renewed."""

from plan_editor.kinds import reservation
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.days import last_day
from plan_editor.records.due import Due, SortOfDue

NAME = "reservations"


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return the end of every reservation that was granted and neither used nor given up."""
    del on  # one that ended long ago still waits for somebody to release the space
    return tuple(
        _due(plan, kept)
        for kept in plan.of(reservation.KIND)
        if kept.details.stage is Stage.GRANTED and kept.details.expires
    )


def _due(plan: Plan, kept: Item[ReservationDetails]) -> Due:
    space = kept.details.grave
    called = "A space" if space is None else plan.items[space].called()
    return Due(
        sort=NAME,
        key=kept.id,
        date=last_day(kept.details.expires),
        title=f"{called}: reservation ends",
        says=f"Faculty {kept.details.faculty or 'without a number'}. Ask the registry before"
        " the space is given to anybody else; then release it.",
        item=kept.id,
    )


DUE = SortOfDue(
    name=NAME,
    title="Reservations that end",
    task=True,
    find=find,
    source="The day that the faculty names.",
)
