"""A line cut back to where it meets another, or carried on until it does."""

from collections.abc import Sequence
from math import hypot

import shapely
from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.cutting import DUST_M, crossings
from plan_editor.geometry.edges import Place
from plan_editor.geometry.tolerance import SAME


def brought_to(
    line: BaseGeometry, other: BaseGeometry, *, at_start: bool, near: Place
) -> LineString | None:
    """Return a line that ends on another line, or on the edge of an area.

    It is cut back to a place where they cross, or carried on along its last side; of several
    places the one nearest to ``near`` is taken. None where there is none, or where it ends
    there already.

    Args:
        line: what is cut or carried on.
        other: what it is brought to.
        at_start: whether its first end is meant, or its last.
        near: where the other was pointed at.
    """
    corners = [(e, n) for e, n in shapely.get_coordinates(line).tolist()]
    if at_start:
        corners.reverse()
    edge = other.boundary if shapely.get_dimensions(other) == 2 else other
    ways = (*_cut_back(corners, edge), *_carried_on(corners, edge))
    fitting = [w for w in ways if _apart(w[-1], corners[-1]) > SAME and _run(w) > DUST_M]
    if not fitting:
        return None
    best = min(fitting, key=lambda w: _apart(w[-1], near))
    return LineString(best[::-1] if at_start else best)


def _cut_back(corners: Sequence[Place], edge: BaseGeometry) -> tuple[list[Place], ...]:
    """Return the line up to each place where it meets an edge."""
    found = []
    for number in range(1, len(corners)):
        side = LineString(corners[number - 1 : number + 1])
        for place in crossings(side, edge):
            kept = list(corners[:number])
            if _apart(kept[-1], place) > SAME:
                kept.append(place)
            if len(kept) > 1:
                found.append(kept)
    return tuple(found)


def _carried_on(corners: Sequence[Place], edge: BaseGeometry) -> tuple[list[Place], ...]:
    """Return the line on to each place where its last side, carried on, meets an edge."""
    (e0, n0), (e1, n1) = corners[-2:]
    long = hypot(e1 - e0, n1 - n0)
    far = shapely.hausdorff_distance(Point(e1, n1), edge) + 1.0
    ahead = LineString([(e1, n1), (e1 + (e1 - e0) * far / long, n1 + (n1 - n0) * far / long)])
    return tuple([*corners[:-1], place] for place in crossings(ahead, edge))


def _apart(one: Place, other: Place) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _run(corners: Sequence[Place]) -> float:
    return float(LineString(corners).length)
