"""How well tape ties fix a place: its error from the best two or three of them.

A tie of standard deviation s along the unit vector u adds u uᵀ / s² to the normal matrix N of
the place, and the error of the place is √ trace N⁻¹ = √(sE² + sN²). With w = 1 / s² and the
bearing θ of each tie this is

    trace N⁻¹ = 4 Σw / ((Σw)² - |Σ w exp 2iθ|²)

so that two ties alike that meet at an angle g give s √2 / sin g. Least squares, to the first
order: a place is fixed the worse, the flatter its ties meet.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

CHECKS_DEG = 30.0
"""Ties that meet at less do not check one another: no angle of a well-conditioned triangle is
under 30°, a common rule of chain surveying."""

CROSSES_DEG = 5.0
"""Arcs of ties that meet at less run along each other and mark no place; our own figure."""

SHORTEST_M = 0.5
"""A shorter tie is left out: its direction would be as doubtful as the mark that it is from."""

MOST_TIES = 12
"""Of more marks within reach of a place, only the nearest so many are looked at."""

Numbers = NDArray[np.float64]
Turns = NDArray[np.complex128]
Yes = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Ties:
    """The ties that reach each of n places, at most m of them.

    Args:
        weight: n by m, 1 / s² of each tie, nought where there is none.
        turn: n by m, exp 2iθ of its bearing θ: the same from both ends.
    """

    weight: Numbers
    turn: Turns

    def at(self, rows: NDArray[Any]) -> "Ties":
        """Return the ties of some of the places."""
        return Ties(self.weight[rows], self.turn[rows])

    def and_one(self, more: "Ties") -> "Ties":
        """Return them with one tie more at each place."""
        return Ties(
            np.hstack([self.weight, more.weight]),
            np.hstack([self.turn, more.turn]),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Fixes:
    """How well each of n places is fixed.

    Args:
        error_m: √(sE² + sN²) by its best two or three ties; infinite where no two cross.
        checked: whether there are three that meet one another at ``CHECKS_DEG`` or more, so
            that a blunder in any of them shows.
    """

    error_m: Numbers
    checked: Yes

    def within(self, error_m: float) -> float:
        """Return the share of the places that are fixed no worse than this."""
        return float(np.mean(self.error_m <= error_m))

    @property
    def out_of_reach(self) -> float:
        """The share of the places where no two ties cross."""
        return float(np.mean(np.isinf(self.error_m)))

    @property
    def share_checked(self) -> float:
        """The share of the places where three ties check one another."""
        return float(np.mean(self.checked))

    def quantile(self, share: float) -> float | None:
        """Return the error within which so many of the places keep; None out of reach."""
        found = float(np.quantile(self.error_m, share, method="inverted_cdf"))
        return found if np.isfinite(found) else None


def ties(places: Numbers, stations: Numbers, sd: Numbers, reached: Yes) -> Ties:
    """Return the ties between places and stations.

    Args:
        places: n by 2, east and north in metres.
        stations: k by 2, the same.
        sd: n by k, standard deviation of each tie with its station's share, in metres.
        reached: n by k, whether there can be a tie at all; those under ``SHORTEST_M`` and all
            but the nearest ``MOST_TIES`` are left out here.
    """
    way = stations[None, :, :] - places[:, None, :]
    length = np.hypot(way[..., 0], way[..., 1])
    there = reached & (length >= SHORTEST_M)
    nearest = np.argsort(np.where(there, length, np.inf), axis=1)[:, :MOST_TIES]
    along = np.take_along_axis(way[..., 0] + 1j * way[..., 1], nearest, axis=1)
    kept = np.take_along_axis(there, nearest, axis=1)
    way_there: Turns = np.where(kept, along, 1.0 + 0.0j)
    turn = (way_there / np.abs(way_there)) ** 2
    weight = np.where(kept, np.take_along_axis(sd, nearest, axis=1) ** -2, 0.0)
    most = int(kept.sum(axis=1).max(initial=0))  # they stand first, the nearest before all
    return Ties(weight[:, :most], turn[:, :most].astype(np.complex128))


def fixes(found: Ties) -> Fixes:
    """Return how well each place is fixed. Cost: places times ties cubed, a sixth of it."""
    count = len(found.weight)
    known = Fixes(np.full(count, np.inf), np.zeros(count, dtype=np.bool_))
    for column in range(found.weight.shape[1]):
        rows = np.flatnonzero(found.weight[:, column])
        before = Ties(found.weight[rows, :column], found.turn[rows, :column])
        new = Ties(
            found.weight[rows, column : column + 1], found.turn[rows, column : column + 1]
        )
        better = bettered(Fixes(known.error_m[rows], known.checked[rows]), before, new)
        known.error_m[rows], known.checked[rows] = better.error_m, better.checked
    return known


def bettered(known: Fixes, before: Ties, new: Ties) -> Fixes:
    """Return how well places are fixed when one tie more comes to each.

    Args:
        known: how well they are fixed by the ties that they have.
        before: those ties.
        new: one more for each place, of some weight.
    """
    first, second = np.triu_indices(before.weight.shape[1], k=1)
    there = before.weight > 0.0
    both = there[:, first] & there[:, second]
    crosses = there & _meet(before.turn, new.turn, CROSSES_DEG)
    among = both & _meet(before.turn[:, first], before.turn[:, second], CROSSES_DEG)
    checks = there & _meet(before.turn, new.turn, CHECKS_DEG)
    square = both & _meet(before.turn[:, first], before.turn[:, second], CHECKS_DEG)
    turned = before.weight * before.turn
    ones = _precision(before.weight, turned, new) * crosses
    pairs = before.weight[:, first] + before.weight[:, second]
    twos = _precision(pairs, turned[:, first] + turned[:, second], new)
    twos *= among | crosses[:, first] | crosses[:, second]
    best = np.maximum(ones.max(axis=1, initial=0.0), twos.max(axis=1, initial=0.0))
    error = np.full(len(best), np.inf)
    np.power(best, -0.5, out=error, where=best > 0.0)
    return Fixes(
        np.minimum(known.error_m, error),
        known.checked | (square & checks[:, first] & checks[:, second]).any(axis=1),
    )


def _precision(weight: Numbers, turned: Turns, new: Ties) -> Numbers:
    """Return 1 / trace N⁻¹ of ties of this summed weight and turn with one more."""
    whole = weight + new.weight
    across = turned + new.weight * new.turn
    found: Numbers = (whole - (across.real**2 + across.imag**2) / whole) / 4.0
    return found


def _meet(one: Turns, other: Turns, degrees: float) -> Yes:
    """Return where two ties meet at so many degrees or more, whichever of the two angles."""
    found: Yes = (one * other.conj()).real <= np.cos(np.radians(2.0 * degrees))
    return found
