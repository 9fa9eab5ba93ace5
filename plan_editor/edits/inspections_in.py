"""A table of inspections taken in: what the plan holds already is not recorded twice."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from plan_editor.edits.written_entries import Doubtful, Rejected
from plan_editor.ground.dangers import counting
from plan_editor.kinds import inspection, memorial
from plan_editor.kinds.inspection import InspectionDetails, Result, Test
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan

INSPECTED = next(d for d in inspection.KIND.entries() if d.name == "target").about.refers_to
"""Names of the kinds whose inspections are recorded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenInspection:
    """An inspection as a row of a table has it.

    Args:
        row: its line in the table.
        number: of the thing.
        kind: of the thing, as written; empty where nothing is.
        date, result, test, force_n, inspector, action, next_due, item_no: as of the kind.
        taken_as: whether the result only follows from what stands there: “low risk”.
        id: of the inspection that may come of it.
    """

    row: int
    number: str
    kind: str = ""
    date: str
    result: Result
    taken_as: bool = False
    test: Test = Test.VISUAL
    force_n: float | None = None
    inspector: str = ""
    action: str = ""
    next_due: str = ""
    item_no: str = ""
    id: ItemId = field(default_factory=new_id)

    def of(self, target: ItemId) -> InspectionDetails:
        """Return it as the details of an inspection of a thing."""
        return InspectionDetails(
            target=target,
            date=self.date,
            test=self.test,
            result=self.result,
            force_n=self.force_n,
            inspector=self.inspector,
            action=self.action,
            next_due=self.next_due,
            item_no=self.item_no,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """What becomes of a table on a plan.

    Args:
        new: inspections that come.
        known: how many rows the plan holds already.
        doubtful: rows whose thing or whose result is worth a look.
        rejected: rows whose thing is not on the plan, or that would end a danger by a word
            that does not say so.
    """

    new: tuple[Item[InspectionDetails], ...]
    known: int
    doubtful: tuple[Doubtful, ...]
    rejected: tuple[Rejected, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeInInspections:
    """Take in the inspections of a table; the same once more changes nothing.

    Args:
        found: the rows.
        source: the table, as the user would say it.
    """

    found: tuple[WrittenInspection, ...]
    source: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        count = len(self.found)
        told = "1 inspection" if count == 1 else f"{count:,} inspections"
        return f"Take in {told} {' '.join(self.source.split())}".strip()

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the inspections that the plan does not hold."""
        return tuple(Change(None, item) for item in compared(plan, self.found).new)


def compared(plan: Plan, found: tuple[WrittenInspection, ...]) -> Compared:
    """Return what becomes of inspections on a plan.

    One is held already if another says the same of the same thing in every detail.
    """
    things = _Things(plan)
    named = [(one, *things.named(one)) for one in found]
    dangers = _Dangers(plan, named)
    held = {i.details for i in plan.of(inspection.KIND)}
    results = {(d.target, d.date): d.result for d in held}
    new: list[Item[InspectionDetails]] = []
    known = 0
    doubtful: list[Doubtful] = []
    rejected: list[Rejected] = []
    for one, thing, why in named:
        if thing is None:
            rejected.append(Rejected(one.row, why))
            continue
        told = one.of(thing.id)
        if told in held:
            known += 1
            continue
        if dangers.ended_by(one, thing):
            rejected.append(Rejected(one.row, _plainly(one, thing)))
            continue
        if why:
            doubtful.append(Doubtful(one.row, "number", why))
        if results.get((thing.id, one.date), one.result) is not one.result:
            doubtful.append(Doubtful(one.row, "result", _ANOTHER))
        held.add(told)
        results.setdefault((thing.id, one.date), one.result)
        new.append(Item(id=one.id, kind=inspection.KIND, details=told))
    return Compared(
        new=tuple(new), known=known, doubtful=tuple(doubtful), rejected=tuple(rejected)
    )


def _plainly(one: WrittenInspection, thing: Item[Any]) -> str:
    return (
        f"{thing.called()} is unsafe, and what stands here does not say that the danger is"
        f" over; write the plain word “{one.result}” in its place if whoever looked found it so"
    )


_Named = tuple[WrittenInspection, Item[Any] | None, str]

_STONE = spoken(memorial.KIND.title)
_STONES = frozenset({"stone", "headstone", "gravestone", "grave", "memorials"})
_ANOTHER = "another result of that day is recorded; both are kept, and the worst counts"


class _Dangers:
    """What plain words say of each thing, on the plan and in the table together."""

    def __init__(self, plan: Plan, named: Iterable[_Named]) -> None:
        self._plain: defaultdict[ItemId, list[Item[InspectionDetails]]] = defaultdict(list)
        for item in plan.of(inspection.KIND):
            self._plain[item.details.target or ItemId("")].append(item)
        for one, thing, _ in named:
            if thing is not None and (one.result is Result.IMMEDIATE or not one.taken_as):
                told = Item(id=one.id, kind=inspection.KIND, details=one.of(thing.id))
                self._plain[thing.id].append(told)

    def ended_by(self, one: WrittenInspection, thing: Item[Any]) -> bool:
        """Return whether a danger would end by a word that does not say so."""
        if not one.taken_as or one.result is Result.IMMEDIATE:
            return False
        until = one.date + "9999-12-31"[len(one.date) :]
        latest = counting(i for i in self._plain[thing.id] if i.details.date <= until)
        return latest is not None and latest.details.result is Result.IMMEDIATE


class _Things:
    """What can be inspected, by number and by what else it is called."""

    def __init__(self, plan: Plan) -> None:
        self._called: defaultdict[str, list[Item[Any]]] = defaultdict(list)
        self._on_grave: defaultdict[str, list[Item[Any]]] = defaultdict(list)
        for item in plan.items.values():
            if item.kind.name in INSPECTED:
                for name in {item.id, spoken(item.number), spoken(item.called())} - {""}:
                    self._called[name].append(item)
        for stone in plan.of(memorial.KIND):
            below = plan.items.get(stone.details.grave or ItemId(""))
            if below is not None and below.number:
                self._on_grave[spoken(below.number)].append(stone)

    def named(self, one: WrittenInspection) -> tuple[Item[Any] | None, str]:
        """Return the thing of a row, and what is doubtful; none, and why."""
        said = spoken(one.number)
        kind = _STONE if spoken(one.kind) in _STONES else spoken(one.kind)
        found = [i for i in self._called.get(said, ()) if not kind or kind == _kind(i)]
        if not found and kind in ("", _STONE):
            found, why = self._on_grave.get(said, []), "taken as the stone on that grave"
        else:
            # of several kinds the one that stands first in the list of kinds is meant
            first = min((INSPECTED.index(i.kind.name) for i in found), default=0)
            among = len({i.kind for i in found}) > 1
            found = [i for i in found if INSPECTED.index(i.kind.name) == first]
            why = f"several things bear it; taken as {found[0].called()}" if among else ""
        if len(found) == 1:
            return found[0], why
        called = f"{one.kind} {one.number}".strip()[:60]
        if not found:
            return None, f"there is nothing called “{called}” on the plan that is inspected"
        return None, f"“{called}” may be one of {len(found)} things; give each its own number"


def _kind(item: Item[Any]) -> str:
    return spoken(item.kind.title)
