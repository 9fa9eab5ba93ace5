"""A network cut in halves, again and again, so that its matrix falls into small full blocks.

Nested dissection by coordinates (George, Nested dissection of a regular finite element mesh,
SIAM Journal on Numerical Analysis 10, 1973): the points between two halves stand in a node of
their own, above both halves in a tree. Seen from below, a node's points touch only points of
the nodes above it.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Whole = npt.NDArray[np.int64]
Real = npt.NDArray[np.float64]

LEAF = 24
"""About how many points a node at the bottom holds; measured as fastest of 6 to 200."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """The nodes of one depth of the tree; node k stands below node k // 2 of the level above.

    A node's front is a square matrix over its own points and the points above that they touch.

    Args:
        own: m by s, numbers of the points of each node, -1 where it has fewer.
        rim: m by b, numbers of the points above that each node touches, -1 likewise.
        cells: where the cells of the rim's square of 2b by 2b stand in the fronts of the level
            above, laid out flat; m times as many.
    """

    own: Whole
    rim: Whole
    cells: Whole

    @property
    def width(self) -> int:
        """Points in a front, without the last place, which holds what is nothing."""
        return int(self.own.shape[1] + self.rim.shape[1])

    @property
    def shape(self) -> tuple[int, int, int]:
        """Of the fronts: how many, and twice their points and nothing, squared."""
        return len(self.own), 2 * self.width + 2, 2 * self.width + 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Tree:
    """All levels, the top first, and where each point stands.

    Args:
        levels: the top first.
        node: of each point, its node, counted 1 at the top, 2 and 3 below it, and so on.
    """

    levels: tuple[Level, ...]
    node: Whole

    @property
    def depth(self) -> Whole:
        """Return of each point the number of its level; the top is 0."""
        return _depth_of(self.node)

    def places(self, node: Whole, point: Whole) -> Whole:
        """Return where points stand in the fronts of nodes that hold them, all of one level."""
        if not node.size:
            return node
        return _places(self.levels[int(_depth_of(node[:1])[0])], node, point)


def dissected(coordinates: Real, edges: Whole, everywhere: Whole) -> Tree:
    """Return a network as a tree.

    Args:
        coordinates: n by 2.
        edges: m by 2, pairs of points that stand in one measurement, any order, once or often.
        everywhere: points that touch most others, to stand at the top.
    """
    count = len(coordinates)
    depth = max(0, int(np.ceil(np.log2(max(count, 1) / LEAF))))
    pairs = _once(edges, count)
    node = _nodes(coordinates, pairs, everywhere, depth)
    return Tree(levels=_levels(node, pairs, depth), node=node)


def _once(edges: Whole, count: int) -> Whole:
    low, high = edges.min(axis=1), edges.max(axis=1)
    keys = np.unique((low * count + high)[low != high])
    return np.stack(np.divmod(keys, max(count, 1)), axis=1)


def _nodes(coordinates: Real, pairs: Whole, everywhere: Whole, depth: int) -> Whole:
    """Return of each point the node in which it stands."""
    count = len(coordinates)
    node = np.ones(count, dtype=np.int64)
    going_down = np.ones(count, dtype=bool)
    going_down[everywhere] = False
    long_way = int(np.argmax(np.ptp(coordinates, axis=0))) if count else 0
    for step in range(depth):
        lower = _halves(coordinates[:, (long_way + step) % 2], node, going_down)
        between = _between(pairs, node, lower, going_down)
        going_down[between] = False
        node[going_down] = lower[going_down]
    return node


def _halves(along: Real, node: Whole, going_down: npt.NDArray[np.bool_]) -> Whole:
    """Return of each point the lower node that it would go to, half of a node's points each."""
    points = np.flatnonzero(going_down)
    order = points[np.lexsort((along[points], node[points]))]
    group = node[order]
    first = np.searchsorted(group, group, side="left")
    size = np.searchsorted(group, group, side="right") - first
    second_half = (np.arange(len(order)) - first) * 2 >= size
    lower = 2 * node
    lower[order] += second_half
    return lower


