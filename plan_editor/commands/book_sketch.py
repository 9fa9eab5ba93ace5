"""A field book sketched over the ground: tapes, points, and the ellipses that hold them."""

from collections.abc import Iterator
from itertools import chain

import numpy as np

from plan_editor.commands.field_books import Outcome
from plan_editor.drawing.ink import Points
from plan_editor.drawing.sketch import Sketch, SketchDot, SketchLine, Tone
from plan_editor.survey.adjustment.observed import Ellipse, Found, Standing

FACTORS = (1, 2, 5, 10, 20, 50, 100, 200)
"""Ellipses are drawn so many times too large."""

LARGEST_M = 3.0
"""The largest ellipse of a point that is well known is at most so long on the ground."""

_TONES = {
    Standing.GOOD: Tone.MEASURED,
    Standing.SUSPECTED: Tone.DOUBT,
    Standing.WEAK: Tone.DOUBT,
    Standing.UNCHECKED: Tone.DOUBT,
    Standing.AMBIGUOUS: Tone.DANGER,
    Standing.UNDETERMINED: Tone.DANGER,
}
_ROUND = np.linspace(0.0, 2.0 * np.pi, 61)


def book_sketch(told: Outcome) -> Sketch:
    """Return the tapes, the points and their 95 % ellipses, ``factor`` times too large."""
    long = factor(told)
    return Sketch(
        lines=(*_tapes(told), *_ellipses(told, long)),
        dots=tuple(chain.from_iterable(map(_dots, told.points))),
    )


def factor(told: Outcome) -> int:
    """Return how many times too large the ellipses are drawn."""
    axes = sorted(p.ellipse.a for p in told.points if p.ellipse is not None)
    if not axes or axes[len(axes) // 2] == 0.0:
        return 1
    # a single weak point shall not make the others too small to be seen
    return max((f for f in FACTORS if 2 * f * axes[len(axes) // 2] <= LARGEST_M), default=1)


def factor_words(told: Outcome) -> str:
    """Return what the ellipses show; empty where there are none."""
    if not any(p.ellipse is not None for p in told.points):
        return ""
    long = factor(told)
    times = "to scale" if long == 1 else f"{long} times too large"
    return f"Ellipses on the ground, {times}: each holds its point 95 times in 100."


def _tapes(told: Outcome) -> Iterator[SketchLine]:
    places = {
        p.name: np.array([p.east, p.north])
        for p in told.worked.adjusted.points
        if p.east is not None
    }
    for line in told.lines:
        taped = line.reading.line
        ends = (taped.start, taped.far)
        if line.of_book and all(name in places for name in ends):
            tone = Tone.DANGER if line.checked.suspect else Tone.SOFT
            yield SketchLine(points=np.vstack([places[n] for n in ends]), tone=tone)


def _ellipses(told: Outcome, long: int) -> Iterator[SketchLine]:
    for point in told.points:
        if point.ellipse is not None and point.east is not None and point.north is not None:
            middle = np.array([point.east, point.north])
            yield SketchLine(
                points=middle + long * _outline(point.ellipse), tone=_TONES[point.standing]
            )


def _outline(ellipse: Ellipse) -> Points:
    """Return an ellipse about nought, east and north: the longer axis along its bearing."""
    way = np.radians(ellipse.bearing_deg)
    along = np.array([np.sin(way), np.cos(way)])
    aside = np.array([np.cos(way), -np.sin(way)])
    longer, shorter = np.cos(_ROUND)[:, None] * along, np.sin(_ROUND)[:, None] * aside
    return np.asarray(ellipse.a * longer + ellipse.b * shorter)


def _dots(point: Found) -> Iterator[SketchDot]:
    tone = _TONES[point.standing]
    if point.east is not None and point.north is not None:
        yield SketchDot(east=point.east, north=point.north, text=point.name, tone=tone)
    for east, north in point.choices:
        yield SketchDot(east=east, north=north, text=f"{point.name}?", tone=tone)
