"""The corners of a shape: move one, put one in, take one out; and the sides of a rectangle."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import cos, radians, sin

import shapely
from shapely import LineString, MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""

Change = Callable[[tuple[Place, ...], int], tuple[Place, ...]]
"""From the corners of a ring and a place in it to its corners afterwards."""

THINNEST = 0.05
"""A rectangle drawn thinner than this by hand stays so thin, in metres."""


@dataclass(frozen=True, slots=True, order=True)
class Corner:
    """Which corner of a shape: the ring, counted through all its parts, and the place in it."""

    ring: int
    place: int


@dataclass(frozen=True, slots=True)
class Ring:
    """The corners of one line or ring, the closing one left out."""

    corners: tuple[Place, ...]
    closed: bool

    def before(self, place: int) -> Place | None:
        """Return the corner before one; after it, at the start of an open line."""
        if len(self.corners) < 2:
            return None
        if place == 0 and not self.closed:
            return self.corners[1]
        return self.corners[place - 1]

    @property
    def fewest(self) -> int:
        """How many corners it must keep."""
        return 3 if self.closed else 2


def rings(shape: BaseGeometry) -> tuple[Ring, ...]:
    """Return the rings of a point, line or area: outer and inner ones of every part in turn."""
    lines = [
        line
        for part in shapely.get_parts(shape)
        for line in (shapely.get_rings(part) if part.geom_type == "Polygon" else (part,))
    ]
    return tuple(_ring(line) for line in lines)


def corners(shape: BaseGeometry) -> Iterator[tuple[Corner, Place]]:
    """Return every corner with its place."""
    for number, ring in enumerate(rings(shape)):
        for place, corner in enumerate(ring.corners):
            yield Corner(number, place), corner


def middles(shape: BaseGeometry) -> Iterator[tuple[Corner, Place]]:
    """Return the middle of every side, with the corner that would come in there."""
    for number, ring in enumerate(rings(shape)):
        ends = ring.corners[1:] + (ring.corners[:1] if ring.closed else ())
        sides = zip(ring.corners, ends, strict=False)
        for place, ((e0, n0), (e1, n1)) in enumerate(sides):
            yield Corner(number, place + 1), ((e0 + e1) / 2, (n0 + n1) / 2)


def with_moved(shape: BaseGeometry, corner: Corner, to: Place) -> BaseGeometry:
    """Return the shape with a corner elsewhere."""
    return _with(shape, corner, lambda found, i: (*found[:i], to, *found[i + 1 :]))


def with_added(shape: BaseGeometry, corner: Corner, to: Place) -> BaseGeometry:
    """Return the shape with one more corner, which takes that place in its ring."""
    return _with(shape, corner, lambda found, i: (*found[:i], to, *found[i:]))


def without(shape: BaseGeometry, corner: Corner) -> BaseGeometry | None:
    """Return the shape with one corner less, or None where it cannot spare one."""
    ring = rings(shape)[corner.ring]
    if len(ring.corners) <= ring.fewest:
        return None
    return _with(shape, corner, lambda found, i: (*found[:i], *found[i + 1 :]))


def with_ring(shape: BaseGeometry, number: int, corners: tuple[Place, ...]) -> BaseGeometry:
    """Return the shape with other corners in one ring, counted through all its parts."""
    found = list(rings(shape))
    found[number] = replace(found[number], corners=corners)
    return _together(shape, found)


def corner_moved(rectangle: Rectangle, corner: int, to: Place) -> Rectangle:
    """Return a rectangle with a corner elsewhere: the opposite one and the bearing stay.

    Args:
        rectangle: as it is.
        corner: 0 and 1 are the ends of its head line, 2 and 3 follow clockwise.
        to: where the corner is wanted.
    """
    u, v = _within(rectangle, to)
    sized = _side_at(rectangle, 1 if corner in {1, 2} else 3, u)
    return _side_at(sized, 2 if corner in {2, 3} else 0, v)


def side_moved(rectangle: Rectangle, side: int, to: Place) -> Rectangle:
    """Return a rectangle with a side elsewhere: the opposite one and the bearing stay.

    Args:
        rectangle: as it is.
        side: 0 is the head line, the others follow clockwise; 2 is the foot.
        to: a place on the line on which the side is wanted.
    """
    u, v = _within(rectangle, to)
    return _side_at(rectangle, side, u if side in {1, 3} else v)


def _side_at(rectangle: Rectangle, side: int, at: float) -> Rectangle:
    """Return it with one side so far along the head line, or so far down from it."""
    match side:
        case 1:
            return replace(rectangle, width=max(at, THINNEST))
        case 2:
            return replace(rectangle, length=max(at, THINNEST))
        case 3:
            shift = min(at, rectangle.width - THINNEST)
            return _shifted(replace(rectangle, width=rectangle.width - shift), shift, 0.0)
        case _:
            shift = min(at, rectangle.length - THINNEST)
            return _shifted(replace(rectangle, length=rectangle.length - shift), 0.0, shift)


def _within(rectangle: Rectangle, to: Place) -> Place:
    """Return a place as metres along the head line and metres down from it."""
    angle = radians(rectangle.bearing_deg)
    de, dn = to[0] - rectangle.east, to[1] - rectangle.north
    return de * sin(angle) + dn * cos(angle), de * cos(angle) - dn * sin(angle)


def _shifted(rectangle: Rectangle, along: float, down: float) -> Rectangle:
    angle = radians(rectangle.bearing_deg)
    return rectangle.moved(
        along * sin(angle) + down * cos(angle), along * cos(angle) - down * sin(angle)
    )


def _ring(line: BaseGeometry) -> Ring:
    found = tuple(map(_place, shapely.get_coordinates(line).tolist()))
    closed = len(found) > 3 and found[0] == found[-1]
    return Ring(found[:-1] if closed else found, closed)


def _place(pair: Sequence[float]) -> Place:
    return pair[0], pair[1]


def _with(shape: BaseGeometry, corner: Corner, change: Change) -> BaseGeometry:
    ring = rings(shape)[corner.ring]
    return with_ring(shape, corner.ring, change(ring.corners, corner.place))


def _together(shape: BaseGeometry, found: Sequence[Ring]) -> BaseGeometry:
    """Return a shape like another, of other rings."""
    if shape.geom_type == "Point":
        return Point(found[0].corners[0])
    if shape.geom_type == "LineString":
        ring = found[0]
        return LineString(ring.corners + (ring.corners[:1] if ring.closed else ()))
    waiting = iter(found)
    areas = [
        Polygon(next(waiting).corners, [next(waiting).corners for _ in part.interiors])
        for part in shapely.get_parts(shape)
    ]
    return areas[0] if shape.geom_type == "Polygon" else MultiPolygon(areas)
