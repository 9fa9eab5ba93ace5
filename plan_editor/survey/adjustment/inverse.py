"""A network's matrix in small full blocks: solved, and as much of its inverse as is needed.

The matrix of the normal equations is made of 2 by 2 blocks, one for each pair of points that
stand in one measurement. It is reduced node by node up the tree of ``dissection`` (multifrontal
method: Duff and Reid, ACM Transactions on Mathematical Software 9, 1983); the entries of the
inverse at the places where the matrix has entries follow on the way down, without any other
(Takahashi, Fagan and Chen, Formation of a sparse bus impedance matrix, 1973). All nodes of a
level are worked at once. A small network is a single full block.
"""

from dataclasses import dataclass

import numpy as np

from plan_editor.survey.adjustment.dissection import Level, Real, Tree, Whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Reduced:
    """One level after its own points are taken out.

    Args:
        level: which points.
        inverse: m by 2s by 2s, of the block of the own points.
        carried: m by 2s by 2b, the inverse times the block between own points and rim.
    """

    level: Level
    inverse: Real
    carried: Real


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """A matrix ready to be solved.

    Args:
        tree: the order in which the points were taken out.
        levels: the top first.
    """

    tree: Tree
    levels: tuple[Reduced, ...]

    def solved(self, right: Real) -> Real:
        """Return what the matrix takes to the given right sides.

        Args:
            right: n by 2 by c.
        """
        known = np.concatenate((right, np.zeros((1, *right.shape[1:]))))  # -1 is the last
        for step in reversed(self.levels):
            _carry_up(step, known)
        for step in self.levels:
            _carry_down(step, known)
        return known[:-1]

    def inverse(self) -> tuple[Real, ...]:
        """Return the fronts of all levels, filled with entries of the inverse.

        Each is m by f by f, where f is twice the width of its level and 2 more, in the order
        own points, rim, nothing.
        """
        fronts: list[Real] = []
        for step in self.levels:
            fronts.append(_inverse_front(step, fronts[-1] if fronts else None))
        return tuple(fronts)


def factored(tree: Tree, fronts: tuple[Real, ...]) -> Factor:
    """Return a matrix reduced.

    Args:
        tree: as the matrix falls apart.
        fronts: of each level, m by f by f with f = 2·width + 2, the matrix's entries; a block
            stands in the front of the lower of its two nodes. They are overwritten.
    """
    done: list[Reduced] = []
    for step in range(len(tree.levels) - 1, -1, -1):
        level = tree.levels[step]
        reduced, rest = _taken_out(level, fronts[step])
        done.append(reduced)
        if step:
            _add_to_upper(level, rest, fronts[step - 1])
    return Factor(tree=tree, levels=tuple(reversed(done)))


def _taken_out(level: Level, front: Real) -> tuple[Reduced, Real]:
    s, f = 2 * level.own.shape[1], 2 * level.width
    inverse: Real = np.asarray(np.linalg.inv(front[:, :s, :s]), dtype=np.float64)
    beside = front[:, :s, s:f]
    carried = inverse @ beside
    rest = front[:, s:f, s:f] - beside.swapaxes(1, 2) @ carried
    return Reduced(level=level, inverse=inverse, carried=carried), rest


def _add_to_upper(level: Level, rest: Real, upper: Real) -> None:
    np.add.at(upper.reshape(-1), level.cells, rest.reshape(-1))


def _carry_up(step: Reduced, known: Real) -> None:
    own = _gathered(known, step.level.own)
    change = np.matmul(step.carried.swapaxes(1, 2), own)
    rim = step.level.rim
    np.subtract.at(known, rim, change.reshape(*rim.shape, 2, known.shape[2]))
    known[-1] = 0.0


def _carry_down(step: Reduced, known: Real) -> None:
    own, rim = step.level.own, step.level.rim
    found = step.inverse @ _gathered(known, own) - step.carried @ _gathered(known, rim)
    known[own] = found.reshape(*own.shape, 2, known.shape[2])
    known[-1] = 0.0


def _gathered(known: Real, points: Whole) -> Real:
    """Return values by point as columns, m by 2s by c."""
    return known[points].reshape(len(points), 2 * points.shape[1], known.shape[2])


def _inverse_front(step: Reduced, upper: Real | None) -> Real:
    level = step.level
    s, f = 2 * level.own.shape[1], 2 * level.width
    front = np.zeros(level.shape)
    front[:, :s, :s] = step.inverse
    if upper is not None:
        above = upper.reshape(-1).take(level.cells).reshape(len(level.own), f - s, f - s)
        beside = -step.carried @ above
        front[:, s:f, s:f] = above
        front[:, :s, s:f] = beside
        front[:, s:f, :s] = beside.swapaxes(1, 2)
        front[:, :s, :s] -= beside @ step.carried.swapaxes(1, 2)
    return front
