"""How well measurements check one another, and which of them are suspected of a blunder."""

from collections.abc import Iterator
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from plan_editor.survey.adjustment.dissection import Real, Whole
from plan_editor.survey.adjustment.equations import Rows
from plan_editor.survey.adjustment.normal import Network, Settled, settled

LEVEL = 0.05
"""The share of books without a blunder in which one is suspected all the same, at most.

Each of n measurements is tested at 1 - (1 - 0.05)^(1/n), so that all tests together stay below
it. Source of the test: Baarda, A testing procedure for use in geodetic networks, Netherlands
Geodetic Commission, 1968; of the level for n tests: Sidak, Journal of the American Statistical
Association 62, 1967.
"""

LEAST_REDUNDANCY = 0.01
"""Where less of an error shows in the residual, nothing checks the measurement."""

MOST_SUSPECTS = 20
"""So many are looked for; a book with more wants reading, not sums."""

ALIKE = 1e-6
"""Standardised residuals that differ by less, in parts of them, say the same."""

ON_ITS_OWN = 0.9999
"""All of an error shows, from this redundancy on, in the residual, and none in any other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reliability:
    """Of each row, how well it is checked.

    Args:
        redundancy: share of an error that shows in the residual.
        standardised: residual over its own standard deviation; 0 where nothing checks it.
    """

    redundancy: Real
    standardised: Real


def reliability(rows: Rows, over: Real, variances: Real) -> Reliability:
    """Return how well rows check one another.

    Args:
        rows: what was measured.
        over: residuals.
        variances: of what each row would be, computed at the places found.
    """
    redundancy = np.clip(1.0 - variances / rows.sd**2, 0.0, 1.0)
    checked = redundancy >= LEAST_REDUNDANCY
    own = rows.sd * np.sqrt(np.where(checked, redundancy, 1.0))
    return Reliability(redundancy=redundancy, standardised=np.where(checked, over / own, 0.0))


def critical(tests: int) -> float:
    """Return above which standardised residual the worst of so many is suspected."""
    alone = 1.0 - (1.0 - LEVEL) ** (1.0 / max(tests, 1))
    return NormalDist().inv_cdf(1.0 - alone / 2.0)


def most_s0(dof: int) -> float:
    """Return the s0 that chance alone goes beyond in one adjustment of twenty.

    Source: χ² at 95 % over its degrees of freedom, as Wilson and Hilferty come near to it,
    Proceedings of the National Academy of Sciences 17, 1931: within 1.3 % in s0, worst at 1.

    Args:
        dof: measurements more than needed, 1 or more.
    """
    spread = 2.0 / (9.0 * dof)
    return float((1.0 - spread + NormalDist().inv_cdf(0.95) * spread**0.5) ** 1.5)


def suspects(network: Network, found: Settled, first: Reliability) -> Iterator[Whole]:
    """Return the rows suspected of a blunder, the likeliest first.

    One is found, left out, and the rest adjusted again. Rows that say just the same (of three
    ties to a point any one may be wrong) come together; stations are not suspected.
    """
    rows = network.rows
    weights = 1.0 / rows.sd**2
    state = first
    for _ in range(MOST_SUSPECTS):
        worst = _worst(state, weights, rows)
        if not worst.size:
            return
        yield worst
        weights[worst[0]] = 0.0
        found = settled(network, found.at, weights)
        variances = network.variances(found.change, found.factor.inverse())
        state = reliability(rows, found.over, variances)


def _worst(state: Reliability, weights: Real, rows: Rows) -> Whole:
    tested = (weights > 0.0) & (state.redundancy >= LEAST_REDUNDANCY) & (rows.given >= 0)
    size = np.where(tested, np.abs(state.standardised), 0.0)
    limit = critical(int(np.count_nonzero(tested)))
    if size.max(initial=0.0) < limit:
        return np.array([], dtype=np.int64)
    alike = size >= size.max() * (1.0 - ALIKE)
    # what stands on its own, between held marks, says nothing of another though it be as large
    alike &= state.redundancy < ON_ITS_OWN
    alike[int(np.argmax(size))] = True
    return np.flatnonzero(alike)
