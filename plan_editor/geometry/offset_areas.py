"""Areas between a base line and a bent edge, by offsets square to the line.

Sources of the three rules: Bird, Basic Engineering Mathematics, on irregular areas; every
handbook of surveying has them.
"""

from collections.abc import Sequence
from itertools import pairwise

from plan_editor.geometry.tolerance import SAME


def trapezoidal(along: Sequence[float], offsets: Sequence[float]) -> float:
    """Return the area between a base line and an edge that runs straight between offsets.

    Args:
        along: how far along the line each offset stands, in metres, in rising order; the steps
            need not be equal.
        offsets: in metres, all to one side.

    Raises:
        ValueError: fewer than two offsets, or they do not stand in rising order.
    """
    if len(along) != len(offsets) or len(offsets) < 2:
        raise ValueError("an area by offsets takes two of them at least")
    steps = [b - a for a, b in pairwise(along)]
    if min(steps) <= 0.0:
        raise ValueError("offsets are taken in the order in which they stand along the line")
    means = ((a + b) / 2.0 for a, b in pairwise(offsets))
    return sum(step * mean for step, mean in zip(steps, means, strict=True))


def simpson(step: float, offsets: Sequence[float]) -> float:
    """Return the area by Simpson's rule, for an edge that bends evenly.

    Where the number of offsets is even the last strip is taken as a trapezium, as usual.

    Args:
        step: between offsets, in metres.
        offsets: in metres, all to one side.

    Raises:
        ValueError: fewer than three offsets.
    """
    if len(offsets) < 3:
        raise ValueError("Simpson's rule takes three offsets at least")
    count = len(offsets) if len(offsets) % 2 else len(offsets) - 1
    ruled = offsets[:count]
    inner = 4.0 * sum(ruled[1:-1:2]) + 2.0 * sum(ruled[2:-1:2])
    rest = sum(offsets[count - 1 :]) / 2.0 if count < len(offsets) else 0.0
    return step * ((ruled[0] + inner + ruled[-1]) / 3.0 + rest)


def mid_ordinate(step: float, middles: Sequence[float]) -> float:
    """Return the area by offsets taken in the middle of each strip.

    Args:
        step: width of a strip, in metres.
        middles: the offset in the middle of each, in metres.
    """
    return step * sum(middles)


def even_step(along: Sequence[float]) -> float | None:
    """Return the step between offsets where all are alike, in metres, or None."""
    steps = [b - a for a, b in pairwise(along)]
    return steps[0] if steps and max(steps) - min(steps) <= 2.0 * SAME else None
