"""An old plan laid on the ground by points whose coordinates are known."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from plan_editor.errors import CannotUse
from plan_editor.geometry.bearings import bearing

Pair = tuple[tuple[float, float], tuple[float, float]]
"""A place on a scan (pixels right and down) and on the ground (metres east and north)."""

Affine = tuple[float, float, float, float, float, float]
"""a, b, c, d, e, f of east = a·px + b·py + c, north = d·px + e·py + f."""

LEAST_SPREAD_PIXELS = 1.0
"""Points closer together on the scan than this, in root mean square, fix no scale."""

LEAST_SPREAD_METRES = 0.01
"""The same on the ground."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How a scan lies on the ground, and how well the points agree with it.

    Args:
        model: the name of the kind of fit: ``similarity`` shifts, turns and scales.
        parameters: from pixels to metres, see ``Affine``.
        residuals: for each pair metres east and north by which the fitted place lies beyond the
            given one (fitted less given).
        rmse: root mean square of the residuals' lengths, in metres.
        scale: metres on the ground to a pixel.
        rotation_deg: bearing, in degrees clockwise from grid north, of the scan's upward edge.
    """

    model: str
    parameters: Affine
    residuals: tuple[tuple[float, float], ...]
    rmse: float
    scale: float
    rotation_deg: float

    @property
    def standard_deviation(self) -> float | None:
        """The standard deviation of one coordinate as the residuals tell it, in metres.

        The root of the sum of squares over the 2n - 4 measurements too many; None of two
        points, which always fit.
        """
        surplus = 2 * len(self.residuals) - 4
        if surplus == 0:
            return None
        return math.sqrt(self.rmse**2 * len(self.residuals) / surplus)

    def to_ground(self, right: float, down: float) -> tuple[float, float]:
        """Return the place on the ground, east and north, of a pixel."""
        a, b, c, d, e, f = self.parameters
        return a * right + b * down + c, d * right + e * down + f

    def to_scan(self, east: float, north: float) -> tuple[float, float]:
        """Return the pixel, right and down, of a place on the ground."""
        return taken_back(self.parameters, east, north)


def taken_back(fit: Affine, east: float, north: float) -> tuple[float, float]:
    """Return the place on a base plan, in its pixels or units, of one on the ground."""
    a, b, c, d, e, f = fit
    area = a * e - b * d
    de, dn = east - c, north - f
    return (e * de - b * dn) / area, (a * dn - d * de) / area


def similarity(pairs: Sequence[Pair]) -> Fit:
    """Return the similarity that fits pairs of points best, by least squares.

    Pixels count down and northings up, so the scan is first reflected (y = -pixels down); then
    east = a·x - b·y + c, north = b·x + a·y + d, and the sum of the squared residuals is least.
    Source of the two-dimensional conformal equations: Ghilani, Adjustment Computations, ch. 18.

    Raises:
        CannotUse: fewer than two pairs, points that all coincide, numbers that are not finite.
    """
    if len(pairs) < 2:
        raise CannotUse(
            "The base plan was not placed, and nothing was changed: it takes two points with "
            f"known coordinates, and {'only one was' if pairs else 'none were'} given."
        )
    scan, ground = _as_complex(pairs)
    middle, target = _mean(scan), _mean(ground)
    x, g = [p - middle for p in scan], [p - target for p in ground]
    _refuse_one_place(x, g)
    # of conj(x)·g the real part sums to a, the imaginary one to b, times the sum of squares
    turn = _sum([p.conjugate() * q for p, q in zip(x, g, strict=True)]) / _squares(x)
    shift = target - turn * middle
    over = [turn * p - q for p, q in zip(x, g, strict=True)]
    return Fit(
        model="similarity",
        parameters=(turn.real, turn.imag, shift.real, turn.imag, -turn.real, shift.imag),
        residuals=tuple((v.real, v.imag) for v in over),
        rmse=math.sqrt(_squares(over) / len(over)),
        scale=abs(turn),
        # upward on the scan is i times to the right: east -b, north a
        rotation_deg=bearing(-turn.imag, turn.real),
    )


def _as_complex(pairs: Sequence[Pair]) -> tuple[list[complex], list[complex]]:
    """Return scan places as right - i·down and ground places as east + i·north."""
    numbers = [n for place in pairs for pair in place for n in pair]
    if not all(map(math.isfinite, numbers)):
        raise CannotUse(
            "The base plan was not placed, and nothing was changed: a coordinate is not a "
            "number. Type the coordinates of every point."
        )
    scan = [complex(right, -down) for (right, down), _ in pairs]
    return scan, [complex(east, north) for _, (east, north) in pairs]


# sums are exact to the last bit, so that the same points give the same plan on every machine


def _sum(numbers: Sequence[complex]) -> complex:
    return complex(math.fsum(n.real for n in numbers), math.fsum(n.imag for n in numbers))


def _mean(numbers: Sequence[complex]) -> complex:
    return _sum(numbers) / len(numbers)


def _squares(numbers: Sequence[complex]) -> float:
    return math.fsum(n.real * n.real + n.imag * n.imag for n in numbers)


def _refuse_one_place(scan: Sequence[complex], ground: Sequence[complex]) -> None:
    for places, least, where in (
        (scan, LEAST_SPREAD_PIXELS, "on the base plan"),
        (ground, LEAST_SPREAD_METRES, "on the ground"),
    ):
        if math.sqrt(_squares(places) / len(places)) < least:
            raise CannotUse(
                "The base plan was not placed, and nothing was changed: the points lie all at "
                f"the same place {where}. Choose points that are far apart."
            )
