"""A plain traverse by Bowditch's rule: what it misses by, and its points with that shared out.

Coordinates are grid metres; legs are ground metres. Source of the rule: Bowditch, 1808, also
known as the compass rule; Ghilani and Wolf, Elementary Surveying, on traverses (from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from plan_editor.errors import CannotUse
from plan_editor.geometry.bearings import along, bearing, normal

NOTHING = 1e-6
"""A misclosure shorter than a micrometre is none, and has no ratio."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One leg of a traverse, in the order in which it was walked.

    Args:
        end: name of the point where it ends; it starts where the last one ended.
        metres: on the ground, level.
        bearing_deg: clockwise from grid north; None where an angle was read instead.
        angle_deg: the included angle at its start, clockwise from the point before to the end;
            None where a bearing was read.
    """

    end: str
    metres: float
    bearing_deg: float | None = None
    angle_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A point with a name, in metres about the plan's origin, on the grid."""

    name: str
    east: float
    north: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sights:
    """Known directions at both ends of a traverse.

    Args:
        back_deg: bearing from the start to a point sighted back to; needed where the first leg
            has no bearing.
        angle_deg: the included angle at the end, from the last leg's start to a point of known
            direction.
        fore_deg: bearing from the end to that point.
    """

    back_deg: float | None = None
    angle_deg: float | None = None
    fore_deg: float | None = None


NO_SIGHTS = Sights()


@dataclass(frozen=True, slots=True, kw_only=True)
class Traverse:
    """A traverse with its misclosure shared out.

    Args:
        points: from the start to the end, both included.
        misclosure_east, misclosure_north: where the legs come out, less where they should.
        misclosure: the length of that.
        ratio: length of the traverse over the misclosure, the n of 1:n; None if it is nothing.
        length: of all legs, on the ground.
        angular_deg: sum of the angles less what it should be; None without angles that close.
        area: square metres on the grid, of a closed traverse; None of a link.
        legs: adjusted lengths on the ground and bearings, in the order of the book.
    """

    points: tuple[Point, ...]
    misclosure_east: float
    misclosure_north: float
    misclosure: float
    ratio: float | None
    length: float
    angular_deg: float | None
    area: float | None
    legs: tuple[tuple[float, float], ...]


def bowditch(
    start: Point,
    legs: Sequence[Leg],
    *,
    end: Point | None = None,
    sights: Sights = NO_SIGHTS,
    scale_factor: float = 1.0,
) -> Traverse:
    """Return a traverse, closed or from one known point to another, by Bowditch's rule.

    Where angles are given that close, what they miss by is shared out first, in equal parts. In
    a closed traverse the first leg may have an angle beside its bearing: that between the last
    leg and the first.

    Args:
        start: where it starts.
        legs: at least two, each with a bearing or an angle.
        end: the known point where it should come out; None where it closes on its start.
        sights: known directions at both ends, where there are any.
        scale_factor: grid metres to a metre on the ground.

    Raises:
        CannotUse: too few legs, a leg without direction, a number that makes no sense.
    """
    _refuse_nonsense(legs, scale_factor)
    target = start if end is None else end
    closing = _closing(legs, sights, closed=end is None)
    bearings, angular = _bearings(legs, sights.back_deg, closing)
    ways = [
        along(direction, leg.metres * scale_factor)
        for leg, direction in zip(legs, bearings, strict=True)
    ]
    east = math.fsum(e for e, _ in ways) - (target.east - start.east)
    north = math.fsum(n for _, n in ways) - (target.north - start.north)
    shared = _shared_out(ways, [leg.metres for leg in legs], east, north)
    points = _points(start, legs, shared)
    length, off = math.fsum(leg.metres for leg in legs), math.hypot(east, north)
    return Traverse(
        points=points,
        misclosure_east=east,
        misclosure_north=north,
        misclosure=off,
        ratio=length / off if off > NOTHING else None,
        length=length,
        angular_deg=angular,
        area=_area(points) if end is None else None,
        legs=tuple((math.hypot(e, n) / scale_factor, bearing(e, n)) for e, n in shared),
    )


def _bearings(
    legs: Sequence[Leg],
    first_back_deg: float | None,
    closing: tuple[float, float] | None,
) -> tuple[list[float], float | None]:
    """Return the bearings of all legs, and what the angles missed by."""
    raw = _carried(legs, first_back_deg, share=0.0)
    if closing is None or any(leg.bearing_deg is not None for leg in legs[1:]):
        return raw, None
    angle, known = closing
    missed = math.remainder(raw[-1] + 180.0 + angle - known, 360.0)
    carried = sum(leg.bearing_deg is None for leg in legs)
    return _carried(legs, first_back_deg, share=missed / (carried + 1)), missed


def _closing(
    legs: Sequence[Leg], sights: Sights, *, closed: bool
) -> tuple[float, float] | None:
    """Return the angle at the end, and the bearing to which it should lead."""
    if sights.angle_deg is not None and sights.fore_deg is not None:
        return sights.angle_deg, sights.fore_deg
    first = legs[0]
    if closed and first.bearing_deg is not None and first.angle_deg is not None:
        return first.angle_deg, first.bearing_deg
    return None


def _carried(legs: Sequence[Leg], first_back_deg: float | None, *, share: float) -> list[float]:
    """Return bearings, each angle less its share of what all of them missed by."""
    bearings: list[float] = []
    for leg in legs:
        if leg.bearing_deg is not None:
            bearings.append(normal(leg.bearing_deg))
            continue
        back = bearings[-1] + 180.0 if bearings else first_back_deg
        if back is None or leg.angle_deg is None:
            raise CannotUse(
                f"The traverse was not worked out: the leg to “{leg.end}” has neither a "
                "bearing nor an angle from a known direction. Write one of them."
            )
        bearings.append(normal(back + leg.angle_deg - share))
    return bearings


def _shared_out(
    ways: list[tuple[float, float]], lengths: list[float], east: float, north: float
) -> list[tuple[float, float]]:
    """Return legs east and north, each less its length's share of the misclosure."""
    whole = math.fsum(lengths)
    return [
        (e - east * length / whole, n - north * length / whole)
        for (e, n), length in zip(ways, lengths, strict=True)
    ]


def _points(
    start: Point, legs: Sequence[Leg], ways: list[tuple[float, float]]
) -> tuple[Point, ...]:
    points = [start]
    for leg, (east, north) in zip(legs, ways, strict=True):
        last = points[-1]
        points.append(Point(name=leg.end, east=last.east + east, north=last.north + north))
    return tuple(points)


def _area(points: tuple[Point, ...]) -> float:
    """Return the area that points enclose, by their coordinates."""
    first = points[0]
    places = [(p.east - first.east, p.north - first.north) for p in points]
    return abs(math.fsum(a * d - b * c for (a, b), (c, d) in pairwise(places))) / 2


def _refuse_nonsense(legs: Sequence[Leg], scale_factor: float) -> None:
    if len(legs) < 2:
        raise CannotUse("The traverse was not worked out: it takes two legs at least.")
    if not 0.5 < scale_factor < 2.0:
        raise CannotUse(
            f"The traverse was not worked out: {scale_factor:g} is no local scale factor."
        )
    for leg in legs:
        angles = [a for a in (leg.bearing_deg, leg.angle_deg) if a is not None]
        if not (0.0 < leg.metres < math.inf and all(map(math.isfinite, angles))):
            raise CannotUse(
                f"The traverse was not worked out: the leg to “{leg.end}” has a figure that "
                "makes no sense. Its length must be above 0, its angles numbers."
            )
