"""The search for the places where new marks would help most.

A set of marks is worth the mean over the ground of min(1, w / e), e the error of a peg and w
the error wanted; nothing where no peg can be set out. Places are taken one by one, each time
the one that makes the set worth most, and then exchanged one by one while that helps.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from plan_editor.survey.adjustment.fixes import Fixes, Ties, bettered

WANTED_M = 0.05
"""The error of a peg that is wanted; our own figure: a gap between graves is a few times it."""

LEAST_GAIN = 0.01
"""A place that adds less, as a share of what the whole ground could be worth, is not taken."""

SAME = 1e-9
"""Sets whose worth differs by less are worth the same."""

Numbers = NDArray[np.float64]
Yes = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class State:
    """How well the ground is served by some marks: the fixes, and the ties behind them."""

    fixes: Fixes
    ties: Ties

    @property
    def worth(self) -> float:
        """The mean over the ground of what its pegs are worth, 0 to 1."""
        return float(np.mean(_worth(self.fixes.error_m)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Search:
    """The places that could bear a mark, and what each would reach.

    Args:
        start: how well the ground is served today.
        tied: of each, whether a tape reaches it from a mark of today.
        between: k by k, whether a tape reaches from one to the other.
        rows: of each, the cells that a tape reaches from it.
        reaching: of each, the ties to those cells.
    """

    start: State
    tied: Yes
    between: Yes
    rows: tuple[NDArray[np.intp], ...]
    reaching: tuple[Ties, ...]

    def best(self, most: int) -> tuple[int, ...]:
        """Return the places to take: greedily, then exchanged one by one while that helps."""
        taken: tuple[int, ...] = ()
        worth = self.start.worth
        for _ in range(most):
            better, value = self._next(taken)
            if better is None or value - worth < LEAST_GAIN:
                break
            taken, worth = (*taken, better), value
        while (exchanged := self._exchanged(taken, worth)) is not None:
            taken, worth = exchanged
        return taken

    def in_order(self, taken: tuple[int, ...]) -> tuple[int, ...]:
        """Return them so that each is the one that helps most beside those before it."""
        order: tuple[int, ...] = ()
        while rest := [p for p in taken if p not in order]:
            can = [p for p in rest if self.joined((*order, p))]
            order = (*order, max(can, key=lambda p: self.with_all((*order, p)).worth))
        return order

    def with_one(self, state: State, place: int) -> State:
        """Return how well the ground is served with one place more."""
        rows, new = self.rows[place], self.reaching[place]
        known = Fixes(state.fixes.error_m[rows], state.fixes.checked[rows])
        better = bettered(known, state.ties.at(rows), new)
        error, checked = state.fixes.error_m.copy(), state.fixes.checked.copy()
        error[rows], checked[rows] = better.error_m, better.checked
        weight = np.zeros((len(error), 1))
        turn = np.ones((len(error), 1), dtype=np.complex128)
        weight[rows], turn[rows] = new.weight, new.turn
        return State(Fixes(error, checked), state.ties.and_one(Ties(weight, turn)))

    def with_all(self, places: Sequence[int]) -> State:
        """Return how well the ground is served with some places more."""
        state = self.start
        for place in places:
            state = self.with_one(state, place)
        return state

    def joined(self, places: Sequence[int]) -> bool:
        """Return whether a tape leads from a mark of today to each, from one to the next."""
        here = np.array(places, dtype=np.intp)
        reached = self.tied[here]
        for _ in places:
            reached = reached | (self.between[np.ix_(here, here)] & reached).any(axis=1)
        return bool(reached.all())

    def _next(self, taken: tuple[int, ...]) -> tuple[int | None, float]:
        """Return the place that helps most beside those taken, and what all are worth then."""
        state = self.with_all(taken)
        here, worth = _worth(state.fixes.error_m), state.worth
        found: tuple[int | None, float] = (None, worth)
        for place, rows in enumerate(self.rows):
            if place in taken or not self.joined((*taken, place)):
                continue
            known = Fixes(state.fixes.error_m[rows], state.fixes.checked[rows])
            better = bettered(known, state.ties.at(rows), self.reaching[place])
            gain = float(np.sum(_worth(better.error_m) - here[rows])) / len(here)
            if worth + gain > found[1]:
                found = (place, worth + gain)
        return found

    def _exchanged(
        self, taken: tuple[int, ...], worth: float
    ) -> tuple[tuple[int, ...], float] | None:
        for place in taken:
            others = tuple(p for p in taken if p != place)
            better, value = self._next(others)
            if better is not None and value > worth + SAME:
                return (*others, better), value
        return None


def _worth(error_m: Numbers) -> Numbers:
    found: Numbers = WANTED_M / np.maximum(error_m, WANTED_M)
    return found
