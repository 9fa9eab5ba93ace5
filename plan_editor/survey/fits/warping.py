"""The smoothing of a warp, chosen by what each point is missed by when it is left out."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from plan_editor.survey.fits.models import Control
from plan_editor.survey.fits.straight_fits import Solved, affine

Numbers = NDArray[np.float64]

SMOOTHINGS = tuple(10.0 ** (n / 2) for n in range(-8, 3))
"""What is tried, the stiffest last; at 1 the sheet resists about as much as points pull that
lie as far apart as their spread."""

_DIGITS = 9


def warp(control: Sequence[Control], weights: Sequence[float]) -> Solved:
    """Return the thin-plate spline that points left out of it would be missed by the least.

    It makes Σ weight · misfit² + smoothing · bending energy the least. With the smoothing held,
    what a point left out is missed by follows from the whole without solving again; here the
    smoothing is chosen anew for each point left out, from the others alone, so that the choice
    does not flatter itself. Source: Wahba, Spline Models for Observational Data (1990),
    ch. 2 and 4.2.

    Args:
        control: six points or more that do not lie in one line.
        weights: one a point, 1 in the mean.
    """
    flat = affine(control, weights)
    spread = _spread(control)
    tried = [_tried(control, weights, spread, s) for s in SMOOTHINGS]
    best = tried[_least([t.missed(weights) for t in tried])]
    without = np.array([t.missed_without(weights) for t in tried])
    own = [_least(without[:, n]) for n in range(len(control))]
    left_out = np.array([tried[k].left_out[n] for n, k in enumerate(own)])
    over = best.residuals
    return Solved(
        straight=flat.straight,
        bend=tuple(float(f"{best.smoothing * spread**2 / w:.6g}") for w in weights),
        residuals=_pairs(over),
        left_out=_pairs(left_out),
        squares=best.squares,
        eased=tuple(float(n) for n in best.eased),
        surplus=flat.surplus,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Tried:
    """A spline of one smoothing: the pull at each point, and the pulls' own matrix.

    The pull is smoothing⁻¹ · weight · misfit. With the matrix C that gives the pulls from the
    places on the ground, a point left out is missed by pull / C's diagonal, and the sum that is
    made least falls by smoothing · pull² / C's diagonal.
    """

    smoothing: float
    weights: Numbers
    ground: Numbers
    pull: Numbers
    matrix: Numbers

    @property
    def _diagonal(self) -> Numbers:
        return self.matrix.diagonal()

    @property
    def residuals(self) -> Numbers:
        """Fitted less given; n by 2."""
        return -self.smoothing * self.pull / self.weights[:, None]

    @property
    def left_out(self) -> Numbers:
        """The same of each point left out; n by 2."""
        return -self.pull / self._diagonal[:, None]

    @property
    def squares(self) -> float:
        """The sum that is made least, bending included."""
        return float(self.smoothing * (self.ground * self.pull).sum())

    @property
    def eased(self) -> Numbers:
        """By how much that sum falls without each point; n."""
        eased: Numbers = self.smoothing * (self.pull**2).sum(axis=1) / self._diagonal
        return eased

    def missed(self, weights: Sequence[float]) -> float:
        """Return the weighted sum of squares of what points left out are missed by."""
        return float(np.array(weights) @ (self.left_out**2).sum(axis=1))

    def missed_without(self, weights: Sequence[float]) -> Numbers:
        """Return the same by the splines that never saw one of the points; n.

        Without point i the matrix is C - C_i C_iᵀ / C_ii.
        """
        over = self.matrix / self._diagonal
        pulls = self.pull[None, :, :] - over.T[:, :, None] * self.pull[:, None, :]
        diagonals = self._diagonal[None, :] - over.T * self.matrix
        np.fill_diagonal(diagonals, 1.0)
        squares = (pulls**2).sum(axis=2) / diagonals**2
        np.fill_diagonal(squares, 0.0)
        missed: Numbers = squares @ np.array(weights)
        return missed


def _tried(
    control: Sequence[Control], weights: Sequence[float], spread: float, smoothing: float
) -> _Tried:
    count = len(control)
    paper = np.array([(c.x, c.y) for c in control])
    paper = (paper - paper.mean(axis=0)) / spread
    ground = np.array([(c.east, c.north) for c in control])
    ground = ground - ground.mean(axis=0)
    plane = np.column_stack([np.ones(count), paper])
    whole = np.zeros((count + 3, count + 3))
    whole[:count, :count] = _energy(paper) + np.diag(smoothing / np.array(weights))
    whole[:count, count:] = plane
    whole[count:, :count] = plane.T
    matrix: Numbers = np.linalg.inv(whole)[:count, :count].astype(np.float64)
    return _Tried(
        smoothing=smoothing,
        weights=np.array(weights),
        ground=ground,
        pull=matrix @ ground,
        matrix=matrix,
    )


def _energy(paper: Numbers) -> Numbers:
    """Return r² log r of each pair of points; Duchon's function of a thin plate."""
    apart = ((paper[:, None, :] - paper[None, :, :]) ** 2).sum(axis=2)
    near = np.where(apart > 0.0, apart, 1.0)
    energy: Numbers = 0.5 * near * np.log(near) * (apart > 0.0)
    return energy


def _spread(control: Sequence[Control]) -> float:
    count = len(control)
    x, y = math.fsum(c.x for c in control) / count, math.fsum(c.y for c in control) / count
    return math.sqrt(math.fsum((c.x - x) ** 2 + (c.y - y) ** 2 for c in control) / count)


def _least(sums: Sequence[float] | Numbers) -> int:
    """Return which is the least, the stiffer of two that are alike to the digits that count."""
    told = [float(f"{n:.{_DIGITS}g}") for n in sums]
    return max(range(len(told)), key=lambda n: (-told[n], n))


def _pairs(rows: Numbers) -> tuple[tuple[float, float], ...]:
    return tuple((float(e), float(n)) for e, n in rows)
