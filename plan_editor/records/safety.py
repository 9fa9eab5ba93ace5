"""Which memorials are unsafe: what the latest inspection of each says."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain

from plan_editor.kinds import inspection, memorial
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

Inspection = Item[InspectionDetails]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What is known of one memorial's safety.

    Args:
        memorial: the stone.
        latest: its latest inspection that came to a result, the one that counts; None where
            there is none.
        inspections: all up to the day in question, the latest first.
    """

    memorial: Item[MemorialDetails]
    latest: Inspection | None
    inspections: tuple[Inspection, ...]

    @property
    def unsafe(self) -> bool:
        """Whether the latest inspection calls for immediate action."""
        return self.latest is not None and self.latest.details.result is Result.IMMEDIATE


def standings(plan: Plan, *, on: str = "") -> tuple[Standing, ...]:
    """Return the standing of every memorial.

    Inspections go by their date; one without a result counts for nothing. A failed inspection
    stands until another is surely of a later day, however incomplete its date is: a stone is
    called safe only where that follows.

    Args:
        plan: the plan.
        on: ISO date of the day in question, later inspections are left out; empty for no end.
    """
    found = _by_target(plan, on)
    return tuple(_standing(stone, found.get(stone.id, ())) for stone in plan.of(memorial.KIND))


def latest_inspections(plan: Plan, *, on: str = "") -> dict[ItemId, Inspection]:
    """Return the inspection that counts of each thing that was inspected with a result.

    Args: as of ``standings``, and reckoned alike.
    """
    counting = {t: _counting(_ordered(f)) for t, f in _by_target(plan, on).items()}
    return {target: latest for target, latest in counting.items() if latest is not None}


def unsafe(plan: Plan, *, on: str = "") -> tuple[ItemId, ...]:
    """Return the memorials that are unsafe, as ``standings`` tells."""
    return tuple(s.memorial.id for s in standings(plan, on=on) if s.unsafe)


def _by_target(plan: Plan, on: str) -> dict[ItemId, list[Inspection]]:
    found: dict[ItemId, list[Inspection]] = {}
    for one in plan.of(inspection.KIND):
        target = one.details.target
        if target is not None and not (on and _earliest(one) > on):
            found.setdefault(target, []).append(one)
    return found


def _standing(stone: Item[MemorialDetails], found: Iterable[Inspection]) -> Standing:
    ordered = _ordered(found)
    return Standing(memorial=stone, latest=_counting(ordered), inspections=ordered)


def _ordered(found: Iterable[Inspection]) -> tuple[Inspection, ...]:
    # of one day the last recorded comes first
    recorded = reversed(tuple(found))
    return tuple(sorted(recorded, key=_latest, reverse=True))


def _counting(ordered: tuple[Inspection, ...]) -> Inspection | None:
    told = [i for i in ordered if i.details.result is not None]
    surely = max(map(_earliest, told), default="")
    failed = (i for i in told if i.details.result is Result.IMMEDIATE and _latest(i) >= surely)
    return next(chain(failed, told), None)


def _earliest(found: Inspection) -> str:
    # "2025" began on its first day
    return _filled(found.details.date, "0000-01-01")


def _latest(found: Inspection) -> str:
    # "2025" may mean its last day; no date at all may mean any day
    return _filled(found.details.date, "9999-12-31")


def _filled(date: str, rest: str) -> str:
    return date + rest[len(date) :]
