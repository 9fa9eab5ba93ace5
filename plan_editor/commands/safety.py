"""Memorials by their latest inspection, an inspection to be recorded, zones to keep off."""

from dataclasses import dataclass
from functools import cache
from typing import Any

from plan_editor.commands.today import today
from plan_editor.edits.chosen import called_on
from plan_editor.edits.register import RecordInspection
from plan_editor.errors import CannotUse
from plan_editor.ground.clearance import Zone, zones
from plan_editor.ground.rules import Purpose
from plan_editor.plan.detail import Detail
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Kind, kind_named
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan
from plan_editor.records.safety import Standing, standings, unsafe

NEVER = "never inspected"
NO_RESULT = "inspected, no result recorded"

CAUTION = (
    "A leaning stone may fall without warning. Testing is for trained people; do not push,"
    " climb or kneel at a stone. What is fenced off, and who repairs it, follows the rules of"
    " the diocese and the law."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StoneLine:
    """One memorial in the list: its number, how it stands, when that was found."""

    item: ItemId
    number: str
    state: str
    date: str
    urgent: int


def stone_lines(plan: Plan) -> tuple[StoneLine, ...]:
    """Return every memorial as it stands today, the most urgent first, then by number."""
    lines = (_line(s) for s in standings(plan, on=today()))
    return tuple(sorted(lines, key=lambda s: (s.urgent, natural(s.number))))


def stones_counted(lines: tuple[StoneLine, ...]) -> tuple[tuple[str, int], ...]:
    """Return how many memorials there are in each state, the most urgent first."""
    counted: dict[str, int] = {}
    for line in lines:
        counted[line.state] = counted.get(line.state, 0) + 1
    return tuple(counted.items())


def zones_of(plan: Plan, purpose: Purpose) -> tuple[Zone, ...]:
    """Return the zones to keep off round what is unsafe today."""
    return zones(plan, unsafe(plan, on=today()), purpose=purpose)


@cache
def inspection_details() -> tuple[Detail, ...]:
    """Return what is asked when an inspection is recorded."""
    return tuple(d for d in _inspection().entries() if d.name != "target")


def record_inspection(document: Document, memorial: ItemId, values: dict[str, Any]) -> Edit:
    """Return the edit that records what was found at a memorial.

    Args:
        document: the plan that the memorial is on.
        memorial: the stone.
        values: by the names of ``inspection_details``; what is missing stays as it usually is.

    Raises:
        CannotUse: the date or the result is missing; without them it counts for nothing.
    """
    if not values.get("date"):
        raise CannotUse("Nothing was recorded. Give the date: the latest inspection counts.")
    if not values.get("result"):
        raise CannotUse("Nothing was recorded. Choose the result: how the stone was found.")
    return RecordInspection(
        memorial=memorial,
        details=_inspection().details(**values),
        called=called_on(document.plan, (memorial,)),
    )


def may_be_inspected(document: Document, item: ItemId) -> bool:
    """Return whether an item is something whose inspections are recorded."""
    allowed = next(d for d in _inspection().entries() if d.name == "target").about.refers_to
    found = document.plan.items.get(item)
    return found is not None and found.kind.name in allowed


def _inspection() -> Kind:
    found = kind_named("inspection")
    assert found is not None  # noqa: S101  # it is one of ours
    return found


def _line(standing: Standing) -> StoneLine:
    stone, latest = standing.memorial, standing.latest
    number = stone.number or stone.called()
    result = None if latest is None else latest.details.result
    if latest is None or result is None:
        state = NO_RESULT if standing.inspections else NEVER
        return StoneLine(item=stone.id, number=number, state=state, date="", urgent=2)
    order = list(type(result)).index(result)
    return StoneLine(
        item=stone.id,
        number=number,
        state=str(result),
        date=latest.details.date,
        urgent=order if order < 2 else 3,
    )
