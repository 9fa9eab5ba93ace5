"""What is unsafe: what the latest inspection of each thing says."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

from plan_editor.ground.dangers import Inspection, counting, ordered
from plan_editor.kinds import inspection
from plan_editor.kinds.inspection import Result
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.days import first_day


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What is known of one thing's safety.

    Args:
        item: the stone, tree, wall or whatever it is.
        latest: its latest inspection that came to a result, the one that counts; None where
            there is none.
        inspections: all up to the day in question, the latest first.
    """

    item: Item[Any]
    latest: Inspection | None
    inspections: tuple[Inspection, ...]

    @property
    def unsafe(self) -> bool:
        """Whether the latest inspection calls for immediate action."""
        return self.latest is not None and self.latest.details.result is Result.IMMEDIATE


@cache
def inspected_kinds() -> tuple[str, ...]:
    """Return the names of the kinds whose inspections are recorded."""
    target = next(d for d in inspection.KIND.entries() if d.name == "target")
    return target.about.refers_to


def standings(plan: Plan, *, on: str = "", kinds: Collection[str] = ()) -> tuple[Standing, ...]:
    """Return the standing of everything that can be inspected.

    Inspections go by their date; one without a result counts for nothing. A failed inspection
    stands until another is surely of a later day, however incomplete its date is: a stone is
    called safe only where that follows. What was made safe is out of danger, by the same rule.

    Args:
        plan: the plan.
        on: ISO date of the day in question, later inspections are left out; empty for no end.
        kinds: names of the kinds that are wanted; empty for all that can be inspected.
    """
    found = _by_target(plan, on)
    wanted = frozenset(kinds or inspected_kinds())
    return tuple(
        _standing(item, found.get(item.id, ()))
        for item in plan.items.values()
        if item.kind.name in wanted
    )


def latest_inspections(plan: Plan, *, on: str = "") -> dict[ItemId, Inspection]:
    """Return the inspection that counts of each thing that was inspected with a result.

    Args:
        plan: the plan.
        on: as of ``standings``, and reckoned alike.
    """
    latest = {t: counting(f) for t, f in _by_target(plan, on).items()}
    return {target: one for target, one in latest.items() if one is not None}


def unsafe(plan: Plan, *, on: str = "") -> tuple[ItemId, ...]:
    """Return what is unsafe, of whatever kind, as ``standings`` tells."""
    latest = latest_inspections(plan, on=on)
    failed = (t for t, i in latest.items() if i.details.result is Result.IMMEDIATE)
    return tuple(target for target in failed if target in plan.items)


def _by_target(plan: Plan, on: str) -> dict[ItemId, list[Inspection]]:
    found: dict[ItemId, list[Inspection]] = {}
    for one in plan.of(inspection.KIND):
        target = one.details.target
        if target is not None and not (on and first_day(one.details.date) > on):
            found.setdefault(target, []).append(one)
    return found


def _standing(item: Item[Any], found: Iterable[Inspection]) -> Standing:
    return Standing(item=item, latest=counting(found), inspections=ordered(found))
