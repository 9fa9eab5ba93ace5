"""Fit mowing rates to sessions: least squares, with no rate below nothing.

Lawson and Hanson, *Solving Least Squares Problems* (1974), chapter 23, as scipy has it. The
intervals are those of ordinary least squares with Student's t.
"""

from collections.abc import Sequence
from math import sqrt

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import nnls
from scipy.special import stdtrit

from plan_editor.records.mowing_rates import CONFIDENCE, LEAST, SPARE, Fitted
from plan_editor.records.visit_equations import Equation

_FULL = 1e-9
"""Columns that differ by less than this part are one and the same."""


def fitted(told: tuple[Equation, ...]) -> tuple[Fitted, ...]:
    """Return the rates that the sessions tell; see ``mowing_rates.fitted``."""
    return tuple(f for block in _blocks(_enough(told)) for f in _fit(block))


def _enough(told: Sequence[Equation]) -> list[Equation]:
    """Return the equations in which nothing stands that too few sessions tell of."""
    kept = list(told)
    while True:
        counted = {name: _visits(kept, name) for e in kept for name, _ in e.amounts}
        few = {name for name, visits in counted.items() if visits < LEAST}
        if not few:
            return kept
        kept = [e for e in kept if not few & {name for name, _ in e.amounts}]


def _visits(told: Sequence[Equation], name: str) -> int:
    return len({e.visit for e in told if name in dict(e.amounts)})


def _blocks(told: Sequence[Equation]) -> list[list[Equation]]:
    """Return equations in groups that have no rate in common: each has errors of its own."""
    blocks: list[tuple[set[str], list[Equation]]] = []
    for one in told:
        names = {name for name, _ in one.amounts}
        touching = [b for b in blocks if b[0] & names]
        blocks = [b for b in blocks if not b[0] & names]
        joined = [e for _, equations in touching for e in equations]
        blocks.append((names.union(*(n for n, _ in touching)), [*joined, one]))
    return [equations for _, equations in blocks]


def _fit(block: Sequence[Equation]) -> list[Fitted]:
    names = list(dict.fromkeys(name for e in block for name, _ in e.amounts))
    spare = len(block) - len(names)
    rows = np.array([[dict(e.amounts).get(n, 0.0) for n in names] for e in block])
    minutes = np.array([e.minutes for e in block])
    # a column of square metres and one of stones weigh alike
    scale = np.linalg.norm(rows, axis=0)
    if spare < SPARE or np.linalg.matrix_rank(rows / scale, tol=_FULL) < len(names):
        return []
    found, _ = nnls(rows, minutes)
    sds = _sds(rows, minutes - rows @ found, spare)
    reach = float(stdtrit(spare, (1.0 + CONFIDENCE) / 2.0))
    return [
        Fitted(
            of=name,
            minutes=float(x),
            low=max(0.0, float(x - reach * sd)),
            high=float(x + reach * sd),
            visits=_visits(block, name),
        )
        for name, x, sd in zip(names, found, sds, strict=True)
        if x > 0.0  # nothing is done in no time: such sessions tell nothing of it
    ]


def _sds(
    rows: NDArray[np.float64], missed: NDArray[np.float64], spare: int
) -> NDArray[np.float64]:
    """Return the standard deviation of each rate."""
    scale = np.linalg.norm(rows, axis=0)
    inverse = np.linalg.inv((rows / scale).T @ (rows / scale))
    found: NDArray[np.float64] = np.sqrt(np.diag(inverse)) / scale
    return found * sqrt(float(missed @ missed) / spare)
