"""How a whole plan lies in another grid, by marks known in both: shifted, turned, scaled.

Weighted least squares of the two-dimensional conformal transformation, in closed form. Source:
Ghilani, Adjustment Computations, ch. 18; the turn for a scale that is held is the same (common
practice: the scale only lengthens both sides of the normal equations alike).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.geometry.bearings import bearing
from plan_editor.geometry.mappings import Places


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A mark known in both grids.

    Args:
        name: what people call it.
        east, north: where it lies on the plan, in metres about the plan's origin.
        to_east, to_north: where it is known to lie, in metres about the new origin.
        sd: standard deviation of each coordinate, both grids together, in metres; it weighs.
    """

    name: str
    east: float
    north: float
    to_east: float
    to_north: float
    sd: float


@dataclass(frozen=True, slots=True)
class Way:
    """From metres about the one origin to metres about the other.

    east' = a·east - b·north + c, north' = b·east + a·north + d.
    """

    a: float
    b: float
    c: float
    d: float

    @property
    def scale(self) -> float:
        """Metres of the new grid to a metre of the old."""
        return math.sqrt(self.a * self.a + self.b * self.b)

    @property
    def turn_deg(self) -> float:
        """By how much the plan is turned clockwise, from over -180 to 180."""
        clockwise = bearing(-self.b, self.a)
        return clockwise - 360.0 if clockwise > 180.0 else clockwise

    def at(self, east: float, north: float) -> tuple[float, float]:
        """Return where a place of the old grid lies in the new one."""
        return self.a * east - self.b * north + self.c, self.b * east + self.a * north + self.d

    def all_at(self, places: Places) -> Places:
        """Return where places of the old grid lie in the new one, n by 2."""
        east, north = places[:, 0], places[:, 1]
        return np.column_stack(self.at(east, north))  # type: ignore[arg-type]  # works on both


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameFit:
    """How the plan lies in the other grid, and how well the marks agree with it.

    Args:
        way: from the plan's metres to those of the new plan.
        own_scale: the scale that the marks would have by themselves.
        residuals: of each mark metres east and north by which the way carries it beyond where
            it is known to lie (fitted less given).
    """

    way: Way
    own_scale: float
    residuals: tuple[tuple[float, float], ...]

    @property
    def off(self) -> tuple[float, ...]:
        """The length of each residual, in metres."""
        return tuple(math.sqrt(e * e + n * n) for e, n in self.residuals)

    @property
    def rmse(self) -> float:
        """Root mean square of the residuals' lengths, in metres."""
        return math.sqrt(math.fsum(r * r for r in self.off) / len(self.off))


def spread(marks: Sequence[Known]) -> tuple[float, float]:
    """Return how far marks lie from their middle, in root mean square: before and after."""
    before = [complex(m.east, m.north) for m in marks]
    after = [complex(m.to_east, m.to_north) for m in marks]
    return _spread(before), _spread(after)


def frame_fit(marks: Sequence[Known], *, scale: float | None) -> FrameFit:
    """Return the best way for two marks or more, which may not all lie at one place.

    Args:
        marks: known in both grids.
        scale: held at this; None lets the marks decide.
    """
    x = [complex(m.east, m.north) for m in marks]
    return _fit(marks, x, scale)


def mirrored_fit(marks: Sequence[Known]) -> FrameFit:
    """Return how marks would agree if the plan were mirrored; its way means nothing."""
    x = [complex(m.east, -m.north) for m in marks]
    return _fit(marks, x, None)


def _fit(marks: Sequence[Known], x: Sequence[complex], scale: float | None) -> FrameFit:
    weights = [m.sd**-2 for m in marks]
    g = [complex(m.to_east, m.to_north) for m in marks]
    middle, target = _mean(x, weights), _mean(g, weights)
    dx, dg = [p - middle for p in x], [p - target for p in g]
    free = _sum([w * p.conjugate() * q for w, p, q in zip(weights, dx, dg, strict=True)])
    squares = math.fsum(w * _square(p) for w, p in zip(weights, dx, strict=True))
    own_scale = math.sqrt(_square(free)) / squares
    turn = free / squares * (1.0 if scale is None else scale / own_scale)
    shift = target - turn * middle
    over = [turn * p - q for p, q in zip(dx, dg, strict=True)]
    return FrameFit(
        way=Way(turn.real, turn.imag, shift.real, shift.imag),
        own_scale=own_scale,
        residuals=tuple((v.real, v.imag) for v in over),
    )


# sums are exact to the last bit, so that the same marks give the same plan on every machine


def _sum(numbers: Sequence[complex]) -> complex:
    return complex(math.fsum(n.real for n in numbers), math.fsum(n.imag for n in numbers))


def _mean(numbers: Sequence[complex], weights: Sequence[float]) -> complex:
    weighed = _sum([w * n for w, n in zip(weights, numbers, strict=True)])
    return weighed / math.fsum(weights)


def _square(number: complex) -> float:
    return number.real * number.real + number.imag * number.imag


def _spread(places: Sequence[complex]) -> float:
    middle = _mean(places, [1.0] * len(places))
    return math.sqrt(math.fsum(_square(p - middle) for p in places) / len(places))
