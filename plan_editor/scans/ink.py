"""Drawn lines close to a place of a scan: the middle of each stroke, as a straight line.

A stroke is what is darker than the paper about it and straight for some way. Lines are looked
for as by Hough's transform over the few dark pixels of a small window (P. V. C. Hough, US
patent 3,069,654, in the angle and distance of Duda and Hart, Comm. ACM 15, 1972), and then laid
through the middle of their pixels by least squares of the distances, weighted by darkness.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, cos, pi, sin

import numpy as np
from numpy.typing import NDArray

from plan_editor.scans.turning import Pixels

REACH_PX = 24
"""A place is looked about so far at most, in pixels of the level that is looked at."""

ROUND_ABOUT_PX = 16
"""So much more than the reach is looked at, to tell a line from a blot."""

LEAST_CONTRAST = 28.0
"""Ink is darker than the paper about it by so many of 255 grey levels at least."""

SHORTEST_PX = 20.0
"""A stroke is inked for at least so much of its way."""

FILLED = 0.6
"""And for at least such a share of it."""

HALF_WIDTH_PX = 2.5
"""Pixels so near its middle belong to a stroke."""

MOST = 4
"""So many strokes are told of one place at most, the strongest first."""

_ANGLES = np.arange(60) * (pi / 60)

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A straight line along the middle of some ink, from end to end, in pixels of the level.

    Args:
        x0, y0, x1, y1: pixels right and down from the outer corner of the first one.
    """

    x0: float
    y0: float
    x1: float
    y1: float


@dataclass(frozen=True, slots=True)
class _Dots:
    """Dark pixels about a place: right and down of it, and how dark each is."""

    x: Numbers
    y: Numbers
    dark: Numbers

    def some(self, wanted: NDArray[np.bool_]) -> "_Dots":
        return _Dots(self.x[wanted], self.y[wanted], self.dark[wanted])


def strokes(pixels: Pixels, at: tuple[float, float], reach: float) -> tuple[Stroke, ...]:
    """Return the strokes that pass within reach of a place, the strongest first.

    Args:
        pixels: one level of a scan, grey or red, green and blue; only a window is looked at.
        at: the place, in pixels right and down from the outer corner of the first one.
        reach: in pixels; more than ``REACH_PX`` counts as that.
    """
    x, y = at
    reach = min(reach, REACH_PX)
    dots = _dots(pixels, x, y, reach + ROUND_ABOUT_PX)
    return tuple(
        Stroke(x0=x + x0, y0=y + y0, x1=x + x1, y1=y + y1)
        for x0, y0, x1, y1 in _lines(dots, reach)
    )


def _dots(pixels: Pixels, x: float, y: float, far: float) -> _Dots:
    """Return what is much darker than the paper in a window about a place."""
    top, left = max(0, int(y - far)), max(0, int(x - far))
    piece = pixels[top : max(top, int(y + far) + 1), left : max(left, int(x + far) + 1)]
    if not piece.size:
        return _Dots(np.empty(0), np.empty(0), np.empty(0))
    grey = piece.astype(np.float64) if piece.ndim == 2 else piece.mean(axis=2)
    dark = float(np.median(grey)) - grey
    limit = max(LEAST_CONTRAST, float(np.quantile(dark, 0.99)) / 5)
    rows, columns = np.nonzero(dark >= limit)
    x_of, y_of = columns.astype(np.float64), rows.astype(np.float64)
    return _Dots(x_of + (left + 0.5 - x), y_of + (top + 0.5 - y), dark[rows, columns])


def _lines(dots: _Dots, reach: float) -> Iterator[tuple[float, float, float, float]]:
    for _ in range(MOST):
        if len(dots.x) < SHORTEST_PX:
            return
        angle, off = _settled(dots, *_strongest(dots, reach))
        aside = dots.x * cos(angle) + dots.y * sin(angle) - off
        mine = np.abs(aside) <= HALF_WIDTH_PX
        along = dots.y[mine] * cos(angle) - dots.x[mine] * sin(angle)
        if abs(off) <= reach and _is_stroke(along):
            ends = float(along.min()), float(along.max())
            (x0, x1), (y0, y1) = (
                [off * cos(angle) - end * sin(angle) for end in ends],
                [off * sin(angle) + end * cos(angle) for end in ends],
            )
            yield x0, y0, x1, y1
        dots = dots.some(~mine)


def _strongest(dots: _Dots, reach: float) -> tuple[float, float]:
    """Return the angle of the normal and the distance of the line with the most ink on it."""
    off = np.outer(dots.x, np.cos(_ANGLES)) + np.outer(dots.y, np.sin(_ANGLES))
    far = int(np.ceil(reach)) + 1
    bins = np.rint(off).astype(np.int64)
    near = np.abs(bins) <= far
    wide = 2 * far + 1
    cell = (bins + far + wide * np.arange(len(_ANGLES)))[near]
    weight = np.broadcast_to(dots.dark[:, None], off.shape)[near]
    votes = np.bincount(cell, weight, wide * len(_ANGLES)).reshape(-1, wide)
    votes[:, 1:-1] += votes[:, :-2] + votes[:, 2:]  # a stroke is wider than a pixel
    turn, place = divmod(int(votes.argmax()), wide)
    return float(_ANGLES[turn]), float(place - far)


def _settled(dots: _Dots, angle: float, off: float) -> tuple[float, float]:
    """Return the line laid through the middle of the ink near it: twice, as it moves."""
    for _ in range(2):
        near = np.abs(dots.x * cos(angle) + dots.y * sin(angle) - off) <= HALF_WIDTH_PX
        mine = dots.some(near)
        weight = mine.dark / mine.dark.sum()
        east, south = float(weight @ mine.x), float(weight @ mine.y)
        de, dn = mine.x - east, mine.y - south
        # the axis of inertia: half the angle of the weighted second moments
        along = atan2(2 * float(weight @ (de * dn)), float(weight @ (de * de - dn * dn))) / 2
        angle = along + pi / 2
        off = east * cos(angle) + south * sin(angle)
    return angle, off


def _is_stroke(along: Numbers) -> bool:
    """Return whether dark pixels, by their places along a line, make a stroke of it."""
    inked = len(np.unique(np.floor(along)))
    return inked >= max(SHORTEST_PX, FILLED * float(along.max() - along.min()))
