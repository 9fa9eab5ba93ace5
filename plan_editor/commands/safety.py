"""Things by their latest inspection, an inspection to be recorded, zones to keep off."""

from collections import Counter
from dataclasses import dataclass
from functools import cache
from typing import Any

from plan_editor.commands.today import today
from plan_editor.edits.chosen import called_on
from plan_editor.edits.register import MakeSafe, RecordInspection
from plan_editor.errors import CannotUse
from plan_editor.ground.clearance import Zone, zones
from plan_editor.ground.rules import Purpose, shipped_rules
from plan_editor.plan.detail import Detail
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import kind_of_ours, kinds
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan
from plan_editor.records.intervals import NextLook, next_looks
from plan_editor.records.methods import method_for
from plan_editor.records.safety import (
    Standing,
    inspected_kinds,
    standings,
    unsafe,
)

NEVER = "never inspected"
NO_RESULT = "inspected, no result recorded"

FAILED = "immediate action"
MADE_SAFE = "made safe for now"
"""Results that the window offers by a press, as the kind has them."""

_SHORT = {
    FAILED: "immediate",
    MADE_SAFE: "made safe",
    "minor fault, look again": "minor fault",
    NEVER: "never",
    NO_RESULT: "no result",
}
_URGENT = (
    FAILED,
    MADE_SAFE,
    "minor fault, look again",
    "",
    "sound",
)
"""Results, the most urgent first; the empty one stands for what is not known."""

CAUTION = (
    "A leaning stone may fall without warning. Testing is for trained people; do not push,"
    " climb or kneel at a stone. What is fenced off, and who repairs it, follows the rules of"
    " the diocese and the law."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectedLine:
    """One thing in the list: its number and kind, how it stands, when that was found.

    Args:
        item: the thing.
        number: its number, or what else it is called.
        kind: name of its kind.
        state: the result that counts, or that there is none.
        date: of that inspection.
        due: when it is to be looked at next, in a few words; empty where nobody says.
        overdue: whether that day is past.
        urgent: 0 for what is unsafe, the more the less urgent.
    """

    item: ItemId
    number: str
    kind: str
    state: str
    date: str
    due: str
    overdue: bool
    urgent: int

    @property
    def short(self) -> str:
        """The state in a word or two, for a narrow column."""
        return _SHORT.get(self.state, self.state)


def inspected_lines(plan: Plan) -> tuple[InspectedLine, ...]:
    """Return everything that was or ought to be inspected, as it stands today.

    The most urgent stands first, what is overdue before what is not, then by number.
    """
    on = today()
    looks = {look.standing.item.id: look for look in next_looks(plan, on)}
    lines = (
        _line(s, looks.get(s.item.id), on)
        for s in standings(plan, on=on)
        if s.inspections or s.item.id in looks
    )
    return tuple(
        sorted(lines, key=lambda s: (s.urgent, not s.overdue, s.kind, natural(s.number)))
    )


def states_counted(lines: tuple[InspectedLine, ...]) -> tuple[tuple[str, int], ...]:
    """Return how many things there are in each state, the most urgent first."""
    return tuple(Counter(line.state for line in lines).items())


def due_told(lines: tuple[InspectedLine, ...]) -> str:
    """Return in a sentence how many things ought to have been looked at by today."""
    count = sum(line.overdue for line in lines)
    if not count:
        return "Nothing is due to be inspected today." if lines else ""
    return f"{count:,} due or overdue." if count > 1 else "One is due or overdue."


def kinds_of(lines: tuple[InspectedLine, ...]) -> tuple[tuple[str, str], ...]:
    """Return name and plural of each kind that stands in the list."""
    there = {line.kind for line in lines}
    return tuple((k.name, k.plural) for k in kinds() if k.name in there)


def zones_of(plan: Plan, purpose: Purpose) -> tuple[Zone, ...]:
    """Return the zones to keep off round what is unsafe today."""
    return zones(plan, unsafe(plan, on=today()), purpose=purpose)


@cache
def inspection_details() -> tuple[Detail, ...]:
    """Return what is asked when an inspection is recorded."""
    return tuple(d for d in kind_of_ours("inspection").entries() if d.name != "target")


def record_inspection(
    document: Document,
    target: ItemId,
    values: dict[str, Any],
    *,
    cordon: ItemId | None = None,
) -> Edit:
    """Return the edit that records what was found at a thing, or that it was made safe.

    Args:
        document: the plan that the thing is on.
        target: the stone, tree, wall or whatever it is.
        values: by the names of ``inspection_details``; what is missing stays as it usually is.
        cordon: the barrier that was taken away; it stays unless something was made safe.

    Raises:
        CannotUse: the date or the result is missing; without them it counts for nothing.
    """
    if not values.get("date"):
        raise CannotUse("Nothing was recorded. Give the date: the latest inspection counts.")
    if not values.get("result"):
        raise CannotUse("Nothing was recorded. Choose the result: how it was found.")
    details = kind_of_ours("inspection").details(**values)
    called = called_on(document.plan, (target,))
    if str(values["result"]) == MADE_SAFE and is_unsafe(document.plan, target):
        return MakeSafe(target=target, details=details, cordon=cordon, called=called)
    return RecordInspection(target=target, details=details, called=called)


def cordon_of(plan: Plan, target: ItemId) -> ItemId | None:
    """Return the barrier that was put up for a thing, the only one; None where none was."""
    found = [
        item.id
        for item in plan.items.values()
        if item.kind.name == "cordon" and item.details.target == target
    ]
    return found[0] if len(found) == 1 else None


def looked_at_by(plan: Plan, item: ItemId) -> str:
    """Return how a thing is to be looked at today, and on whose word."""
    method = method_for(plan, plan.items[item], on=today())
    return f"{method.says} {method.source}"


def is_unsafe(plan: Plan, item: ItemId) -> bool:
    """Return whether a thing is unsafe today."""
    return item in unsafe(plan, on=today())


def without_zone(plan: Plan, on: str) -> tuple[str, ...]:
    """Return what is unsafe on an ISO date and has no zone, for want of a rule or a place."""
    ruled = {rule.applies_to for rule in shipped_rules()}
    items = (plan.items[i] for i in unsafe(plan, on=on))
    return tuple(i.called() for i in items if i.kind.name not in ruled or i.shape is None)


def may_be_inspected(document: Document, item: ItemId) -> bool:
    """Return whether an item is something whose inspections are recorded."""
    found = document.plan.items.get(item)
    return found is not None and found.kind.name in inspected_kinds()


def _line(standing: Standing, look: NextLook | None, on: str) -> InspectedLine:
    thing, latest = standing.item, standing.latest
    result = None if latest is None else latest.details.result
    state = str(result) if result else (NO_RESULT if standing.inspections else NEVER)
    return InspectedLine(
        item=thing.id,
        number=thing.number or thing.called(),
        kind=thing.kind.name,
        state=state,
        date="" if latest is None else latest.details.date,
        due=_due(look, on),
        overdue=look is not None and look.date <= on,
        urgent=_URGENT.index(str(result) if result else ""),
    )


def _due(look: NextLook | None, on: str) -> str:
    if look is None:
        return ""
    if look.standing.unsafe:
        return "make safe now"
    if not look.date:
        return "due now"
    return f"overdue, {look.date}" if look.date < on else f"due {look.date}"
