"""Where names may stand: beside points, on lines, in areas or along their outline."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from plan_editor.drawing.along import upright
from plan_editor.drawing.area_names import Covers, places_along, places_in
from plan_editor.drawing.ink import Points
from plan_editor.drawing.lettering import CAPITAL, size_of, width
from plan_editor.drawing.wish import Wish

NAME = size_of(2.0)
"""Size of a name."""

AREA_NAME = size_of(2.1)
"""Size of the name of an area, which may stand on its hatch."""

_AREA_HALO = 0.8
_LINE_HALO = 0.6
_POINT_MM = 1.8
_CLEAR = 0.6
_AROUND = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Named:
    """A thing that is to bear its name.

    Args:
        text: the name.
        shape: the thing, on paper.
        own: its number, counting all that is drawn.
        half_mm: half its width on paper, of a line or point that has one.
        outlined: an area that is only the line round it.
    """

    text: str
    shape: Any
    own: int
    half_mm: float
    outlined: bool


def name_of(named: Named, over: Covers) -> Wish:
    """Return the name of a thing as a label, with the places where it may stand."""
    match int(shapely.get_dimensions(named.shape)):
        case 0:
            return _at_point(named, named.shape)
        case 1:
            return _at_line(named)
        case _:
            return _along_outline(named) if named.outlined else _in_area(named, over)


def _half(text: str, size: float) -> Points:
    return np.array([width(text) * size / 2, size * CAPITAL / 2])


def _at_point(named: Named, point: Any) -> Wish:
    away = max(_POINT_MM, named.half_mm + _CLEAR)
    places = (point.x, point.y) + np.array(_AROUND) * (_half(named.text, NAME) + away)
    return Wish(
        text=named.text, places=places, target=(point.x, point.y), size=NAME, own=named.own
    )


def _at_line(named: Named) -> Wish:
    line = named.shape
    if line.length < width(named.text) * NAME:
        return _at_point(named, line.interpolate(0.5, normalized=True))
    half = line.length / 2
    before, middle, after = (
        shapely.get_coordinates(line.interpolate(half + step))[0] for step in (-0.5, 0.0, 0.5)
    )
    way = after - before
    return Wish(
        text=named.text,
        places=middle[None],
        target=(float(middle[0]), float(middle[1])),
        turn_deg=upright(float(np.degrees(np.arctan2(way[1], way[0])))),
        size=NAME,
        halo=_LINE_HALO,
        own=named.own,
    )


def _in_area(named: Named, over: Covers) -> Wish:
    middle = named.shape.representative_point()
    return Wish(
        text=named.text,
        places=places_in(named.shape, _half(named.text, AREA_NAME), over, named.own),
        target=(middle.x, middle.y),
        size=AREA_NAME,
        halo=_AREA_HALO,
        own=named.own,
    )


def _along_outline(named: Named) -> Wish:
    places, turn_deg = places_along(named.shape, _half(named.text, NAME))
    return Wish(
        text=named.text,
        places=places,
        target=(float(places[0, 0]), float(places[0, 1])),
        turn_deg=upright(turn_deg),
        size=NAME,
        own=named.own,
    )
