"""Where register and ground disagree: what somebody has to look into, one line each."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from plan_editor.kinds import burial, grave, removal, reservation
from plan_editor.kinds.burial import BurialDetails, BurialSort
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan
from plan_editor.records.days import first_day, last_day
from plan_editor.records.written import name_words

_FREE, _OCCUPIED = "free", "occupied"
"""What the state of any of these kinds is called."""

_KEPT = (Stage.GRANTED, Stage.USED, Stage.LAPSED)
"""Stages of a reservation that was in force for a time that is known."""

Burial = Item[BurialDetails]


class Sort(StrEnum):
    """In what they disagree."""

    CROWDED = "two coffins in a grave for one"
    KEPT_BACK = "buried in a space reserved then"
    IN_FREE = "buried in a grave that is free"
    NO_GRAVE = "entry without a grave"
    NO_ENTRY = "grave without an entry"


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to look into.

    Args:
        sort: in what register and ground disagree.
        items: what it is about; the first is what to go to.
        says: the same in a sentence. Nobody living is named.
    """

    sort: Sort
    items: tuple[ItemId, ...]
    says: str


def work_list(plan: Plan) -> tuple[Task, ...]:
    """Return what is to be looked into, sort by sort as ``Sort`` has them."""
    lying = _lying(plan)
    found = (
        *_crowded(plan, lying),
        *_kept_back(plan, lying),
        *_in_free(plan, lying),
        *_without_grave(plan),
        *_without_entry(plan, lying),
    )
    return tuple(found)


def entry_called(entry: Burial) -> str:
    """Return what to call an entry: ``Entry 214, Hannah Ibbotson, 1911-04-16``."""
    told = entry.details
    name = " ".join(w for w in (told.forenames, told.surname) if w)
    parts = (f"Entry {entry.number}".strip(), name, told.buried or told.died)
    return ", ".join(p for p in parts if p)


def _lying(plan: Plan) -> Mapping[ItemId, list[Burial]]:
    found: dict[ItemId, list[Burial]] = {}
    for entry in plan.of(burial.KIND):
        if (lies := entry.details.grave) is not None:
            found.setdefault(lies, []).append(entry)
    return found


def _crowded(plan: Plan, lying: Mapping[ItemId, list[Burial]]) -> Iterator[Task]:
    for place in plan.of(grave.KIND):
        entries = lying.get(place.id, [])
        coffins = [e for e in entries if e.details.sort is not BurialSort.ASHES]
        if place.details.coffins == 1 and len(coffins) > 1:
            names = "; ".join(entry_called(e) for e in coffins)
            yield Task(
                sort=Sort.CROWDED,
                items=(place.id, *(e.id for e in coffins)),
                says=f"{place.called()} has depth for one coffin, and the register has"
                f" {len(coffins)} there: {names}.",
            )


def _kept_back(plan: Plan, lying: Mapping[ItemId, list[Burial]]) -> Iterator[Task]:
    for kept in plan.of(reservation.KIND):
        space = kept.details.grave
        if space is None or kept.details.stage not in _KEPT:
            continue
        others = [e for e in lying.get(space, ()) if _within(e, kept.details)]
        for entry in _not_for_whom(others, kept.details):
            yield Task(
                sort=Sort.KEPT_BACK,
                items=(space, entry.id, kept.id),
                says=f"{entry_called(entry)} was buried in {plan.items[space].called()} while"
                " it was reserved for somebody else.",
            )


def _within(entry: Burial, kept: ReservationDetails) -> bool:
    """Return whether a burial fell into the time of a reservation, however dates are read."""
    buried = entry.details.buried
    if not buried or not kept.granted or last_day(kept.granted) > first_day(buried):
        return False
    ends = last_day(_end(kept))
    return not ends or last_day(buried) <= ends


def _end(kept: ReservationDetails) -> str:
    if kept.expires or kept.term_years is None:
        return kept.expires
    return f"{int(kept.granted[:4]) + int(kept.term_years):04d}{kept.granted[4:7]}"


def _not_for_whom(entries: Iterable[Burial], kept: ReservationDetails) -> Iterator[Burial]:
    """Return those who do not bear the name of the person for whom the space was kept.

    Where no name is recorded and the reservation was used, the first burial used it.
    """
    names = name_words(kept.held_for)
    ordered = sorted(entries, key=lambda e: e.details.buried)
    if not names:
        yield from ordered[1:] if kept.stage is Stage.USED else ordered
        return
    for entry in ordered:
        if not set(name_words(entry.details.surname)) & set(names):
            yield entry


def _in_free(plan: Plan, lying: Mapping[ItemId, list[Burial]]) -> Iterator[Task]:
    for place in _places(plan):
        if place.id in lying and str(place.details.state) == _FREE:
            names = "; ".join(entry_called(e) for e in lying[place.id])
            yield Task(
                sort=Sort.IN_FREE,
                items=(place.id, *(e.id for e in lying[place.id])),
                says=f"{place.called()} is free on the plan, and the register has there:"
                f" {names}.",
            )


def _without_grave(plan: Plan) -> Iterator[Task]:
    moved = {r.details.burial for r in plan.of(removal.KIND)}
    for entry in plan.of(burial.KIND):
        if entry.details.grave is None and entry.id not in moved:
            written = entry.details.place_written
            where = f" The register writes “{written}”." if written else ""
            yield Task(
                sort=Sort.NO_GRAVE,
                items=(entry.id,),
                says=f"{entry_called(entry)}: no grave is recorded.{where}",
            )


def _without_entry(plan: Plan, lying: Mapping[ItemId, list[Burial]]) -> Iterator[Task]:
    for place in _places(plan):
        if place.id not in lying and str(place.details.state) == _OCCUPIED:
            yield Task(
                sort=Sort.NO_ENTRY,
                items=(place.id,),
                says=f"{place.called()} is used, and no entry of the register lies there.",
            )


def _places(plan: Plan) -> Iterator[Item[Any]]:
    for kind in burial_kinds():
        yield from plan.of(kind)
