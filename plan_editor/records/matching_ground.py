"""Graves as matching sees them: number, names on stones, who lies there, neighbours."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from plan_editor.kinds import burial, memorial
from plan_editor.kinds.burial import BurialDetails, BurialSort
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan
from plan_editor.records.stones import Person, people
from plan_editor.records.written import Key, age_in_years, key_of, keys_in, name_words, slips

NEAR_M = 4.0
"""Graves whose middles are no farther apart are neighbours: the next two in a row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """An entry of the register, read.

    Args:
        item: the burial.
        surname, forenames: words.
        years: of death and of burial, as far as they are recorded.
        age: in whole years.
        keys: what may be a grave's number in the place as written.
    """

    item: Item[BurialDetails]
    surname: tuple[str, ...]
    forenames: tuple[str, ...]
    years: frozenset[int]
    age: int | None
    keys: tuple[Key, ...]

    @property
    def of_ashes(self) -> bool:
        """Whether ashes were laid in the ground."""
        return self.item.details.sort is BurialSort.ASHES

    @property
    def of_coffin(self) -> bool:
        """Whether a coffin was laid in the ground."""
        return self.item.details.sort is BurialSort.COFFIN


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A grave, vault or ashes plot.

    Args:
        item: itself.
        key: its number in pieces; empty for none.
        people: those named on its stones.
        lying: the entries that belong to it already.
        names: every surname of those, and every word of its stones.
        years: the latest year of each person, on its stones or in the register.
    """

    item: Item[Any]
    key: Key
    people: tuple[Person, ...] = ()
    lying: tuple[Entry, ...] = ()
    names: frozenset[str] = frozenset()
    years: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """All places, with what is looked up of them: each by its number in ``places``.

    Args:
        places: all of them.
        beside: the neighbours of each.
        years_beside: the latest years of their people.
        by_key, by_slip, by_name, by_year: those with a number, one that is taken for it by a
            slip of the pen, a word among their names, a year on their stones.
        named: how many have any names.
    """

    places: tuple[Place, ...]
    beside: Mapping[int, tuple[int, ...]]
    years_beside: Mapping[int, frozenset[int]]
    by_key: Mapping[Key, tuple[int, ...]]
    by_slip: Mapping[Key, tuple[int, ...]]
    by_name: Mapping[str, tuple[int, ...]]
    by_year: Mapping[int, tuple[int, ...]]
    named: int

    @property
    def words(self) -> list[str]:
        """Every word that may be a name, in a fixed order."""
        return sorted(self.by_name)


def read_entry(item: Item[BurialDetails]) -> Entry:
    """Return an entry of the register, read."""
    told = item.details
    years = (int(d[:4]) for d in (told.died, told.buried) if d)
    return Entry(
        item=item,
        surname=name_words(told.surname),
        forenames=name_words(told.forenames),
        years=frozenset(years),
        age=age_in_years(told.age),
        keys=keys_in(told.place_written),
    )


def read_ground(plan: Plan) -> Ground:
    """Return all places of a plan, with what their stones and the register say of them."""
    inscribed: dict[ItemId, list[Person]] = {}
    for stone in plan.of(memorial.KIND):
        if (on := stone.details.grave) is not None:
            inscribed.setdefault(on, []).extend(people(stone.details.inscription))
    lying: dict[ItemId, list[Entry]] = {}
    for entry in plan.of(burial.KIND):
        if (lies := entry.details.grave) is not None:
            lying.setdefault(lies, []).append(read_entry(entry))
    there = (i for kind in burial_kinds() for i in plan.of(kind))
    places = tuple(_place(i, inscribed.get(i.id, ()), lying.get(i.id, ())) for i in there)
    beside = _beside(places)
    return Ground(
        places=places,
        beside=beside,
        years_beside={
            n: frozenset(y for m in near for y in places[m].years) for n, near in beside.items()
        },
        by_key=_looked_up((p.key,) if p.key else () for p in places),
        by_slip=_looked_up(slips(p.key) for p in places),
        by_name=_looked_up(p.names for p in places),
        by_year=_looked_up(frozenset(y for n in p.people for y in n.years) for p in places),
        named=sum(bool(p.names) for p in places),
    )


def _place(item: Item[Any], named: Iterable[Person], lying: Iterable[Entry]) -> Place:
    named, lying = tuple(named), tuple(lying)
    told = [p.years for p in named] + [e.years for e in lying]
    names = {w for p in named for w in p.words} | {w for e in lying for w in e.surname}
    return Place(
        item=item,
        key=key_of(item.number),
        people=named,
        lying=lying,
        names=frozenset(names),
        years=tuple(max(y) for y in told if y),
    )


def _looked_up(told: Iterable[Iterable[Any]]) -> dict[Any, tuple[int, ...]]:
    found: dict[Any, list[int]] = {}
    for n, values in enumerate(told):
        for value in values:
            found.setdefault(value, []).append(n)
    return {value: tuple(places) for value, places in found.items()}


def _beside(places: tuple[Place, ...]) -> dict[int, tuple[int, ...]]:
    if not places:
        return {}
    middles = shapely.centroid(np.array([p.item.shape for p in places], dtype=object))
    one, other = shapely.STRtree(middles).query(middles, predicate="dwithin", distance=NEAR_M)
    found: dict[int, list[int]] = {}
    for a, b in sorted(zip(one.tolist(), other.tolist(), strict=True)):
        if a != b:
            found.setdefault(a, []).append(b)
    return {a: tuple(b) for a, b in found.items()}
