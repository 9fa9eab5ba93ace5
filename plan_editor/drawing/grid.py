"""Ticks where the lines of the grid cross, and their coordinates along the frame."""

import numpy as np

from plan_editor.drawing.ink import Anchor, Ink, Points, Stroke, Text
from plan_editor.drawing.lettering import CAPITAL, SMALLEST
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.look import Pen
from plan_editor.survey.grids.grid import Grid

_STEPS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0)
_LEAST_MM = 45.0
_CROSS = 1.5
_EDGE = 2.0
_SIZE = SMALLEST
_SOFT = "#566268"
_PEN = Pen(width=0.13, colour=_SOFT)


def interval(scale: float) -> float:
    """Return the metres from one tick to the next: a round number, at least 45 mm of paper."""
    return next((s for s in _STEPS if s * 1000.0 / scale >= _LEAST_MM), _STEPS[-1])


def grid_ticks(viewport: Viewport, grid: Grid) -> tuple[Ink, ...]:
    """Return a cross at each crossing, and coordinates of the grid's own system."""
    every = interval(viewport.scale)
    e0, n0, e1, n1 = viewport.ground
    (east0, north0), (east1, north1) = grid.to_crs(e0, n0), grid.to_crs(e1, n1)
    easts = np.arange(np.ceil(east0 / every), np.floor(east1 / every) + 1) * every + 0.0
    norths = np.arange(np.ceil(north0 / every), np.floor(north1 / every) + 1) * every + 0.0
    x = viewport.paper(np.column_stack([easts - grid.east, np.zeros(len(easts))]))[:, 0]
    y = viewport.paper(np.column_stack([np.zeros(len(norths)), norths - grid.north]))[:, 1]
    return (
        Stroke(lines=(*_crosses(x, y), *_edges(x, y, viewport)), pen=_PEN),
        *_along_the_bottom(x, easts, viewport),
        *_along_the_left(y, norths, viewport),
    )


def _crosses(x: Points, y: Points) -> tuple[Points, ...]:
    across = [np.array([(a - _CROSS, b), (a + _CROSS, b)]) for a in x for b in y]
    upright = [np.array([(a, b - _CROSS), (a, b + _CROSS)]) for a in x for b in y]
    return (*across, *upright)


def _edges(x: Points, y: Points, viewport: Viewport) -> tuple[Points, ...]:
    left, bottom, right, top = viewport.frame
    upright = [
        np.array([(a, b), (a, b + c)]) for a in x for b, c in ((bottom, _EDGE), (top, -_EDGE))
    ]
    across = [
        np.array([(a, b), (a + c, b)]) for b in y for a, c in ((left, _EDGE), (right, -_EDGE))
    ]
    return (*upright, *across)


def _along_the_bottom(x: Points, easts: Points, viewport: Viewport) -> tuple[Text, ...]:
    left, bottom, right, _ = viewport.frame
    return tuple(
        _figure(f"{east:.0f} E", a, bottom + _EDGE + 0.8, 0.0)
        for a, east in zip(x, easts, strict=True)
        if left + 10 < a < right - 10
    )


def _along_the_left(y: Points, norths: Points, viewport: Viewport) -> tuple[Text, ...]:
    left, bottom, _, top = viewport.frame
    return tuple(
        _figure(f"{north:.0f} N", left + _EDGE + 0.8 + _SIZE * CAPITAL, b, 90.0)
        for b, north in zip(y, norths, strict=True)
        if bottom + 10 < b < top - 10
    )


def _figure(text: str, x: float, y: float, turn_deg: float) -> Text:
    return Text(
        text=text,
        x=float(x),
        y=float(y),
        size=_SIZE,
        colour=_SOFT,
        anchor=Anchor.MIDDLE,
        turn_deg=turn_deg,
        halo=0.4,
    )
