"""The twelve months to come as bars on paper, each with its number."""

from collections.abc import Iterator, Sequence

import numpy as np

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Points, Stroke, Text
from plan_editor.drawing.panel import Panel
from plan_editor.plan.look import INK, Pen
from plan_editor.records.month import Count

HIGH_MM = 26.0
_BAR = 0.6
_LEAST_MM = 0.8
_FULL = "#9AA39A"
_PEN = Pen(width=0.25)
_HATCH = Pen(width=0.18)
_SPACING_MM = 1.2


def month_strip(counts: Sequence[Count], width: float, *, size: float) -> Panel:
    """Return a bar for each month: hatched what is overdue, full what is due, outlined days.

    Args:
        counts: of the months.
        width: of all of it, in millimetres.
        size: of its lettering.
    """
    broad = width / max(len(counts), 1)
    most = max((c.all for c in counts), default=0) or 1
    foot = -HIGH_MM - size * 1.4
    ink: list[Ink] = []
    for place, count in enumerate(counts):
        left = place * broad
        top = foot
        for many, make in (
            (count.overdue, _hatched),
            (count.tasks, _full),
            (count.days, _bare),
        ):
            if many:
                tall = max(HIGH_MM * many / most, _LEAST_MM)
                edge = left + broad * (1 - _BAR) / 2
                ink.extend(make((edge, top, edge + broad * _BAR, top + tall)))
                top += tall
        middle = left + broad / 2
        if count.all:
            ink.append(_word(str(count.all), middle, top + size * 0.4, size, bold=True))
        ink.append(_word(in_words(count.month)[:3], middle, foot - size * 1.1, size))
    ink.append(Stroke(lines=(np.array([(0.0, foot), (width, foot)]),), pen=_PEN))
    return Panel(width=width, height=-foot + size * 1.6, ink=tuple(ink))


Box = tuple[float, float, float, float]


def _full(box: Box) -> Iterator[Ink]:
    yield Fill(rings=(_ring(box),), colour=_FULL)
    yield from _bare(box)


def _bare(box: Box) -> Iterator[Ink]:
    yield Stroke(lines=(_ring(box),), pen=_PEN, closed=True)


def _hatched(box: Box) -> Iterator[Ink]:
    left, bottom, right, top = box
    starts = np.arange(left - (top - bottom), right, _SPACING_MM)
    lines = tuple(np.array([(x, bottom), (x + top - bottom, top)]) for x in starts.tolist())
    yield Clipped(box=box, ink=(Stroke(lines=lines, pen=_HATCH),))
    yield from _bare(box)


def _ring(box: Box) -> Points:
    left, bottom, right, top = box
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)])


def _word(text: str, x: float, y: float, size: float, *, bold: bool = False) -> Text:
    return Text(text=text, x=x, y=y, size=size, bold=bold, anchor=Anchor.MIDDLE, colour=INK)
