"""In which order to walk to a set of things, from a gate on and not back.

Nearest neighbour first; then pieces of the round are turned round (2-opt) or moved elsewhere,
either way round (Or-opt), for as long as it becomes shorter; then it is shaken in a few places
and mended again, and kept where it is shorter. Chance is seeded: the same things make the same
round. The methods are those of Croes 1958, Or 1976 and Martin, Otto and Felten 1991.
"""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
Whole = NDArray[np.intp]

_KICKS = 4
_MOST_KICKS = 400
_WINDOW = 50
_LONGEST_PIECE = 3
_SHORTER = 1e-9
_SEED = 20260101


def walking_order(lengths: Numbers) -> tuple[int, ...]:
    """Return the order in which to walk: numbers of the places, the start left out.

    Args:
        lengths: (n, n), metres on foot between places; the first is where the walk begins.
    """
    count = len(lengths)
    if count < 3:
        return tuple(range(1, count))
    closed = _closed(lengths)
    tour = _improved(np.append(_nearest(lengths), count), closed, range(count + 1))
    tour = _shaken(tour, closed)
    return tuple(int(n) for n in _from_start(tour)[1:])


def walk_length(lengths: Numbers, order: Iterable[int]) -> float:
    """Return how long a walk in an order is, in metres, from the first place on."""
    walk = [0, *order]
    return float(lengths[walk[:-1], walk[1:]].sum())


def _closed(lengths: Numbers) -> Numbers:
    """Return the lengths with a place more, by which the last is tied to the first for nothing.

    It pays so much to come to the start from there that no shorter round parts the two.
    """
    count = len(lengths)
    closed = np.zeros((count + 1, count + 1))
    closed[:count, :count] = lengths
    closed[0, count] = closed[count, 0] = -(lengths.max() + 1.0) * (count + 1)
    return closed


def _from_start(tour: Whole) -> Whole:
    """Return a closed tour as the walk from the start, without the place that ties it."""
    turned = np.roll(tour, -int(np.flatnonzero(tour == 0)[0]))
    if turned[-1] != len(tour) - 1:
        turned = np.concatenate([turned[:1], turned[:0:-1]])
    return turned[:-1]


def _nearest(lengths: Numbers) -> Whole:
    """Return a walk that always goes to what is nearest next."""
    count = len(lengths)
    left = np.ones(count, dtype=bool)
    walk = np.zeros(count, dtype=np.intp)
    for n in range(1, count):
        left[walk[n - 1]] = False
        walk[n] = np.argmin(np.where(left, lengths[walk[n - 1]], np.inf))
    return walk


def _shaken(tour: Whole, lengths: Numbers) -> Whole:
    """Return the best of many tours, each mended after two neighbouring pieces were swapped."""
    count = len(tour)
    if count < 8:
        return tour
    chance = np.random.default_rng(_SEED)
    best = _round(tour, lengths)
    for _ in range(min(_KICKS * count, _MOST_KICKS)):
        turned = np.roll(tour, -int(chance.integers(count)))
        a, b, c = np.sort(chance.choice(min(count - 1, _WINDOW), 3, replace=False)) + 1
        tried = np.concatenate([turned[:a], turned[b:c], turned[a:b], turned[c:]])
        ends = {int(turned[n % count]) for n in (a - 1, a, b - 1, b, c - 1, c)}
        tried = _improved(tried, lengths, ends)
        length = _round(tried, lengths)
        if length < best - _SHORTER:
            tour, best = tried, length
    return tour


def _round(tour: Whole, lengths: Numbers) -> float:
    return float(lengths[tour, np.roll(tour, -1)].sum())


def _improved(tour: Whole, lengths: Numbers, places: Iterable[int]) -> Whole:
    """Return a tour that no change at any of these places, or near a change, makes shorter."""
    waiting = dict.fromkeys(places)
    while waiting:
        place = next(iter(waiting))
        del waiting[place]
        changed = _reversed(tour, lengths, place)
        if changed is None:
            changed = _moved(tour, lengths, place)
        if changed is not None:
            tour, touched = changed
            waiting.update(dict.fromkeys([*touched, place]))
    return tour


def _reversed(
    tour: Whole, lengths: Numbers, place: int
) -> tuple[Whole, tuple[int, ...]] | None:
    """Return the tour with the piece after or before a place turned round that gains most."""
    forth = np.roll(tour, -int(np.flatnonzero(tour == place)[0]))
    back = np.concatenate([forth[:1], forth[:0:-1]])
    for turned in (forth, back):
        following = np.roll(turned, -1)
        after = following[0]
        gained = (
            lengths[place, after]
            + lengths[turned, following]
            - lengths[place, turned]
            - lengths[after, following]
        )
        end = int(np.argmax(gained[2:-1])) + 2 if len(turned) > 4 else 0
        if end and gained[end] > _SHORTER:
            piece = turned[1 : end + 1][::-1]
            made = np.concatenate([turned[:1], piece, turned[end + 1 :]])
            return made, (int(after), int(turned[end]), int(following[end]))
    return None


def _moved(tour: Whole, lengths: Numbers, place: int) -> tuple[Whole, tuple[int, ...]] | None:
    """Return the tour with the piece that begins or ends at a place put where it gains most."""
    forth = np.roll(tour, -int(np.flatnonzero(tour == place)[0]))
    back = np.concatenate([forth[:1], forth[:0:-1]])
    longest = min(_LONGEST_PIECE, len(tour) - 3)
    for turned in (forth, back):
        for long in range(1, longest + 1):
            made = _put(turned[:long], turned[long:], lengths)
            if made is not None:
                return made
    return None


def _put(piece: Whole, rest: Whole, lengths: Numbers) -> tuple[Whole, tuple[int, ...]] | None:
    first, last, before, after = piece[0], piece[-1], rest[-1], rest[0]
    freed = lengths[before, first] + lengths[last, after] - lengths[before, after]
    one, other = rest[:-1], rest[1:]
    gap = lengths[one, other]
    forth = lengths[one, first] + lengths[last, other] - gap
    back = lengths[one, last] + lengths[first, other] - gap
    at = int(np.argmin(np.minimum(forth, back)))
    if min(forth[at], back[at]) >= freed - _SHORTER:
        return None
    put = piece if forth[at] <= back[at] else piece[::-1]
    made = np.concatenate([rest[: at + 1], put, rest[at + 1 :]])
    touched = (first, last, before, after, rest[at], rest[at + 1])
    return made, tuple(int(n) for n in touched)
