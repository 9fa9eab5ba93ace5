"""Least squares: the places at which the weighted squares of the residuals sum to least."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.survey.adjustment.dissection import Real, Tree, Whole, dissected
from plan_editor.survey.adjustment.equations import Rows
from plan_editor.survey.adjustment.inverse import Factor, factored

DAMPING = 1e-6
"""Added to the diagonal: steps are held as if each place were known to 1 km (or 1,000 degrees).

It leaves the answer as it is and keeps a point that nothing holds from spoiling the others.
"""

NEAR = 1e-11
"""Steps shorter than this, in metres or degrees, no longer count."""

SHRINKS_BY = 0.3
"""A step longer than this part of the last one asks for a new matrix."""

MOST_STEPS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Rows that stand in the fronts of one level.

    Args:
        rows: numbers of the rows.
        front: of each, the front.
        spots: of each, 6 places in the front.
        left, right: which changes, of all rows laid out flat, are multiplied with each other.
        targets: where these products stand in the level's fronts, laid out flat.
    """

    rows: Whole
    front: Whole
    spots: Whole
    left: Whole
    right: Whole
    targets: Whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """Rows over places, of which the first are looked for.

    Args:
        rows: what was measured.
        unknown: how many places are looked for; those after them are held.
        swings: how many of them, the last, are swings.
        tree: in which order the matrix is reduced.
        shares: which rows stand in which fronts, level by level.
    """

    rows: Rows
    unknown: int
    swings: int
    tree: Tree
    shares: tuple[Share, ...]

    def fronts(self, change: Real, weights: Real) -> tuple[Real, ...]:
        """Return the matrix of the normal equations, by level."""
        plain = change.reshape(-1)
        weighted = (change * weights[:, None, None]).reshape(-1)
        fronts = []
        for level, share in zip(self.tree.levels, self.shares, strict=True):
            products = weighted[share.left] * plain[share.right]
            front = np.bincount(share.targets, products, math.prod(level.shape))
            fronts.append(front.reshape(level.shape).astype(float, copy=False))  # of none: int
        self._dampen(fronts)
        return tuple(fronts)

    def slope(self, change: Real, weighted: Real) -> Real:
        """Return by how much rows pull at each place looked for, as unknown by 2 by 1."""
        pull = _flat(change).reshape(-1, 2) * np.repeat(weighted, 3)[:, None]
        places = self.rows.places.ravel() + 1
        sums = [np.bincount(places, part, self.unknown + 1) for part in pull.T]
        pulls: Real = np.stack(sums, axis=1).astype(float)  # of none: int
        return pulls[1 : self.unknown + 1, :, None]

    def variances(self, change: Real, inverse: Sequence[Real]) -> Real:
        """Return the variance of what each row would be, computed at the places found."""
        found = np.zeros(len(change))
        flat = _flat(change)
        for front, share in zip(inverse, self.shares, strict=True):
            s = share.spots
            blocks = front[share.front[:, None, None], s[:, :, None], s[:, None, :]]
            part = flat[share.rows]
            found[share.rows] = (np.matmul(part[:, None, :], blocks)[:, 0] * part).sum(axis=1)
        return found

    def covariances(self, inverse: Sequence[Real]) -> Real:
        """Return the covariance of each place looked for, unknown by 2 by 2."""
        found = np.zeros((self.unknown, 2, 2))
        for front, level in zip(inverse, self.tree.levels, strict=True):
            k, rank = np.nonzero(level.own >= 0)
            both = 2 * rank[:, None] + np.array([0, 1])
            found[level.own[k, rank]] = front[
                k[:, None, None], both[:, :, None], both[:, None, :]
            ]
        return found

    def held(self, change: Real) -> Real:
        """Return the changes with those of held places set to nothing."""
        looked_for = (self.rows.places >= 0) & (self.rows.places < self.unknown)
        return change * looked_for[:, :, None]

    def _dampen(self, fronts: Sequence[Real]) -> None:
        """Add to the diagonal; where a node has no point, or a swing nothing, 1."""
        node = self.tree.node
        for front, level in zip(fronts, self.tree.levels, strict=True):
            k, rank = np.nonzero(level.own >= 0)
            front[k, 2 * rank, 2 * rank] += DAMPING
            swing = level.own[k, rank] >= len(node) - self.swings
            front[k, 2 * rank + 1, 2 * rank + 1] += np.where(swing, 1.0, DAMPING)
            k, rank = np.nonzero(level.own < 0)
            front[k, 2 * rank, 2 * rank] = front[k, 2 * rank + 1, 2 * rank + 1] = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """Places at which the sum of squares is least, and the matrix there."""

    at: Real
    over: Real
    change: Real
    factor: Factor


