"""Pen strokes in a grey picture: how much darker than what lies to both sides of it."""

import numpy as np
from numpy.typing import NDArray

from plan_editor.scans.turning import Pixels

Floats = NDArray[np.float32]

_DENSITY = (-100.0 * np.log((np.arange(256) + 8.0) / 263.0)).astype(np.float32)
"""A hundred times the natural logarithm of how much light is lost, for each grey.

Ink takes the same share of the light from white paper and from a stain; so in densities a
stroke is as strong on either. The 8 keeps black finite.
"""

FAINT = 6.0
"""A stroke weaker than this, as a density, is the grain of the paper."""

FULL = 0.7
"""A stroke counts in full from this share of the strength of the usual one."""

_MOST_LOOKED_AT = 400_000
"""So many pixels tell how strong strokes are; more take longer and tell no more."""


def density(grey: Pixels) -> Floats:
    """Return how dense each pixel of a grey picture is, from 0 of white to 349 of black."""
    dense: Floats = _DENSITY[grey]
    return dense


def ridges(dense: Floats, axis: int, reaches: tuple[int, ...]) -> Floats:
    """Return how far each pixel stands out against both its sides; nothing below 0.

    Args:
        dense: densities.
        axis: across the strokes that are wanted: 0 for those that run level.
        reaches: how far away, in pixels, the sides are looked at; the best of them counts.
    """
    level = dense if axis == 0 else dense.T
    run = _along(level)
    best = np.zeros_like(run)
    for reach in reaches:
        if 2 * reach < len(run):
            sides = np.maximum(run[: -2 * reach], run[2 * reach :])
            inner = best[reach:-reach]
            np.maximum(inner, run[reach:-reach] - sides, out=inner)
    return best if axis == 0 else np.ascontiguousarray(best.T)


def usual_strength(*maps: Floats) -> float:
    """Return how strong, as a density, a stroke must be to count in full."""
    seen = np.concatenate([m.ravel()[:: max(1, m.size // _MOST_LOOKED_AT)] for m in maps])
    ink = seen[seen > FAINT]
    return FULL * float(np.quantile(ink, 0.75)) if ink.size else FAINT


def _along(dense: Floats) -> Floats:
    """Return each pixel's mean with its two neighbours along the level."""
    padded = np.pad(dense, ((0, 0), (1, 1)), mode="edge")
    mean: Floats = (padded[:, :-2] + padded[:, 1:-1] + padded[:, 2:]) / np.float32(3.0)
    return mean
