"""A base plan under the ink: a foreign drawing as thin grey lines, a scan as a picture."""

from math import hypot

import numpy as np
import shapely

from plan_editor.drawing.backdrop import Backdrop, Lettering, LineWork, Scan
from plan_editor.drawing.ink import Clipped, Ink, Picture, Points, Stroke, Text
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.look import Pen

FINEST = 200.0
"""Pixels to an inch of paper of a scan under a sheet, unless there would be too many."""

_MOST_PIXELS = 20_000_000
_SMALLEST = 0.7
_GREY = "#9AA2A6"
_PEN = Pen(width=0.13, colour=_GREY)


def underlay(backdrop: Backdrop, viewport: Viewport) -> tuple[Ink, ...]:
    """Return a base plan as ink, cut off at the viewport's frame."""
    content = backdrop.content
    ink = (
        _line_work(content, backdrop.laid.fit, viewport)
        if isinstance(content, LineWork)
        else _scan(content, backdrop, viewport)
    )
    return (Clipped(box=viewport.frame, ink=ink),)


def _line_work(
    content: LineWork, fit: tuple[float, ...], viewport: Viewport
) -> tuple[Ink, ...]:
    lines = tuple(viewport.paper(_placed(line, fit)) for line in content.lines)
    seen = shapely.box(*viewport.frame)
    kept = tuple(line for line in lines if len(line) > 1 and _meets(line, seen.bounds))
    texts = tuple(_text(told, fit, viewport) for told in content.texts)
    large = tuple(text for text in texts if text.size >= _SMALLEST)
    return ((Stroke(lines=kept, pen=_PEN),) if kept else ()) + large


def _meets(line: Points, frame: tuple[float, float, float, float]) -> bool:
    left, bottom, right, top = frame
    low, high = line.min(axis=0), line.max(axis=0)
    return bool(low[0] <= right and high[0] >= left and low[1] <= top and high[1] >= bottom)


def _placed(points: Points, fit: tuple[float, ...]) -> Points:
    a, b, c, d, e, f = fit
    return np.asarray(points @ np.array([[a, d], [b, e]]) + (c, f))


def _text(told: Lettering, fit: tuple[float, ...], viewport: Viewport) -> Text:
    a, _, _, d, _, _ = fit
    at = viewport.paper(_placed(np.array([(told.x, told.y)]), fit))[0]
    return Text(
        text=told.text,
        x=float(at[0]),
        y=float(at[1]),
        size=told.height * hypot(a, d) * viewport.mm_per_metre,
        colour=_GREY,
        turn_deg=told.turn_deg + float(np.degrees(np.arctan2(d, a))),
    )


def _scan(content: Scan, backdrop: Backdrop, viewport: Viewport) -> tuple[Ink, ...]:
    left, bottom, right, top = viewport.frame
    pixel_mm = max(25.4 / FINEST, ((right - left) * (top - bottom) / _MOST_PIXELS) ** 0.5)
    pixels = content.resampled(
        backdrop.laid.fit, viewport.ground, pixel_mm / viewport.mm_per_metre
    )
    return (
        Picture(
            pixels=pixels,
            left=left,
            bottom=bottom,
            right=right,
            top=top,
            opacity=backdrop.laid.opacity,
        ),
    )
