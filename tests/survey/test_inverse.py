"""Matrices in small blocks against full ones."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.survey.adjustment.dissection import Tree, dissected
from plan_editor.survey.adjustment.inverse import factored


def network(count, seed, hubs):
    """Return places and pairs of near neighbours, and some points that touch most others."""
    chance = np.random.default_rng(seed)
    places = chance.uniform(0, 100, (count, 2))
    pairs = []
    for n in range(count):
        near = np.argsort(np.hypot(*(places - places[n]).T))[1:5]
        pairs += [(n, int(k)) for k in near]
    pairs += [(n, hub) for hub in range(hubs) for n in range(count) if n % 3]
    return places, np.array(pairs, dtype=np.int64).reshape(-1, 2)


def matrix_of(pairs, count, seed):
    chance = np.random.default_rng(seed)
    matrix = np.eye(2 * count)
    for a, b in pairs.tolist():
        row = np.zeros(2 * count)
        row[2 * a : 2 * a + 2] += chance.standard_normal(2)
        row[2 * b : 2 * b + 2] += chance.standard_normal(2)
        matrix += np.outer(row, row)
    return matrix


def fronts_of(tree: Tree, matrix: np.ndarray) -> tuple[np.ndarray, ...]:
    """Put each block of a full matrix into the front of the lower of its nodes."""
    fronts = tuple(np.zeros(level.shape) for level in tree.levels)
    depth = tree.depth
    for a, b in {(int(a) // 2, int(b) // 2) for a, b in np.argwhere(matrix)}:
        low = a if depth[a] >= depth[b] else b
        node = tree.node[[low]]
        (i,), (j,) = tree.places(node, np.array([a])), tree.places(node, np.array([b]))
        front = fronts[depth[low]][node[0] - (1 << depth[low])]
        block = matrix[2 * a : 2 * a + 2, 2 * b : 2 * b + 2]
        front[2 * i : 2 * i + 2, 2 * j : 2 * j + 2] = block
    for front, level in zip(fronts, tree.levels, strict=True):
        for k, rank in np.argwhere(level.own < 0):
            front[k, 2 * rank : 2 * rank + 2, 2 * rank : 2 * rank + 2] = np.eye(2)
    return fronts


@given(
    count=st.integers(1, 100),
    seed=st.integers(0, 1000),
    hubs=st.integers(0, 2),
    everywhere=st.booleans(),
)
def test_a_matrix_is_solved_and_inverted_as_the_full_one(count, seed, hubs, everywhere):
    places, pairs = network(count, seed, min(hubs, count))
    top = np.arange(min(hubs, count)) if everywhere else np.array([], dtype=np.int64)
    tree = dissected(places, pairs, top)
    matrix = matrix_of(pairs, count, seed)
    factor = factored(tree, fronts_of(tree, matrix))
    right = np.random.default_rng(seed).standard_normal((count, 2, 3))
    solved = factor.solved(right).reshape(2 * count, 3)
    assert solved == pytest.approx(np.linalg.solve(matrix, right.reshape(-1, 3)), abs=1e-8)
    full = np.linalg.inv(matrix)
    for front, level in zip(factor.inverse(), tree.levels, strict=True):
        for k, points in enumerate(np.concatenate((level.own, level.rim), axis=1)):
            there = np.flatnonzero(points >= 0)
            cells = (2 * there[:, None] + [0, 1]).ravel()
            numbers = (2 * points[there][:, None] + [0, 1]).ravel()
            assert front[k][np.ix_(cells, cells)] == pytest.approx(
                full[np.ix_(numbers, numbers)], abs=1e-9
            )


def test_points_in_two_halves_touch_only_through_what_stands_between():
    places, pairs = network(400, 1, 0)
    tree = dissected(places, pairs, np.array([], dtype=np.int64))
    assert len(tree.levels) > 3
    assert sorted(n for level in tree.levels for n in level.own[level.own >= 0]) == list(
        range(400)
    )
    for a, b in tree.node[pairs].tolist():
        low, high = max(a, b), min(a, b)
        while low > high:
            low //= 2
        assert low == high


def test_nothing_is_a_network_too():
    tree = dissected(
        np.zeros((0, 2)), np.zeros((0, 2), dtype=np.int64), np.array([], dtype=np.int64)
    )
    factor = factored(tree, tuple(np.zeros(level.shape) for level in tree.levels))
    assert factor.solved(np.zeros((0, 2, 1))).shape == (0, 2, 1)
