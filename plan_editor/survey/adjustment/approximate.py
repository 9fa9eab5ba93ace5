"""About where points lie, found from the stations outward: a start for the adjustment.

Points are placed one after the other where two measurements to placed points meet, those that
cross well first. What cannot be reached so (two points each of which needs the other) is left.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from plan_editor.geometry.bearings import bearing
from plan_editor.survey.adjustment.equations import SWING, named
from plan_editor.survey.adjustment.loci import Meeting, Spot, locus, meetings, missed, right_of
from plan_editor.survey.adjustment.observed import Bearing, Hand, Observed

SETTLED_AT = 15.0
"""A measurement settles between two places if the other one misses it by as many sd's …

A blunder of as much as 11 standard deviations cannot make the wrong place look right: it would
miss by 4 at least, and SETTLED_TIMES would not hold. Our own choice.
"""

SETTLED_TIMES = 4.0
"""… and by as many times what the one misses it by. Our own choice."""

CROSSING_WELL = 0.35
"""Sine of an angle of crossing, 20°, from which a point is placed at once."""

ONE_MAY_BE_WRONG = 4
"""Of so many measurements to a point, the worst is not counted when places are compared."""


@dataclass(frozen=True, slots=True)
class Book:
    """Measurements by the points that they name."""

    of: dict[str, list[Observed]]
    hands: dict[str, list[Hand]]
    scale_factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Where a point may lie.

    Args:
        place: the likelier place.
        sure: sine of the angle of crossing.
        other: where else it may lie; None where that is settled.
    """

    place: complex
    sure: float
    other: complex | None

    @property
    def places(self) -> tuple[complex, ...]:
        """Both places, or the one."""
        return tuple(z for z in (self.place, self.other) if z is not None)


@dataclass(slots=True)
class Spread:
    """Places as they become known.

    Args:
        book: what was measured.
        places: by name; swings among them.
        choices: of points that have no place yet, where they may lie.
    """

    book: Book
    places: dict[str, complex]
    choices: dict[str, Choice] = field(default_factory=dict)

    def go_on(self, newly: Iterable[str]) -> None:
        """Place everything that can be placed because of what was placed newly."""
        fresh = set(newly)
        while fresh:
            fresh |= self._swings_found(fresh)
            for name in sorted(self._beside(fresh)):
                self._look_at(name)
            fresh = self._surest()
            for name in fresh:
                self.places[name] = self.choices.pop(name).place

    def _look_at(self, name: str) -> None:
        choice = chosen(self.book, name, self.places)
        if choice is not None:
            self.choices[name] = choice

    def _surest(self) -> set[str]:
        """Return the points that are settled and cross well, or else the best one."""
        settled = {name: c.sure for name, c in self.choices.items() if c.other is None}
        good = {name for name, sure in settled.items() if sure >= CROSSING_WELL}
        if good or not settled:
            return good
        return {max(settled, key=lambda name: (settled[name], name))}

    def _beside(self, fresh: set[str]) -> set[str]:
        """Return points without a place that are measured together with these."""
        ones = (one for name in fresh for one in self.book.of.get(name, ()))
        return {name for one in ones for name in named(one) if name not in self.places}

    def _swings_found(self, fresh: set[str]) -> set[str]:
        """Give a place to each swing of which one bearing now lies between placed points."""
        found: dict[str, tuple[float, float]] = {}
        for one in (one for name in fresh for one in self.book.of.get(name, ())):
            if not isinstance(one, Bearing) or SWING + one.swing in self.places:
                continue
            if one.swing and one.start in self.places and one.end in self.places:
                way = self.places[one.end] - self.places[one.start]
                degrees = math.remainder(bearing(way.real, way.imag) - one.degrees, 360.0)
                found[one.swing] = max(found.get(one.swing, (0.0, 0.0)), (abs(way), degrees))
        for swing, (_, degrees) in found.items():
            self.places[SWING + swing] = complex(degrees)
        return {SWING + swing for swing in found}


def book_of(observed: Sequence[Observed], hands: Sequence[Hand], scale_factor: float) -> Book:
    """Return measurements by the points, and the swings, that they name."""
    of: dict[str, list[Observed]] = {}
    for one in observed:
        for name in _needed(one):
            of.setdefault(name, []).append(one)
    by_point: dict[str, list[Hand]] = {}
    for hand in hands:
        by_point.setdefault(hand.point, []).append(hand)
    return Book(of=of, hands=by_point, scale_factor=scale_factor)


def chosen(book: Book, name: str, places: dict[str, complex]) -> Choice | None:
    """Return where a point may lie by all measurements to placed points."""
    found = [(one, locus(one, name, places, book.scale_factor)) for one in book.of[name]]
    loci = [(one, where) for one, where in found if where is not None]
    all_meet = [Meeting(place=w.place, sure=w.sure) for _, w in loci if isinstance(w, Spot)]
    for n, (_, a) in enumerate(loci):
        all_meet += [meeting for _, b in loci[:n] for meeting in meetings(a, b)]
    if not all_meet:
        return None
    hands = book.hands.get(name, ())
    meet = _on_the_right_hand(all_meet, hands, places)
    comparing = _Comparing(book, name, [one for one, _ in loci], places)
    best = min(
        meet, key=lambda m: (round(comparing.miss(m.place), 6), -m.sure, _order(m.place))
    )
    other = best.other
    if other is not None and (
        _on_a_wrong_hand(other, hands, places)
        or settles(comparing.miss(best.place), comparing.miss(other))
    ):
        other = None
    return Choice(place=best.place, sure=best.sure, other=other)


def settles(miss: float, other: float) -> bool:
    """Return whether a place that misses by so many sd's is to be taken for another."""
    return other >= max(SETTLED_AT, SETTLED_TIMES * miss)


class _Comparing:
    """Compares places of a point by the measurements that can tell."""

    def __init__(
        self, book: Book, name: str, ones: Sequence[Observed], places: dict[str, complex]
    ) -> None:
        self._name = name
        self._scale_factor = book.scale_factor
        self._known = {n: places[n] for one in ones for n in _needed(one) if n in places}
        known = self._known.keys() | {name}
        self._ones = [one for one in ones if known.issuperset(named(one))]

    def miss(self, place: complex) -> float:
        """Return by how many sd's in all a place misses; of many, without the worst."""
        self._known[self._name] = place
        misses = sorted(missed(one, self._known, self._scale_factor) for one in self._ones)
        return math.hypot(*(misses[:-1] if len(misses) >= ONE_MAY_BE_WRONG else misses))


def _needed(one: Observed) -> tuple[str, ...]:
    """Return the names of all places that a measurement hangs on, its swing's too."""
    if isinstance(one, Bearing) and one.swing:
        return (*named(one), SWING + one.swing)
    return named(one)


def _order(place: complex) -> tuple[float, float]:
    return round(place.real, 6), round(place.imag, 6)


def _on_the_right_hand(
    meet: list[Meeting], hands: Sequence[Hand], places: dict[str, complex]
) -> list[Meeting]:
    """Return meetings on the stated hand, or all where that leaves none."""
    kept = [one for one in meet if not _on_a_wrong_hand(one.place, hands, places)]
    return kept or meet


def _on_a_wrong_hand(place: complex, hands: Sequence[Hand], places: dict[str, complex]) -> bool:
    return any(
        right_of(place, places[hand.start], places[hand.end]) != hand.right
        for hand in hands
        if hand.start in places and hand.end in places
    )
