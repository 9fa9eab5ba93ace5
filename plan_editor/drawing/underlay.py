"""A base plan under the ink: a foreign drawing as thin grey lines, a scan as a picture."""

from collections.abc import Iterator

import shapely

from plan_editor.drawing.backdrop import Backdrop, LineWork, Scan
from plan_editor.drawing.foreign import Lettered, lines_on_ground, texts_on_ground
from plan_editor.drawing.ink import Clipped, Ink, Picture, Points, Stroke, Text
from plan_editor.drawing.viewport import Viewport
from plan_editor.geometry.mappings import Mapping
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
        _line_work(content, backdrop.laid.mapping, viewport)
        if isinstance(content, LineWork)
        else _scan(content, backdrop, viewport)
    )
    return (Clipped(box=viewport.frame, ink=ink),)


def _line_work(content: LineWork, mapping: Mapping, viewport: Viewport) -> tuple[Ink, ...]:
    lines = tuple(viewport.paper(line) for line in lines_on_ground(content, mapping))
    seen = shapely.box(*viewport.frame)
    kept = tuple(line for line in lines if _meets(line, seen.bounds))
    texts = tuple(_texts(texts_on_ground(content.texts, mapping), viewport))
    return ((Stroke(lines=kept, pen=_PEN),) if kept else ()) + texts


def _meets(line: Points, frame: tuple[float, float, float, float]) -> bool:
    left, bottom, right, top = frame
    low, high = line.min(axis=0), line.max(axis=0)
    return bool(low[0] <= right and high[0] >= left and low[1] <= top and high[1] >= bottom)


def _texts(told: Lettered, viewport: Viewport) -> Iterator[Text]:
    sizes = (told.heights * viewport.mm_per_metre).tolist()
    rows = zip(told.texts, viewport.paper(told.places), sizes, told.turns_deg, strict=True)
    for text, (x, y), size, turn in rows:
        if size >= _SMALLEST:
            yield Text(
                text=text,
                x=float(x),
                y=float(y),
                size=size,
                colour=_GREY,
                turn_deg=float(turn),
            )


def _scan(content: Scan, backdrop: Backdrop, viewport: Viewport) -> tuple[Ink, ...]:
    left, bottom, right, top = viewport.frame
    pixel_mm = max(25.4 / FINEST, ((right - left) * (top - bottom) / _MOST_PIXELS) ** 0.5)
    pixels = content.resampled(
        backdrop.laid.mapping, viewport.ground, pixel_mm / viewport.mm_per_metre
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
