"""Rectangles side by side along a line: laid out, carried on, stretched, spaced evenly."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin

from plan_editor.geometry.bearings import bearing
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.tolerance import SAME

Place = tuple[float, float]
"""East and north in metres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """A straight line with a start and a way to go: places as metres along and to its right.

    Args:
        start: east and north in metres.
        bearing_deg: clockwise from grid north.
    """

    start: Place
    bearing_deg: float

    def within(self, place: Place) -> Place:
        """Return a place as metres along and metres to the right."""
        turn = radians(self.bearing_deg)
        de, dn = place[0] - self.start[0], place[1] - self.start[1]
        return de * sin(turn) + dn * cos(turn), de * cos(turn) - dn * sin(turn)

    def at(self, along: float, aside: float = 0.0) -> Place:
        """Return the place so many metres along and so many to the right."""
        turn = radians(self.bearing_deg)
        return (
            self.start[0] + along * sin(turn) + aside * cos(turn),
            self.start[1] + along * cos(turn) - aside * sin(turn),
        )


def axis_between(start: Place, end: Place) -> Axis:
    """Return the axis from one place to another.

    Raises:
        ValueError: they are the same.
    """
    return Axis(start=start, bearing_deg=bearing(end[0] - start[0], end[1] - start[1]))


def head_of(rectangle: Rectangle) -> Place:
    """Return the middle of a head line."""
    line = Axis(start=(rectangle.east, rectangle.north), bearing_deg=rectangle.bearing_deg)
    return line.at(rectangle.width / 2)


def with_head_at(rectangle: Rectangle, head: Place, bearing_deg: float) -> Rectangle:
    """Return a rectangle of the same size with the middle of its head line at a place."""
    corner = Axis(start=head, bearing_deg=bearing_deg).at(-rectangle.width / 2)
    return replace(rectangle, east=corner[0], north=corner[1], bearing_deg=bearing_deg % 360.0)


def count_that_fits(length: float, width: float, pitch: float) -> int:
    """Return how many rectangles of a width fit a length at about a pitch; one at least."""
    return max(1, round((length - width) / pitch) + 1)


def along_line(
    start: Place, end: Place, size: tuple[float, float], count: int, *, right: bool
) -> tuple[Rectangle, ...]:
    """Return so many rectangles, evenly spaced, with their head lines on a line.

    Args:
        start: where the head line of the first begins.
        end: where that of the last ends.
        size: their width along the line, and their length across it.
        count: one or more; one alone stands at the start.
        right: whether they lie to the right of the way from start to end.

    Raises:
        ValueError: the ends are the same, a side is nothing, or there is none.
    """
    axis = axis_between(start, end)
    length = hypot(end[0] - start[0], end[1] - start[1])
    step = (length - size[0]) / (count - 1) if count > 1 else 0.0
    return at_pitch(axis, size, count, step, right=right)


def at_pitch(
    axis: Axis, size: tuple[float, float], count: int, pitch: float, *, right: bool
) -> tuple[Rectangle, ...]:
    """Return so many rectangles along an axis, from its start, at a pitch.

    Raises:
        ValueError: a side is nothing, or there is none.
    """
    if count < 1:
        raise ValueError("a row has one grave at least")
    width, length = size
    turned = axis.bearing_deg if right else axis.bearing_deg + 180.0
    corner = 0.0 if right else width
    return tuple(
        Rectangle(
            east=place[0],
            north=place[1],
            width=width,
            length=length,
            bearing_deg=turned % 360.0,
        )
        for place in (axis.at(n * pitch + corner) for n in range(count))
    )


def stretched(
    rectangles: Sequence[Rectangle], axis: Axis, length: float, start: Place, end: Place
) -> tuple[Rectangle, ...]:
    """Return rectangles as they stand when their row runs from one place to another.

    Each keeps its size, its share of the way and its distance from the row's line, and turns
    with it.

    Args:
        rectangles: in order along the axis, one or more.
        axis: the row's line as it is, from the outer end of the first one's head line.
        length: from there to the outer end of the last one's.
        start: where the row is to begin.
        end: where it is to end.

    Raises:
        ValueError: start and end are the same, or so near that the last would come to stand
            before the first.
    """
    after = axis_between(start, end)
    edges = rectangles[0].width / 2 + rectangles[-1].width / 2
    wanted = hypot(end[0] - start[0], end[1] - start[1])
    room = length - edges
    if room > SAME and wanted <= edges:
        raise ValueError("the ends lie too close")
    grown = (wanted - edges) / room if room > SAME else 1.0
    half = rectangles[0].width / 2
    return tuple(_stretched(rectangles, axis, after, half, grown))


def _stretched(
    rectangles: Sequence[Rectangle], before: Axis, after: Axis, half: float, grown: float
) -> Iterator[Rectangle]:
    for rectangle in rectangles:
        along, aside = before.within(head_of(rectangle))
        head = after.at(half + (along - half) * grown, aside)
        turn = after.bearing_deg - before.bearing_deg
        yield with_head_at(rectangle, head, rectangle.bearing_deg + turn)


def evened(rectangles: Sequence[Rectangle], axis: Axis) -> tuple[Rectangle, ...]:
    """Return rectangles with their heads at one distance from the next, along an axis.

    The first and the last stay, and so does how far each stands from the axis.

    Args:
        rectangles: in order along it, one or more.
        axis: the row's line.
    """
    places = [axis.within(head_of(r)) for r in rectangles]
    first, last = places[0][0], places[-1][0]
    step = (last - first) / max(1, len(places) - 1)
    return tuple(
        with_head_at(r, axis.at(first + n * step, aside), r.bearing_deg)
        for n, (r, (_, aside)) in enumerate(zip(rectangles, places, strict=True))
    )


def in_line(rectangle: Rectangle, axis: Axis, bearing_deg: float) -> Rectangle:
    """Return a rectangle with the middle of its head on an axis, turned to a bearing."""
    along, _ = axis.within(head_of(rectangle))
    return with_head_at(rectangle, axis.at(along), bearing_deg)
