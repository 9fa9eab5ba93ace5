"""Which one point, if any, a fit gives reason to doubt."""

import math
from collections.abc import Sequence

CERTAINTY = 0.01
"""Of a hundred sets of points without a blunder, about one has a point named."""

LEAST_M = 0.001
"""Misfits of less than this, in metres, are rounding and name nobody."""

_AGREES = 0.05
"""The standard deviations given are believed unless the other points contradict them with less
chance than this."""


def doubtful(
    eased: Sequence[float], squares: float, surplus: int, given_sd: float | None
) -> int | None:
    """Return the point whose blunder would explain the misfits, or None.

    The mean-shift test of one point at a time: if all is well, leaving the point out lowers the
    sum of squares by no more than chance does. Where standard deviations were given and the
    other points bear them out, chance is measured by them (chi square, 2 degrees of freedom;
    Baarda, A Testing Procedure for Use in Geodetic Networks, 1968); else by the other points
    (F with 2 and surplus - 2; Cook & Weisberg, Residuals and Influence in Regression, 1982,
    2.2.2). The chance is divided by the number of points tried (Bonferroni).

    Args:
        eased: by how much the sum falls without each point.
        squares: the weighted sum of the squared misfits, in square metres.
        surplus: how many measurements there are beyond those that the fit takes.
        given_sd: the standard deviation of a coordinate of weight 1, where it was given.
    """
    worst = max(range(len(eased)), key=eased.__getitem__)
    rest = max(0.0, squares - eased[worst])
    # with fewer left over, one point's blunder looks like another's
    if surplus < 4 or math.sqrt(eased[worst]) < LEAST_M:
        return None
    chance = (rest / squares) ** ((surplus - 2) / 2)
    if given_sd and chi_square_beyond(rest / given_sd**2, surplus - 2) >= _AGREES:
        chance = chi_square_beyond(eased[worst] / given_sd**2, 2)
    return worst if chance * len(eased) < CERTAINTY else None


def chi_square_beyond(value: float, freedom: int) -> float:
    """Return the chance of a chi square beyond a value, for an even number of degrees.

    Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.4.5.
    """
    half, term, total = value / 2, 1.0, 0.0
    if half > _BEYOND_ALL:
        return 0.0
    for k in range(freedom // 2):
        total += term
        term *= half / (k + 1)
    return total * math.exp(-half)


_BEYOND_ALL = 700.0