def _between(
    pairs: Whole, node: Whole, lower: Whole, going_down: npt.NDArray[np.bool_]
) -> Whole:
    """Return points without which no pair joins two halves: of each pair, the busier one."""
    a, b = pairs[:, 0], pairs[:, 1]
    cut = going_down[a] & going_down[b] & (node[a] == node[b]) & (lower[a] != lower[b])
    a, b = a[cut], b[cut]
    busy = np.bincount(np.concatenate((a, b)), minlength=len(node))
    a_first = np.where(lower[a] < lower[b], busy[a] >= busy[b], busy[a] > busy[b])
    return np.unique(np.where(a_first, a, b))


def _levels(node: Whole, pairs: Whole, depth: int) -> tuple[Level, ...]:
    """Return the levels of the tree, from what each point touches."""
    count = len(node)
    at = _depth_of(node)
    lower_first = at[pairs[:, 0]] >= at[pairs[:, 1]]
    under = np.where(lower_first, pairs[:, 0], pairs[:, 1])
    over = np.where(lower_first, pairs[:, 1], pairs[:, 0])
    apart = node[under] != node[over]
    keys = np.unique(node[under[apart]] * count + over[apart])
    owns: list[Whole] = []
    rims: list[Whole] = []
    for step in range(depth, -1, -1):
        here = keys[(keys >= count << step) & (keys < count << (step + 1))]
        points = np.flatnonzero(at == step)
        owns.append(_table(node[points], points, step))
        rims.append(_table(*np.divmod(here, max(count, 1)), step))
        keys = np.unique(np.concatenate((keys[keys < count << step], _handed_up(here, node))))
    return _linked(tuple(reversed(owns)), tuple(reversed(rims)))


def _handed_up(keys: Whole, node: Whole) -> Whole:
    """Return what the nodes above touch because these do."""
    below, point = np.divmod(keys, max(len(node), 1))
    above = below // 2
    kept = node[point] != above
    return np.asarray(above[kept] * len(node) + point[kept])


def _table(node: Whole, point: Whole, step: int) -> Whole:
    """Return points by node in rows, -1 where a row is shorter than the longest."""
    order = np.lexsort((point, node))
    row, point = node[order] - (1 << step), point[order]
    rank = np.arange(len(row)) - np.searchsorted(row, row, side="left")
    table = np.full((1 << step, int(rank.max()) + 1 if rank.size else 0), -1, dtype=np.int64)
    table[row, rank] = point
    return table


def _linked(owns: tuple[Whole, ...], rims: tuple[Whole, ...]) -> tuple[Level, ...]:
    levels: list[Level] = []
    for step, (own, rim) in enumerate(zip(owns, rims, strict=True)):
        upper = np.full_like(rim, levels[-1].width if levels else 0)
        rows, ranks = np.nonzero(rim >= 0)
        if rows.size:
            above = (rows + (1 << step)) // 2
            upper[rows, ranks] = _places(levels[-1], above, rim[rows, ranks])
        cells = _cells(upper, levels[-1].shape[1] if levels else 0)
        levels.append(Level(own=own, rim=rim, cells=cells))
    return tuple(levels)


def _cells(upper: Whole, size: int) -> Whole:
    """Return where rims' cells stand in the fronts above, which are so many numbers wide."""
    both = (2 * upper[:, :, None] + np.array([0, 1])).reshape(len(upper), -1)
    row = both + size * (np.arange(len(upper)) // 2)[:, None]
    return np.asarray((row[:, :, None] * size + both[:, None, :]).ravel())


def _places(level: Level, node: Whole, point: Whole) -> Whole:
    """Return where points stand in the fronts of their nodes."""
    front = np.concatenate((level.own, level.rim), axis=1)[node - len(level.own)]
    return np.asarray(np.argmax(front == point[:, None], axis=1))


def _depth_of(node: Whole) -> Whole:
    return np.asarray(np.frexp(node.astype(float))[1].astype(np.int64) - 1)
