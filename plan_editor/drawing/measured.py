"""Lengths written on the plan: the line set aside from what it measures, and its ends."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.ink import Ink, Points, Stroke
from plan_editor.drawing.rings import lines_of
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Look, Pen

_TICK = 1.1
_BEYOND = 1.0


def set_aside(
    kind: Kind, items: Sequence[Item[Any]], lines: NDArray[np.object_], viewport: Viewport
) -> NDArray[np.object_]:
    """Return lines on paper where they are drawn: to the right of what they measure."""
    if not kind.aside:
        return lines
    aside = [float(getattr(i.details, kind.aside)) * viewport.mm_per_metre for i in items]
    drawn = [
        affinity.translate(line, *_right_of(line, by))
        for line, by in zip(lines, aside, strict=True)
    ]
    return np.array(drawn, dtype=np.object_)


def measured_ink(
    measured: NDArray[np.object_], drawn: NDArray[np.object_], look: Look
) -> tuple[Ink, ...]:
    """Return oblique strokes at the ends of lines, and lines from what they measure to them."""
    pen = look.pen or Pen()
    ends, origins = _ends(drawn), _ends(measured)
    ticks = tuple(np.array([end - _TICK / 2, end + _TICK / 2]) for end in ends)
    out = tuple(
        _beyond(origin, end)
        for origin, end in zip(origins, ends, strict=True)
        if np.hypot(*(end - origin)) > _TICK
    )
    thick = Pen(width=2 * pen.width, colour=pen.colour)
    thin = Pen(width=pen.width, colour=pen.colour)
    strokes = (Stroke(lines=ticks, pen=thick),)
    return (Stroke(lines=out, pen=thin), *strokes) if out else strokes


def _right_of(line: BaseGeometry, by: float) -> tuple[float, float]:
    start, end = _ends(np.array([line], dtype=np.object_))
    way = (end - start) / max(float(np.hypot(*(end - start))), 1e-9)
    return float(way[1] * by), float(-way[0] * by)


def _ends(lines: NDArray[np.object_]) -> Points:
    return np.array([end for line in lines_of(lines) for end in (line[0], line[-1])])


def _beyond(origin: Points, end: Points) -> Points:
    way = (end - origin) / np.hypot(*(end - origin))
    return np.array([origin + way * _BEYOND, end + way * _BEYOND])