def network_of(rows: Rows, at: Real, *, unknown: int, swings: int) -> Network:
    """Return rows as a network.

    Args:
        rows: over places in the order points looked for, swings, points held.
        at: about where the places are.
        unknown: how many are looked for, with the swings.
        swings: how many swings.
    """
    places = np.where(rows.places < unknown, rows.places, -1)
    edges = np.concatenate([places[:, pair] for pair in ((0, 1), (0, 2), (1, 2))])
    edges = edges[(edges >= 0).all(axis=1)]
    everywhere = np.arange(unknown - swings, unknown)
    tree = dissected(at[:unknown], edges, everywhere)
    shares = _shares(tree, places)
    return Network(rows=rows, unknown=unknown, swings=swings, tree=tree, shares=shares)


def settled(network: Network, start: Real, weights: Real) -> Settled:
    """Return the places at which the weighted squares sum to least, near a start.

    Gauss and Newton's steps with the matrix of the start, taken anew only where they shrink too
    slowly, and once at the end; a step that makes the sum larger is halved.

    Args:
        network: what was measured.
        start: p by 2.
        weights: of the rows: 1 over the square of the standard deviation; 0 leaves one out.
    """
    here = _looked_at(network, start, weights)
    last = np.inf
    for _ in range(MOST_STEPS):
        step = _step(network, here, weights)
        length = float(np.abs(step).max(initial=0.0))
        if length < NEAR or (last < 1e-8 and length > 0.5 * last):
            break  # there, or as near as the last bits of the numbers let it come
        here = _stepped(network, here, step, weights)
        if length > SHRINKS_BY * last or length > 1.0:
            here = _looked_at(network, here.at, weights)
        last = length
    return _looked_at(network, here.at, weights)


def _looked_at(network: Network, at: Real, weights: Real) -> Settled:
    over, change = network.rows.linear(at)
    change = network.held(change)
    factor = factored(network.tree, network.fronts(change, weights))
    return Settled(at=at, over=over, change=change, factor=factor)


def _step(network: Network, here: Settled, weights: Real) -> Real:
    return -here.factor.solved(network.slope(here.change, weights * here.over))[:, :, 0]


def _stepped(network: Network, here: Settled, step: Real, weights: Real) -> Settled:
    most = _squares(here.over, weights) * (1.0 + 1e-9) + 1e-12
    at, over, change = _taken(network, here.at, step)
    for halvings in range(1, 12):
        if _squares(over, weights) <= most:
            break
        at, over, change = _taken(network, here.at, step * 0.5**halvings)
    return Settled(at=at, over=over, change=network.held(change), factor=here.factor)


def _taken(network: Network, start: Real, step: Real) -> tuple[Real, Real, Real]:
    at = start.copy()
    at[: network.unknown] += step
    return (at, *network.rows.linear(at))


def _squares(over: Real, weights: Real) -> float:
    return float(np.sum(weights * over**2))


def _shares(tree: Tree, places: Whole) -> tuple[Share, ...]:
    """Return which rows stand where: each in the front of the lowest of its places."""
    depth = np.append(tree.depth, -1)[places]
    lowest = np.take_along_axis(places, depth.argmax(axis=1)[:, None], axis=1)[:, 0]
    deep = depth.max(axis=1)
    return tuple(
        _share(tree, places, lowest, np.flatnonzero(deep == n), n)
        for n in range(len(tree.levels))
    )


def _share(tree: Tree, places: Whole, lowest: Whole, rows: Whole, step: int) -> Share:
    nothing = tree.levels[step].width
    node = tree.node[lowest[rows]]
    spots = np.full((len(rows), 3), nothing)
    for slot in range(3):
        there = places[rows, slot] >= 0
        spots[there, slot] = tree.places(node[there], places[rows[there], slot])
    both = (2 * spots[:, :, None] + np.array([0, 1])).reshape(len(rows), 6)
    front, size = node - (1 << step), 2 * nothing + 2
    targets = (front[:, None, None] * size + both[:, :, None]) * size + both[:, None, :]
    looked_for = np.repeat(spots < nothing, 2, axis=1)
    row, a, b = np.nonzero(looked_for[:, :, None] & looked_for[:, None, :])
    return Share(
        rows=rows,
        front=front,
        spots=both,
        left=6 * rows[row] + a,
        right=6 * rows[row] + b,
        targets=targets[row, a, b],
    )


def _flat(change: Real) -> Real:
    return change.reshape(len(change), 6)
