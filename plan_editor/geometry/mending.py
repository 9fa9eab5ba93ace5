"""Shapes mended where only one thing can be meant, and the place of the fault where not."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

import shapely
from shapely import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.tolerance import FARTHEST, SAME, stored

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""

TINY_M2 = 0.01
"""What an outline that crosses itself encloses twice, or the wrong way round, is a slip of the
hand up to this area: a square decimetre."""


_IN_WORDS = {
    "Self-intersection": "the outline crosses itself",
    "Ring Self-intersection": "the outline touches itself",
    "Hole lies outside shell": "a hole lies outside the outline",
    "Too few points in geometry component": "the outline has too few corners",
}
"""What the geometry library finds, in the words of a drawing."""

_ELSE = "an outline crosses or touches another"


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a shape, as a clause, and where, if anywhere."""

    what: str
    place: Place | None


def mended(shape: BaseGeometry) -> BaseGeometry | None:
    """Return a shape as the plan can keep it, or None where that is not plain.

    Corners that are there twice go; so do spikes of no width, holes of no area, and loops of
    less than ``TINY_M2`` where an outline crosses itself.

    What is wrong with one that cannot be mended is told by ``fault_in``.
    """
    try:
        return stored(shape)
    except ValueError:
        return _repaired(shape)


def fault_in(shape: BaseGeometry) -> Fault:
    """Return what is wrong with a shape that could not be mended."""
    corners = [(e, n) for e, n in shapely.get_coordinates(shape).tolist() if _known(e, n)]
    if not corners:
        return Fault("there is no corner within 100 km of the plan's origin", None)
    if len(corners) < shapely.get_num_coordinates(shape):
        return Fault("a corner lies more than 100 km from the others", corners[0])
    said, _, where = shapely.is_valid_reason(shape).partition("[")
    if not where:
        return Fault("it is thinner than a millimetre", corners[0])
    east, north, *_ = where.rstrip("]").split()
    return Fault(_IN_WORDS.get(said, _ELSE), (float(east), float(north)))


def _known(east: float, north: float) -> bool:
    return abs(east) < FARTHEST and abs(north) < FARTHEST


def _repaired(shape: BaseGeometry) -> BaseGeometry | None:
    """Return a shape that is not in order without what is certainly a slip."""
    if shape.geom_type not in ("Polygon", "MultiPolygon"):
        return None
    if not all(_known(e, n) for e, n in shapely.get_coordinates(shape).tolist()):
        return None
    parts = [_without_spikes(part) for part in shapely.get_parts(shape)]
    whole = [part for part in parts if part is not None]
    if not whole or len(whole) < len(parts):
        return None
    plain = whole[0] if shape.geom_type == "Polygon" else MultiPolygon(whole)
    untied = plain if plain.is_valid else _untied(plain)
    try:
        return None if untied is None else stored(untied)
    except ValueError:
        return None


def _untied(shape: BaseGeometry) -> BaseGeometry | None:
    """Return an outline without its tiny loops.

    Two rules tell what lies inside an outline that crosses itself: what its lines enclose,
    counted from outside in turn as ground and hole, and what it goes round. Where both give
    the same but for a tiny area, and all but tiny pieces hang together as before, only one
    thing can be meant.
    """
    in_turn = shapely.make_valid(shape, method="linework")
    round_it = shapely.make_valid(shape, method="structure", keep_collapsed=False)
    if shapely.symmetric_difference(in_turn, round_it).area > TINY_M2:
        return None
    parts = [p for p in shapely.get_parts(round_it) if p.geom_type == "Polygon"]
    kept = [p for p in parts if p.area > TINY_M2]
    if len(kept) != shapely.get_num_geometries(shape):
        return None
    return kept[0] if len(kept) == 1 else MultiPolygon(kept)


def _without_spikes(part: Polygon) -> Polygon | None:
    shell = _ring(part.exterior)
    if shell is None:
        return None
    holes = (_ring(hole) for hole in part.interiors)
    return Polygon(shell, [hole for hole in holes if hole is not None])


def _ring(line: LineString) -> list[Place] | None:
    """Return the corners of a ring without doubles and spikes; None where nothing is left."""
    corners = [(e, n) for e, n, *_ in line.coords][:-1]
    number = 0
    while number < len(corners) and len(corners) > 2:
        before, after = corners[number - 1], corners[(number + 1) % len(corners)]
        if _needless(before, corners[number], after):
            del corners[number]
            number = max(number - 2, 0)
        else:
            number += 1
    return corners if len(corners) > 2 else None


def _needless(before: Place, corner: Place, after: Place) -> bool:
    """Return whether a corner doubles the one before it, or is the tip of a spike."""
    back, on = _way(corner, before), _way(corner, after)
    if hypot(*back) <= SAME:
        return True
    ahead = back[0] * on[0] + back[1] * on[1] > 0.0
    width = abs(back[0] * on[1] - back[1] * on[0]) / max(hypot(*back), hypot(*on))
    return ahead and width <= SAME


def _way(start: Place, end: Sequence[float]) -> Place:
    return end[0] - start[0], end[1] - start[1]
