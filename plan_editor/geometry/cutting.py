"""Lines and areas cut by a line, and areas cut out of one another.

Nothing is rounded to what the plan keeps: the parts share their new corners exactly, and
rounding a corner, which is the same for both, keeps them together.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise

import shapely
from shapely import LineString, MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.edges import Place
from plan_editor.geometry.tolerance import SAME

DUST_M2 = 1e-4
"""A piece of an area smaller than a square centimetre is left by rounding, not by the user."""

DUST_M = 0.01
"""The same of a line: shorter than a centimetre."""

_FINEST_M = 1e-6
"""Corners nearer than this are one while parts are found: lines that all but coincide would
otherwise cross in places that floats cannot tell apart."""

_OVER_M = 0.002
"""So far a cutting line is carried on: an end laid on an edge, rounded, may fall short."""


def split(shape: BaseGeometry, cut: LineString) -> tuple[BaseGeometry, ...]:
    """Return the parts into which a line cuts a line or an area, the largest first.

    One part where it does not go right across. What the line leaves alone of an area of several
    parts stays with the largest.
    """
    across = lengthened(cut, _OVER_M)
    if shape.geom_type == "LineString":
        parts: Iterable[BaseGeometry] = _line_parts(shape, across)
        return tuple(sorted(parts, key=lambda p: -p.length))
    loose: list[Polygon] = []
    alone: list[Polygon] = []
    for part in shapely.get_parts(shape):
        found = _area_parts(part, across)
        (loose if len(found) > 1 else alone).extend(found)
    return _with_largest(loose, alone)


def cut_out(shape: BaseGeometry, piece: BaseGeometry) -> tuple[BaseGeometry, ...]:
    """Return what is left of an area where a piece of it is cut out, the largest part first.

    None where nothing is left. Parts that the piece does not touch stay with the largest.
    """
    loose: list[Polygon] = []
    alone: list[Polygon] = []
    for part in shapely.get_parts(shape):
        if shapely.intersection(part, piece).area > DUST_M2:
            loose += areas_of(shapely.difference(part, piece))
        else:
            alone.append(part)
    return _with_largest(loose, alone)


def areas_of(shape: BaseGeometry) -> list[Polygon]:
    """Return the areas in a shape that are more than dust."""
    parts = shapely.get_parts(shape)
    return [p for p in parts if p.geom_type == "Polygon" and p.area > DUST_M2]


def lengthened(line: LineString, by: float) -> LineString:
    """Return a line carried on at both ends by so many metres."""
    corners = shapely.get_coordinates(line).tolist()
    start, end = _beyond(corners[1], corners[0], by), _beyond(corners[-2], corners[-1], by)
    return LineString([start, *corners[1:-1], end])


def crossings(line: BaseGeometry, other: BaseGeometry) -> tuple[tuple[float, float], ...]:
    """Return the places where a line meets another: points, and both ends where they run on."""
    met = shapely.get_parts(shapely.intersection(line, other))
    places = [shapely.get_coordinates(m)[[0, -1]].tolist() for m in met if not m.is_empty]
    return tuple(dict.fromkeys((e, n) for pair in places for e, n in pair))


def _beyond(before: Sequence[float], end: Sequence[float], by: float) -> Place:
    long = Point(before).distance(Point(end)) or 1.0
    share = by / long
    return end[0] + (end[0] - before[0]) * share, end[1] + (end[1] - before[1]) * share


def _with_largest(
    loose: Iterable[Polygon], alone: Sequence[Polygon]
) -> tuple[BaseGeometry, ...]:
    parts: list[BaseGeometry] = sorted(loose, key=lambda p: -p.area)
    if not alone:
        return tuple(parts)
    kept = [*alone, *shapely.get_parts(parts[0])] if parts else list(alone)
    whole = kept[0] if len(kept) == 1 else MultiPolygon(kept)
    return (whole, *parts[1:])


def _area_parts(area: Polygon, cut: LineString) -> list[Polygon]:
    """Return the parts of one area; dust goes to the part that it has most edge with."""
    noded = shapely.union_all([area.boundary, cut], grid_size=_FINEST_M)
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    inside = [f for f in faces if area.contains(f.representative_point())]
    parts = [f for f in inside if f.area > DUST_M2]
    if len(parts) < 2:
        return [area]
    for dust in (f for f in inside if f.area <= DUST_M2):
        most = max(range(len(parts)), key=lambda n: _edge(parts[n], dust))
        parts[most] = shapely.union(parts[most], dust)
    return parts


def _edge(one: Polygon, other: Polygon) -> float:
    return float(shapely.intersection(one.boundary, other.boundary).length)


def _line_parts(line: BaseGeometry, cut: LineString) -> list[LineString]:
    """Return the pieces of a line between the places where the cut meets it."""
    corners = [(e, n) for e, n in shapely.get_coordinates(line).tolist()]
    pieces = _pieces(corners, cut)
    closed = corners[0] == corners[-1] and len(corners) > 3
    if closed and len(pieces) > 1:  # where it begins, nobody cut it
        last = pieces.pop()
        pieces[0] = [*last, *pieces[0][1:]]
    return [LineString(piece) for piece in pieces]


def _pieces(corners: Sequence[Place], cut: LineString) -> list[list[Place]]:
    pieces: list[list[Place]] = [[corners[0]]]
    left = shapely.length(LineString(corners))
    for start, end in pairwise(corners):
        side = LineString([start, end])
        met = [(Point(start).distance(Point(p)), p) for p in crossings(side, cut)]
        for _, place in sorted(met):
            done = _run([*pieces[-1], place])
            if done > DUST_M and left - done > DUST_M:
                pieces[-1].append(place)
                pieces.append([place])
                left -= done
        if Point(pieces[-1][-1]).distance(Point(end)) > SAME:
            pieces[-1].append(end)
    return pieces


def _run(corners: Sequence[Place]) -> float:
    return sum(Point(a).distance(Point(b)) for a, b in pairwise(corners))
