"""Find the shortest way over paths and grass, by Dijkstra's algorithm (scipy's csgraph)."""

from itertools import pairwise

import numpy as np
import shapely
from scipy.sparse import coo_array, csr_array
from scipy.sparse.csgraph import connected_components, dijkstra

from plan_editor.ground.path_network import Network, Whole
from plan_editor.ground.walking import GRASS_COUNTS, Track
from plan_editor.ground.walking_ground import Numbers, WalkingGround

_BETWEEN_M = 25.0
"""Paths that do not meet are walked from one to the other over so much grass at most."""

_LEAST = 1e-9
"""csgraph takes a length of nothing for no piece at all."""


def shortest(net: Network, ground: WalkingGround, places: Numbers, starts: int) -> Track:
    """Return the best way from any of the starts to the target.

    Args:
        net: the paths.
        ground: what is walked round.
        places: the target, then the starts.
        starts: how many of these there are.
    """
    ends = 1 + starts
    corner = ends + len(ground.corners)
    every = np.concatenate([places, ground.corners, net.places])
    on_path, of = net.ends + corner, net.of
    grass = np.concatenate(
        [_from_each(ends, len(every)), _round(ends, corner, len(every)), _apart(net) + corner]
    )
    pairs = np.concatenate([on_path, grass])
    labels = np.concatenate([of, np.full(len(grass), -1)])
    seen = ground.sees(every[pairs[:, 0]], every[pairs[:, 1]])
    return _walked(every, pairs[seen], labels[seen], starts)


def _from_each(ends: int, count: int) -> Whole:
    """Return the pairs of each end with all that comes after it."""
    first, second = np.triu_indices(ends, 1, count)
    return np.stack([first, second], axis=1)


def _round(ends: int, corner: int, count: int) -> Whole:
    """Return the pairs of each corner with later ones and with all places on paths."""
    first, second = np.triu_indices(corner - ends, 1, count - ends)
    return np.stack([first, second], axis=1) + ends


def _apart(net: Network) -> Whole:
    """Return the pairs of places on paths that do not meet, where they are near enough."""
    count = len(net.places)
    if not count:
        return np.zeros((0, 2), dtype=np.intp)
    ones = np.ones(len(net.ends))
    graph = coo_array((ones, (net.ends[:, 0], net.ends[:, 1])), shape=(count, count))
    pieces, belongs = connected_components(graph, directed=False)
    if pieces == 1:
        return np.zeros((0, 2), dtype=np.intp)
    points = np.asarray(shapely.points(net.places))
    found = shapely.STRtree(points).query(points, predicate="dwithin", distance=_BETWEEN_M).T
    other = (found[:, 0] < found[:, 1]) & (belongs[found[:, 0]] != belongs[found[:, 1]])
    return np.asarray(found[other], dtype=np.intp)


def _walked(every: Numbers, pairs: Whole, labels: Whole, starts: int) -> Track:
    lengths = np.hypot(*(every[pairs[:, 1]] - every[pairs[:, 0]]).T)
    costs = np.where(labels < 0, lengths * GRASS_COUNTS, lengths) + _LEAST
    pairs, labels, costs = _cheapest(pairs, labels, costs, len(every))
    graph = csr_array((costs, (pairs[:, 0], pairs[:, 1])), shape=(len(every), len(every)))
    fars, befores = dijkstra(graph, directed=False, indices=[0], return_predecessors=True)
    far, before = fars[0], befores[0]
    start = int(np.argmin(far[1 : 1 + starts]))
    if not np.isfinite(far[1 + start]):
        return Track(places=np.zeros((0, 2)), of=(), start=0)
    along = [1 + start]
    while along[-1] != 0:
        along.append(int(before[along[-1]]))
    known = {(a, b): int(label) for (a, b), label in zip(pairs.tolist(), labels, strict=True)}
    of = (known[min(p), max(p)] for p in pairwise(along))
    return Track(places=every[along], of=tuple(of), start=start)


def _cheapest(
    pairs: Whole, labels: Whole, costs: Numbers, count: int
) -> tuple[Whole, Whole, Numbers]:
    """Return the cheapest of the pieces between the same two places, lower number first."""
    ordered = np.sort(pairs, axis=1)
    by_cost = np.argsort(costs, kind="stable")
    _, first = np.unique(ordered[by_cost] @ np.array([count, 1]), return_index=True)
    kept = by_cost[first]
    return ordered[kept], labels[kept], costs[kept]
