"""Lines joined end to end, and areas that touch joined into one."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

import shapely
from shapely import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.cutting import DUST_M2
from plan_editor.geometry.edges import Place

TOUCHING = 0.002
"""Ends and edges nearer than this meet: each may be half a millimetre from where it was meant,
and a corner on a slanting edge a little more."""


@dataclass(frozen=True, slots=True)
class Gap:
    """How far apart two things are that do not meet, in metres, and where."""

    metres: float
    place: Place


def joined_lines(lines: Sequence[BaseGeometry]) -> LineString | Gap:
    """Return one line of several that follow end to end; it runs the way of the first.

    Or the least gap between the ends of what was joined so far and those of another.
    """
    chain = _corners(lines[0])
    waiting = [_corners(line) for line in lines[1:]]
    while waiting:
        gap, number, put = min(_ways(chain, waiting), key=lambda w: w[0].metres)
        if gap.metres > TOUCHING:
            return gap
        chain = put
        del waiting[number]
    return LineString(chain)


def joined_areas(areas: Sequence[BaseGeometry]) -> BaseGeometry | Gap:
    """Return one area of several that touch along an edge, or overlap.

    Or how far the nearest of those left over is from what was joined so far; no distance where
    they meet in a point. An area of several parts counts as one thing.
    """
    whole, waiting = areas[0], list(areas[1:])
    while waiting:
        near = min(range(len(waiting)), key=lambda n: _looseness(whole, waiting[n]))
        other = waiting.pop(near)
        both = _united(whole, other)
        if shapely.get_num_geometries(both) >= sum(
            int(shapely.get_num_geometries(s)) for s in (whole, other)
        ):
            line = shapely.shortest_line(whole, other)
            (e0, n0), (e1, n1) = shapely.get_coordinates(line).tolist()
            return Gap(float(line.length), ((e0 + e1) / 2, (n0 + n1) / 2))
        whole = both
    return whole


def _looseness(whole: BaseGeometry, other: BaseGeometry) -> tuple[float, float]:
    """Return the distance, and the less for a longer common edge."""
    return whole.distance(other), -shapely.intersection(whole, other).length


def _united(one: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    """Return two areas as one, edges taken together that lie within ``TOUCHING``."""
    near = shapely.snap(other, one, TOUCHING)
    near = near if near.is_valid else other
    back = shapely.snap(one, near, TOUCHING)
    back = back if back.is_valid else one
    parts = shapely.get_parts(shapely.union(back, near))
    whole = [_without_dust(part) for part in parts if part.area > DUST_M2]
    return whole[0] if len(whole) == 1 else MultiPolygon(whole)


def _without_dust(area: Polygon) -> Polygon:
    holes = [h for h in area.interiors if Polygon(h).area > DUST_M2]
    return Polygon(area.exterior, holes)


def _corners(line: BaseGeometry) -> list[Place]:
    return [(e, n) for e, n in shapely.get_coordinates(line).tolist()]


def _ways(
    chain: list[Place], waiting: Sequence[list[Place]]
) -> list[tuple[Gap, int, list[Place]]]:
    """Return each way to put one more line to either end of a chain, with the gap left."""
    found = []
    for number, line in enumerate(waiting):
        for way in (line, line[::-1]):
            found.append((_gap(chain[-1], way[0]), number, [*chain, *way[1:]]))
            found.append((_gap(way[-1], chain[0]), number, [*way[:-1], *chain]))
    return found


def _gap(one: Place, other: Place) -> Gap:
    middle = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
    return Gap(hypot(other[0] - one[0], other[1] - one[1]), middle)
