"""The way along a line or a ring from one place on it to another, corner by corner."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from plan_editor.geometry.tolerance import SAME

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""


@dataclass(frozen=True, slots=True, order=True)
class Spot:
    """A place on a line: the corner before it, the share of the side from there, the place."""

    corner: int
    share: float
    place: Place


def spot_on(corners: Sequence[Place], *, closed: bool, near: Place) -> Spot:
    """Return the spot on a line or ring that lies nearest to a place.

    One nearer than half a millimetre to a corner is that corner, exactly.
    """
    ring = (*corners, corners[0]) if closed else tuple(corners)
    found = [_nearest(n, a, b, near) for n, (a, b) in enumerate(pairwise(ring))]
    best = min(found, key=lambda s: _apart(s.place, near))
    for corner in (best.corner, best.corner + 1):
        if _apart(ring[corner], best.place) <= SAME:
            number = corner % len(corners) if closed else corner
            return Spot(number, 0.0, ring[corner])
    return best


def ways_between(
    corners: Sequence[Place], *, closed: bool, start: Spot, end: Spot
) -> tuple[tuple[Place, ...], ...]:
    """Return the ways from one spot to another, the shorter first: two round a ring, else one.

    Every corner between is taken over exactly.
    """
    onward = _onward(corners, start, end)
    if not closed:
        return (onward if start <= end else _onward(corners, end, start)[::-1],)
    back = _onward(corners, end, start)[::-1]
    return tuple(sorted((onward, back), key=_length))


def _onward(corners: Sequence[Place], start: Spot, end: Spot) -> tuple[Place, ...]:
    """Return the way in the order of the corners, over the first one where it must."""
    first = start.corner + 1
    last = end.corner if end.share > 0.0 else end.corner - 1
    if (end.corner, end.share) < (start.corner, start.share):
        last += len(corners)
    between = (corners[n % len(corners)] for n in range(first, last + 1))
    return (start.place, *between, end.place)


def _nearest(number: int, a: Place, b: Place, near: Place) -> Spot:
    e, n = b[0] - a[0], b[1] - a[1]
    squared = e * e + n * n
    share = ((near[0] - a[0]) * e + (near[1] - a[1]) * n) / squared if squared > 0.0 else 0.0
    share = min(1.0, max(0.0, share))
    return Spot(number, share, (a[0] + share * e, a[1] + share * n))


def _apart(one: Place, other: Place) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _length(way: Sequence[Place]) -> float:
    return sum(_apart(a, b) for a, b in pairwise(way))
