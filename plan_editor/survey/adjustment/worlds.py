"""Which of two places a point lies at, where that shows only farther on.

Each choice opens a world in which everything that hangs on it is placed too. Worlds that fit
their measurements far worse than the best one are given up; where one is left it is the ground.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.survey.adjustment.approximate import Book, Spread, book_of, settles
from plan_editor.survey.adjustment.equations import SWING, named, rows_of
from plan_editor.survey.adjustment.normal import network_of, settled
from plan_editor.survey.adjustment.observed import Hand, Observed, Station
from plan_editor.survey.adjustment.pieces import joined

MOST_CHOICES = 4
"""Choices within one another that are followed: up to 16 worlds; beyond, points stay open."""

ONE_PLACE = 0.01
"""Metres: places of two worlds nearer than this are the same."""

World = dict[str, complex]


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """Where to start the adjustment.

    Args:
        places: by name; swings among them.
        choices: of points whose side is not settled, the places where they may lie.
    """

    places: dict[str, complex]
    choices: dict[str, tuple[complex, ...]]


def started(
    stations: Sequence[Station],
    observed: Sequence[Observed],
    hands: Sequence[Hand],
    scale_factor: float,
) -> Start:
    """Return about where the points of a book lie."""
    book = book_of(observed, hands, scale_factor)
    spread = Spread(book, {s.name: complex(s.east, s.north) for s in stations})
    spread.go_on(tuple(spread.places))
    while newly := joined(spread) or _settled_farther_on(spread):
        spread.places.update(newly)
        for name in newly:
            spread.choices.pop(name, None)
        spread.go_on(newly)
    return Start(places=spread.places, choices=_left_open(spread))


def _settled_farther_on(spread: Spread) -> World:
    """Return the points of the first choice that lie alike in all worlds that stand."""
    for name in sorted(spread.choices):
        first, *others = _standing(spread, name)
        alike = {
            point: place
            for point, place in first.items()
            if all(abs(world.get(point, math.inf) - place) < ONE_PLACE for world in others)
        }
        if alike:
            return alike
    return {}


def _left_open(spread: Spread) -> dict[str, tuple[complex, ...]]:
    """Return the places of each point in all worlds that stand."""
    open_places: dict[str, tuple[complex, ...]] = {}
    for name in sorted(spread.choices):
        for world in _standing(spread, name):
            for point, place in world.items():
                known = open_places.get(point, ())
                if all(abs(place - other) > ONE_PLACE for other in known):
                    open_places[point] = (*known, place)
    return {
        name: tuple(sorted(places, key=lambda z: (round(z.real, 3), round(z.imag, 3))))
        for name, places in open_places.items()
        if not name.startswith(SWING)
    }


def _standing(spread: Spread, name: str) -> list[World]:
    """Return the worlds of a point that no other world refutes."""
    worlds = [
        world
        for place in spread.choices[name].places
        for world in _worlds(spread.book, {**spread.places, name: place}, name, 0)
    ]
    misses = [_miss(spread, world) for world in worlds]
    best = min(misses)
    return [w for w, miss in zip(worlds, misses, strict=True) if not settles(best, miss)]


def _worlds(book: Book, places: World, name: str, depth: int) -> list[World]:
    """Return the worlds that a place of a point opens, with what is placed in them."""
    spread = Spread(book, dict(places))
    spread.go_on((name,))
    here = {n: z for n, z in spread.places.items() if n not in places or n == name}
    if not spread.choices or depth == MOST_CHOICES:
        return [here]
    first = min(spread.choices)
    return [
        {**here, **world}
        for place in spread.choices[first].places
        for world in _worlds(book, {**spread.places, first: place}, first, depth + 1)
    ]


def _miss(spread: Spread, world: World) -> float:
    """Return by how many sd's in all a world misses its measurements, at its best."""
    names = sorted(world, key=lambda name: (name.startswith(SWING), name))
    held = sorted(set(spread.places) - set(world))
    place = {name: n for n, name in enumerate((*names, *held))}
    ones = {one for name in names for one in spread.book.of[name]}
    ones = {one for one in ones if all(n in place for n in named(one))}
    rows = rows_of((), sorted(ones, key=repr), place, spread.book.scale_factor)
    every = {**spread.places, **world}
    at = np.array([(every[n].real, every[n].imag) for n in place])
    swings = sum(name.startswith(SWING) for name in names)
    network = network_of(rows, at, unknown=len(names), swings=swings)
    found = settled(network, at, 1.0 / rows.sd**2)
    return math.sqrt(float(np.sum((found.over / rows.sd) ** 2)))
