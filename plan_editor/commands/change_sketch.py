"""What was changed, sketched over the ground: how it lay before, and how after."""

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.sketch import Sketch, SketchDot, SketchLine, Tone
from plan_editor.geometry.nearby import Box
from plan_editor.plan.item import Item

MOST_SKETCHED = 1000
"""So many things are sketched; more would hide the ground."""

MOST_NAMED = 60
"""So many of them are named."""

MARGIN_M = 4.0
"""So much ground is shown round what was changed."""

WORTH_AN_ARROW_M = 0.05

Sides = tuple[Item[Any] | None, Item[Any] | None]


def change_sketch(changes: Iterable[Sides]) -> Sketch:
    """Return each thing as it was, dotted, and as it became, whole, with its name.

    Args:
        changes: each thing before and after, both in the plan's grid; None before it came or
            after it went.
    """
    told = [pair for pair in changes if any(i and i.shape is not None for i in pair)]
    lines: list[SketchLine] = []
    dots: list[SketchDot] = []
    for before, after in told[:MOST_SKETCHED]:
        lines += _outline(before, Tone.SOFT)
        lines += _outline(after, Tone.MEASURED)
        lines += _arrow(before, after)
        dots += _dots(before, after, named=len(told) <= MOST_NAMED)
    return Sketch(lines=tuple(lines), dots=tuple(dots))


def place_of(changes: Iterable[Sides]) -> Box | None:
    """Return a box round all that was changed; None where nothing of it has a place."""
    shapes = [i.shape for pair in changes for i in pair if i and i.shape is not None]
    if not shapes:
        return None
    west, south, east, north = shapely.total_bounds(shapes).tolist()
    return west - MARGIN_M, south - MARGIN_M, east + MARGIN_M, north + MARGIN_M


def _outline(item: Item[Any] | None, tone: Tone) -> Iterator[SketchLine]:
    if item is not None and item.shape is not None:
        for ring in _rings(item.shape):
            yield SketchLine(points=shapely.get_coordinates(ring), tone=tone)


def _rings(shape: BaseGeometry) -> Iterator[BaseGeometry]:
    for part in shapely.get_parts(shape):
        if part.geom_type == "Polygon":
            yield from (part.exterior, *part.interiors)
        elif part.geom_type == "LineString":
            yield part


def _arrow(before: Item[Any] | None, after: Item[Any] | None) -> Iterator[SketchLine]:
    if before is None or after is None or before.shape is None or after.shape is None:
        return
    way = shapely.get_coordinates([before.shape.centroid, after.shape.centroid])
    if float(np.hypot(*(way[1] - way[0]))) >= WORTH_AN_ARROW_M:
        yield SketchLine(points=way, tone=Tone.MEASURED, arrow=True)


def _dots(
    before: Item[Any] | None, after: Item[Any] | None, *, named: bool
) -> Iterator[SketchDot]:
    item = after if after is not None and after.shape is not None else before
    if item is None or item.shape is None:
        return
    if named or item.shape.geom_type == "Point":
        middle = item.shape.representative_point()
        text = (item.number or item.kind.title) if named else ""
        tone = Tone.SOFT if after is None else Tone.MEASURED
        yield SketchDot(east=middle.x, north=middle.y, text=text, tone=tone)
