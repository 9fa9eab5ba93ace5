"""How far each of a row stands from where its neighbours say, and how it is turned to them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]

EACH_SIDE = 3
"""So many neighbours on either side say where one should stand: rows may bend."""

FEWEST = 5
"""In a shorter row nobody can say who is out of line."""

MAD_TO_SD = 1.4826
"""From the median absolute deviation of normal errors to their standard deviation."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Straightness:
    """Of each of a row, in its order.

    Args:
        aside: metres by which its head stands to the right of its neighbours' line.
        line: where on that line it should stand: metres to the right of the row's axis.
        turned: degrees by which it is turned clockwise of its neighbours.
        usual_turn: how its neighbours are turned to the row's axis, in degrees.
        ragged_m, ragged_deg: standard deviations of the row as a whole, told robustly.
    """

    aside: Numbers
    line: Numbers
    turned: Numbers
    usual_turn: Numbers
    ragged_m: float
    ragged_deg: float


def straightness(along: Numbers, aside: Numbers, turn: Numbers) -> Straightness:
    """Return how straight a row is; medians, so that one out of line does not speak for it.

    Args:
        along: of n heads, metres along the axis, in order.
        aside: of the same, metres to the right of it.
        turn: of n things, degrees clockwise of the axis, from -180 to 180.
    """
    near = _neighbours(len(along))
    slope = _slope(along[near], aside[near])
    line = np.nanmedian(aside[near] - slope[:, None] * (along[near] - along[:, None]), axis=1)
    usual = np.median(turn[near], axis=1)
    return Straightness(
        aside=aside - line,
        line=line,
        turned=turn - usual,
        usual_turn=usual,
        ragged_m=_spread(aside - line),
        ragged_deg=_spread(turn - usual),
    )


def _neighbours(count: int) -> NDArray[np.intp]:
    """Return for each the places of those nearest to it, itself left out."""
    wanted = min(2 * EACH_SIDE, count - 1)
    first = np.clip(np.arange(count) - EACH_SIDE, 0, count - wanted - 1)
    near = first[:, None] + np.arange(wanted)
    return near + (near >= np.arange(count)[:, None])


def _slope(along: Numbers, aside: Numbers) -> Numbers:
    """Return the median of the slopes between any two (Theil 1950, Sen 1968)."""
    one, other = np.triu_indices(along.shape[1], 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        slopes = (aside[:, other] - aside[:, one]) / (along[:, other] - along[:, one])
    return np.asarray(np.nan_to_num(np.nanmedian(slopes, axis=1), posinf=0.0, neginf=0.0))


def _spread(values: Numbers) -> float:
    return MAD_TO_SD * float(np.median(np.abs(values - np.median(values))))
