"""Which ways the lines of a picture mostly run."""

import numpy as np

from plan_editor.scans.sought import Span
from plan_editor.scans.strokes import FAINT, Floats

BIN_DEG = 2.0
"""Directions are counted in steps of so much, over a quarter of the circle."""

BESIDE_DEG = 3.0
"""Lines lie so far to either side of the way in which most run."""

STAND_OUT = 0.25
"""A way counts that stands out of the mean by such a share of what the strongest does."""

_LEAST_PX = 2
_BINS = round(90.0 / BIN_DEG)


def bearings_of_lines(dense: Floats) -> tuple[Span, ...]:
    """Return the bearings, from 0 to under 270 degrees, along and across which lines run.

    Sides of rectangles run both ways, so directions a quarter of the circle apart are counted
    together, by how steeply the density changes across them. Where all are about as many, that
    is the whole half circle; where nothing is drawn, none.
    """
    if min(dense.shape) < _LEAST_PX:
        return ()
    soft = _softened(_softened(dense))
    right, down = np.gradient(soft, axis=1), np.gradient(soft, axis=0)
    steep = np.hypot(right, down)
    strong = steep > FAINT
    if not strong.any():
        return ()
    turn = np.degrees(np.arctan2(right[strong], -down[strong])) % 90.0
    counted = np.bincount(
        (turn / BIN_DEG).astype(np.int64) % _BINS, steep[strong], minlength=_BINS
    )
    smooth = np.sum([np.roll(counted, k) for k in (-1, 0, 1)], axis=0)
    limit = smooth.mean() + STAND_OUT * (smooth.max() - smooth.mean())
    kept = np.nonzero(smooth >= limit)[0]
    return tuple(
        Span(
            quarter + first * BIN_DEG - BESIDE_DEG, quarter + (last + 1) * BIN_DEG + BESIDE_DEG
        )
        for quarter in (0.0, 90.0)
        for first, last in _runs(kept.tolist())
    )


def _runs(numbers: list[int]) -> list[tuple[int, int]]:
    """Return the first and last of each run of numbers that are nearly next to each other."""
    near = round(2 * BESIDE_DEG / BIN_DEG)
    firsts = [n for k, n in enumerate(numbers) if k == 0 or n - numbers[k - 1] > near]
    lasts = [n for k, n in enumerate(numbers[:-1]) if numbers[k + 1] - n > near]
    return list(zip(firsts, [*lasts, numbers[-1]], strict=True))


def _softened(dense: Floats) -> Floats:
    """Return the mean of each pixel and those about it: a thin line is no more a staircase."""
    padded = np.pad(dense, 1, mode="edge")
    across = padded[:, :-2] + padded[:, 1:-1] + padded[:, 2:]
    mean: Floats = (across[:-2] + across[1:-1] + across[2:]) / np.float32(9.0)
    return mean
