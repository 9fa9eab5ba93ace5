"""Which ways the lines of a picture mostly run."""

import numpy as np

from plan_editor.scans.sought import Span
from plan_editor.scans.strokes import FAINT, Floats

BIN_DEG = 2.0
"""Directions are counted in steps of so much, over a quarter of the circle."""

BESIDE_DEG = 3.0
"""Lines lie so far to either side of the way in which most run."""

STAND_OUT = 0.5
"""A way counts that stands out of the mean by such a share of what the strongest does."""

_BINS = round(90.0 / BIN_DEG)


def bearings_of_lines(dense: Floats) -> tuple[Span, ...]:
    """Return the bearings, from 0 to under 270 degrees, along and across which lines run.

    Sides of rectangles run both ways, so directions a quarter of the circle apart are counted
    together, by how steeply the density changes across them. Where all are about as many, that
    is the whole half circle.
    """
    right = np.gradient(dense, axis=1)
    down = np.gradient(dense, axis=0)
    steep = np.hypot(right, down)
    strong = steep > FAINT
    turn = np.degrees(np.arctan2(right[strong], -down[strong])) % 90.0
    counted = np.bincount(
        (turn / BIN_DEG).astype(np.int64) % _BINS, steep[strong], minlength=_BINS
    )
    smooth = np.sum([np.roll(counted, k) for k in (-1, 0, 1)], axis=0)
    limit = smooth.mean() + STAND_OUT * (smooth.max() - smooth.mean())
    kept = np.nonzero(smooth >= limit)[0]
    return tuple(
        Span(quarter + n * BIN_DEG - BESIDE_DEG, quarter + (n + 1) * BIN_DEG + BESIDE_DEG)
        for quarter in (0.0, 90.0)
        for n in kept.tolist()
    )
