"""What is written beside the things on a plan: numbers and names, and where they may be."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.along import upright
from plan_editor.drawing.compose import Group
from plan_editor.drawing.ink import Points
from plan_editor.drawing.labels import Wish
from plan_editor.drawing.lettering import CAPITAL, shortened, width
from plan_editor.drawing.measured import set_aside
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind

NUMBERS = (1.9, 1.6)
"""Sizes of the number of a grave, in millimetres: the smaller where it then fits inside."""

_ENOUGH = 0.7
_THIN_HALO = 0.12

NAME = 2.3
"""Size of a name."""

AREA_NAME = 2.8
"""Size of the name of an area, which may stand on its hatch."""

_AREA_HALO = 0.8
_LINE_HALO = 0.6
_GAP = 0.55
_WITHIN = 0.35
_LONGEST = 60.0
_SURELY_SHORT = 20
_AROUND = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1))


def wishes(groups: Iterable[Group], viewport: Viewport) -> tuple[Wish, ...]:
    """Return the label of each item that has one; ``own`` counts all items of the groups."""
    found: list[Wish] = []
    before = 0
    for group in groups:
        told = [_short(label_of(group.kind, item)) for item in group.items]
        labelled = [n for n, text in enumerate(told) if text]
        if labelled:
            items = [group.items[n] for n in labelled]
            texts = [told[n] for n in labelled]
            owns = [before + n for n in labelled]
            found.extend(_of_group(items, texts, owns, viewport))
        before += len(group.items)
    return tuple(found)


def _short(text: str) -> str:
    return shortened(text, NAME, _LONGEST) if len(text) > _SURELY_SHORT else text


def label_of(kind: Kind, item: Item[Any]) -> str:
    """Return what is written beside an item: its figure, its number, or what its kind says."""
    if kind.figure and item.shape is not None:
        figured: str = getattr(item.details, kind.figure)(item.shape.length)
        return figured
    told = getattr(item.details, kind.label) if kind.label else ""
    return item.number or ("" if told is None else str(told))


def _of_group(
    items: list[Item[Any]], texts: list[str], owns: list[int], viewport: Viewport
) -> list[Wish]:
    kind = items[0].kind
    shapes = set_aside(kind, items, viewport.shapes([i.shape for i in items]), viewport)
    if all(i.form is Form.RECTANGLE for i in items):
        return _at_rectangles(shapes, texts, owns, kind.name)
    return [
        _WISHES[int(shapely.get_dimensions(shape))](shape, text, own)
        for shape, text, own in zip(shapes, texts, owns, strict=True)
    ]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Rectangles:
    """Rectangles on paper: middles of head and foot, unit ways, sizes, and turn of the text."""

    head: Points
    foot: Points
    down: Points
    along: Points
    length: Points
    broad: Points
    level: NDArray[np.bool_]
    turn: Points


def _rectangles(shapes: NDArray[np.object_]) -> _Rectangles:
    corners = shapely.get_coordinates(shapely.get_exterior_ring(shapes)).reshape(-1, 5, 2)
    head = (corners[:, 0] + corners[:, 1]) / 2
    foot = (corners[:, 2] + corners[:, 3]) / 2
    length = np.hypot(*(foot - head).T)
    broad = np.hypot(*(corners[:, 1] - corners[:, 0]).T)
    down = (foot - head) / length[:, None]
    turn = np.degrees(np.arctan2(down[:, 1], down[:, 0]))
    # text runs along whichever side is nearer to level
    level = np.abs((turn + 90.0) % 180.0 - 90.0) <= 45.0
    return _Rectangles(
        head=head,
        foot=foot,
        down=down,
        along=(corners[:, 1] - corners[:, 0]) / broad[:, None],
        length=length,
        broad=broad,
        level=level,
        turn=np.where(level, turn, turn + 90.0),
    )


def _at_rectangles(
    shapes: NDArray[np.object_], texts: list[str], owns: list[int], like: str
) -> list[Wish]:
    """Return the numbers of rectangles: outside the foot, or else inside it, or else beside."""
    found = _rectangles(shapes)
    widths = np.array([width(t) for t in texts])
    tried = [(size, _places(found, widths * size, size * CAPITAL)) for size in NUMBERS]
    size, places = next(
        (t for t in tried if (~np.isnan(t[1][:, 1, 0])).mean() >= _ENOUGH), tried[0]
    )
    middle = (found.head + found.foot) / 2
    return [
        Wish(
            text=text,
            places=places[n],
            target=(float(middle[n, 0]), float(middle[n, 1])),
            turn_deg=upright(float(found.turn[n])),
            size=size,
            own=owns[n],
            halo=size * _THIN_HALO,
            like=like,
        )
        for n, text in enumerate(texts)
    ]


def _places(r: _Rectangles, long: Points, high: float) -> Points:
    """Return where the middle of a text may be, (n, 7, 2), the dearest first."""
    deep = np.where(r.level, long, high)[:, None] / 2
    wide = np.where(r.level, high, long)[:, None] / 2
    outside = r.foot + r.down * (deep + _GAP)
    inside = r.foot - r.down * (deep + _WITHIN)
    too_large = (2 * (wide[:, 0] + _WITHIN) > r.broad) | (2 * (deep[:, 0] + _WITHIN) > r.length)
    inside[too_large] = np.nan
    middle = (r.head + r.foot) / 2
    aside = r.along * (r.broad[:, None] / 2 + wide + _GAP)
    return np.stack(
        [
            outside,
            inside,
            outside + r.along * wide,
            outside - r.along * wide,
            r.head - r.down * (deep + _GAP),
            middle + aside,
            middle - aside,
        ],
        axis=1,
    )


def _at_point(shape: Any, text: str, own: int) -> Wish:
    at = np.array([shape.x, shape.y])
    half = np.array([width(text) * NAME / 2, NAME * CAPITAL / 2])
    places = at + np.array(_AROUND) * (half + 1.8)
    return Wish(text=text, places=places, target=(shape.x, shape.y), size=NAME, own=own)


def _at_line(shape: Any, text: str, own: int) -> Wish:
    half = shape.length / 2
    before, middle, after = (
        shapely.get_coordinates(shape.interpolate(half + step))[0] for step in (-0.5, 0.0, 0.5)
    )
    way = after - before
    return Wish(
        text=text,
        places=middle[None],
        target=(float(middle[0]), float(middle[1])),
        turn_deg=upright(float(np.degrees(np.arctan2(way[1], way[0])))),
        size=NAME,
        halo=_LINE_HALO,
        own=own,
    )


def _in_area(shape: Any, text: str, own: int) -> Wish:
    point = shape.representative_point()
    middle = shape.centroid if shape.contains(shape.centroid) else point
    at = np.array([(middle.x, middle.y), (point.x, point.y)])
    steps = np.array([(0.0, 0.0), (0.0, 4.0), (0.0, -4.0)])
    places: Points = (at[:, None] + steps).reshape(-1, 2)
    return Wish(
        text=text,
        places=places,
        target=(middle.x, middle.y),
        size=AREA_NAME,
        halo=_AREA_HALO,
        own=own,
    )


_WISHES = {0: _at_point, 1: _at_line, 2: _in_area}
