"""Pieces of a survey whose shape is known before their place: a base line, a compass traverse.

A piece is laid on the ground by two of its points.
"""

from collections.abc import Iterator
from itertools import combinations

from plan_editor.survey.adjustment.approximate import Book, Spread
from plan_editor.survey.adjustment.equations import SWING, named
from plan_editor.survey.adjustment.observed import Angle, Bearing, Offset, Tape

FARTHER_APART = 0.5
"""Metres that two points must lie apart at least to lay a piece by them."""


def joined(spread: Spread) -> dict[str, complex]:
    """Return the places of the points of the first piece that can be laid on the ground."""
    free = _without_north(spread.book)
    seen: set[str] = set()
    for one in sorted(_open(spread), key=repr):
        if seen.issuperset(named(one)):
            continue
        for seed in _seeds(one, spread.book):
            piece = Spread(free, seed)
            piece.go_on(tuple(seed))
            seen.update(piece.places)
            laid = _laid(piece.places, spread.places)
            if laid:
                return laid
    return {}


def _open(spread: Spread) -> Iterator[Bearing | Offset | Angle]:
    """Return measurements that give a piece its shape and are not all placed."""
    for name, ones in spread.book.of.items():
        if name not in spread.places:
            yield from (one for one in ones if not isinstance(one, Tape))


def _without_north(book: Book) -> Book:
    """Return the book without bearings that are taken as they are."""
    of = {
        name: [one for one in ones if not isinstance(one, Bearing) or one.swing]
        for name, ones in book.of.items()
    }
    return Book(of=of, hands=book.hands, scale_factor=book.scale_factor)


def _seeds(one: Bearing | Offset | Angle, book: Book) -> Iterator[dict[str, complex]]:
    """Return places to begin a piece with, north being where it is easiest."""
    match one:
        case Bearing():
            if one.swing:
                yield {one.start: 0j, SWING + one.swing: 0j}
        case Offset():
            out = complex(one.aside, one.along) * book.scale_factor
            yield {one.start: 0j, one.point: out, **_end(one, book)}
        case _:
            taped = ((other, _taped(one.at, other, book)) for other in (one.back, one.fore))
            yield from (
                {one.at: 0j, other: complex(0.0, length)}
                for other, length in taped
                if length is not None
            )


def _end(one: Offset, book: Book) -> dict[str, complex]:
    """Return the far end of a base line, and everything else that was measured along it."""
    length = _taped(one.start, one.end, book)
    line = [
        other
        for other in book.of[one.start]
        if isinstance(other, Offset) and (other.start, other.end) == (one.start, one.end)
    ]
    found = {o.point: complex(o.aside, o.along) * book.scale_factor for o in line}
    return found if length is None else {**found, one.end: complex(0.0, length)}


def _taped(a: str, b: str, book: Book) -> float | None:
    lengths = [
        one.metres * book.scale_factor
        for one in book.of[a]
        if isinstance(one, Tape) and {one.start, one.end} == {a, b}
    ]
    return min(lengths, default=None)


def _laid(piece: dict[str, complex], ground: dict[str, complex]) -> dict[str, complex]:
    """Return the piece's points that had no place, turned and shifted; nothing if it hangs."""
    points = sorted(name for name in piece if not name.startswith(SWING))
    common = [name for name in points if name in ground]
    pairs = list(combinations(common, 2))
    if not pairs:
        return {}
    a, b = max(pairs, key=lambda pair: (abs(piece[pair[1]] - piece[pair[0]]), pair))
    there, here = ground[b] - ground[a], piece[b] - piece[a]
    if min(abs(there), abs(here)) < FARTHER_APART:
        return {}
    turn = there / here / abs(there / here)
    return {
        name: ground[a] + (piece[name] - piece[a]) * turn
        for name in points
        if name not in ground
    }
