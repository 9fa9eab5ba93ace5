"""The names of measured points: one for each, whatever the field books call it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain, count
from typing import Any

import shapely

from plan_editor.plan.item import ItemId, Method
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.observed import Station
from plan_editor.survey.books.field_book import same

EXACT = 0.0001
"""A place known better than this, in metres, is taken as exact."""


@dataclass(frozen=True, slots=True)
class Place:
    """A place of an item that was measured: its point, or a corner of it, counted from 1."""

    item: ItemId
    corner: int | None = None


def place_of(plan: Plan, place: Place) -> tuple[float, float] | None:
    """Return where something that was measured is, east and north; None if nowhere."""
    item = plan.items.get(place.item)
    if item is None or item.shape is None:
        return None
    if item.rectangle is not None:
        corners: Any = item.rectangle.corners()
    else:
        corners = shapely.get_coordinates(item.shape).tolist()
    at = (place.corner or 1) - 1
    if at >= len(corners) or (place.corner is None and len(corners) > 1):
        return None
    return float(corners[at][0]), float(corners[at][1])


@dataclass(slots=True)
class Names:
    """Gives every point one name, whatever books call it.

    Args:
        plan: the plan.
        touched: which book measured from or to which thing: the book's name as it sounds.
        new: the name, as it sounds, of the book that is being taken in; empty for none.
        known: places that the new book finds, though their items come from elsewhere.
    """

    plan: Plan
    touched: set[tuple[str, ItemId]]
    new: str
    known: set[Place]
    by_place: dict[Place, str] = field(default_factory=dict)
    loose: dict[tuple[str, str], str] = field(default_factory=dict)
    taken: set[str] = field(default_factory=set)

    def of(self, name: str, book: str, local: Mapping[str, Place]) -> str:
        """Return the name of a point that a book calls so."""
        place = local.get(same(name))
        if place is not None and place_of(self.plan, place) is not None:
            return self.at(place, name, book)
        key = (same(book), same(name))
        if key not in self.loose:
            self.loose[key] = self._free(name, book)
        return self.loose[key]

    def at(self, place: Place, name: str, book: str) -> str:
        """Return the name of a place on the plan, which a book calls so."""
        if place not in self.by_place:
            item = self.plan.items[place.item]
            plain = item.number if place.corner is None and item.number else name
            self.by_place[place] = self._free(plain or item.called(), book)
        return self.by_place[place]

    def stations(self) -> Iterator[Station]:
        """Return the places that are known otherwise."""
        for place, name in self.by_place.items():
            at = place_of(self.plan, place)
            if at is None or self._is_found(place):
                continue
            sd = self.plan.items[place.item].basis.sd_m or 0.0
            exact = sd < EXACT
            yield Station(name=name, east=at[0], north=at[1], sd=0.0 if exact else sd)

    def unsure(self) -> Iterator[str]:
        """Return the stations of which nobody said how well they are known."""
        for place, name in self.by_place.items():
            if not self._is_found(place) and self.plan.items[place.item].basis.sd_m is None:
                yield name

    def _is_found(self, place: Place) -> bool:
        basis = self.plan.items[place.item].basis
        source = same(basis.source)
        by_book = (source, place.item) in self.touched or (source == self.new != "")
        return place in self.known or (basis.method is Method.TAPED and by_book)

    def _free(self, name: str, book: str) -> str:
        again = (f"{name} ({book}, {n})" for n in count(2))
        free = next(
            w for w in chain((name, f"{name} ({book})"), again) if same(w) not in self.taken
        )
        self.taken.add(same(free))
        return free
