"""The best similarity and the best affine fit through points, summed alike on every machine."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from plan_editor.geometry.mappings import Affine
from plan_editor.survey.fits.models import Control

Two = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """A fit as it was solved, and what it would be with each point left out.

    Args:
        straight: the six numbers.
        bend: what a plan keeps beside them; see ``models.mapping_of``.
        residuals: metres east and north, fitted less given.
        left_out: the same at each point by the fit to all the others; None where these leave
            it open.
        squares: the weighted sum of the squared residuals.
        eased: by how much that sum falls when the point is left out.
        surplus: how many measurements there are beyond those that the fit takes.
    """

    straight: Affine
    bend: tuple[float, ...] = ()
    residuals: tuple[Two, ...]
    left_out: tuple[Two, ...] | None
    squares: float
    eased: tuple[float, ...]
    surplus: int


# sums are exact to the last bit, so that the same points give the same plan on every machine


def similarity(control: Sequence[Control], weights: Sequence[float], handed: float) -> Solved:
    """Return the similarity that fits points best, by weighted least squares.

    The base plan is first reflected where its y counts down; then east = a·x - b·y + c,
    north = b·x + a·y + d. Source of the two-dimensional conformal equations: Ghilani,
    Adjustment Computations, ch. 18.

    Args:
        control: two points or more that do not coincide.
        weights: one a point.
        handed: -1 where y counts down, else 1.
    """
    paper = [complex(c.x, handed * c.y) for c in control]
    ground = [complex(c.east, c.north) for c in control]
    middle, target = _mean(paper, weights), _mean(ground, weights)
    x, g = [p - middle for p in paper], [p - target for p in ground]
    spread = math.fsum(w * _square(p) for w, p in zip(weights, x, strict=True))
    # of conj(x)·g the real part sums to a, the imaginary one to b, times the sum of squares
    turn = _sum(w * p.conjugate() * q for w, p, q in zip(weights, x, g, strict=True)) / spread
    shift = target - turn * middle
    total = math.fsum(weights)
    return _solved(
        weights,
        straight=(
            turn.real,
            -handed * turn.imag,
            shift.real,
            turn.imag,
            handed * turn.real,
            shift.imag,
        ),
        over=[turn * p - q for p, q in zip(x, g, strict=True)],
        shares=[w / total + w * _square(p) / spread for w, p in zip(weights, x, strict=True)],
        numbers=4,
    )


def affine(control: Sequence[Control], weights: Sequence[float]) -> Solved:
    """Return the affine fit through points that is best by weighted least squares.

    Source of the six-parameter equations: Ghilani, Adjustment Computations, ch. 18; EPSG
    Guidance Note 7-2, method 9624.

    Args:
        control: three points or more that do not lie in one line.
        weights: one a point.
    """
    paper = [complex(c.x, c.y) for c in control]
    ground = [complex(c.east, c.north) for c in control]
    middle, target = _mean(paper, weights), _mean(ground, weights)
    x, g = [p - middle for p in paper], [p - target for p in ground]
    rows = list(zip(weights, x, g, strict=True))
    xx = math.fsum(w * p.real * p.real for w, p, _ in rows)
    xy = math.fsum(w * p.real * p.imag for w, p, _ in rows)
    yy = math.fsum(w * p.imag * p.imag for w, p, _ in rows)
    by_x, by_y = (
        _sum(w * p.real * q for w, p, q in rows),
        _sum(w * p.imag * q for w, p, q in rows),
    )
    area = xx * yy - xy * xy
    right, down = (yy * by_x - xy * by_y) / area, (xx * by_y - xy * by_x) / area
    shift = target - right * middle.real - down * middle.imag
    total = math.fsum(weights)
    lean = [
        (yy * p.real * p.real - 2 * xy * p.real * p.imag + xx * p.imag * p.imag) / area
        for p in x
    ]
    return _solved(
        weights,
        straight=(right.real, down.real, shift.real, right.imag, down.imag, shift.imag),
        over=[right * p.real + down * p.imag - q for p, q in zip(x, g, strict=True)],
        shares=[w / total + w * more for w, more in zip(weights, lean, strict=True)],
        numbers=6,
    )


FIXED_BY_ONE = 1e-9
"""A point of which less than this share of its error shows in its residual is not checked."""


def _solved(
    weights: Sequence[float],
    *,
    straight: Affine,
    over: Sequence[complex],
    shares: Sequence[float],
    numbers: int,
) -> Solved:
    # left out, a point is missed by v / (1 - h); its share h of itself is the diagonal of the
    # hat matrix. Source: Cook & Weisberg, Residuals and Influence in Regression, 2.2
    free = [1.0 - h for h in shares]
    checked = all(f > FIXED_BY_ONE for f in free)
    squares = [w * _square(v) for w, v in zip(weights, over, strict=True)]
    return Solved(
        straight=straight,
        residuals=tuple((v.real, v.imag) for v in over),
        left_out=tuple((v.real / f, v.imag / f) for v, f in zip(over, free, strict=True))
        if checked
        else None,
        squares=math.fsum(squares),
        eased=tuple(
            s / f if f > FIXED_BY_ONE else 0.0 for s, f in zip(squares, free, strict=True)
        ),
        surplus=2 * len(over) - numbers,
    )


def _sum(numbers: Iterable[complex]) -> complex:
    known = list(numbers)
    return complex(math.fsum(n.real for n in known), math.fsum(n.imag for n in known))


def _mean(numbers: Sequence[complex], weights: Sequence[float]) -> complex:
    return _sum(w * n for w, n in zip(weights, numbers, strict=True)) / math.fsum(weights)


def _square(number: complex) -> float:
    return number.real * number.real + number.imag * number.imag
