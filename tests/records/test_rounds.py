"""Walking orders, against exact solutions of small sets and a lower bound for large ones."""

from itertools import combinations

import numpy as np
import pytest

from plan_editor.records.rounds import walk_length, walking_order


def _lengths(count, seed):
    places = np.random.default_rng(seed).random((count + 1, 2)) * 80.0
    return np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))


def _exact(lengths):
    """Return the shortest open walk from 0, by dynamic programming (Held and Karp 1962)."""
    count = len(lengths)
    best = {(frozenset([n]), n): lengths[0, n] for n in range(1, count)}
    for size in range(2, count):
        for some in map(frozenset, combinations(range(1, count), size)):
            for last in some:
                rest = some - {last}
                best[some, last] = min(best[rest, n] + lengths[n, last] for n in rest)
    every = frozenset(range(1, count))
    return min(best[every, n] for n in every)


def _tree(weights):
    """Return the length of a least spanning tree and how many pieces meet at each place."""
    count = len(weights)
    degree, inside = np.zeros(count, dtype=int), np.zeros(count, dtype=bool)
    inside[0], near, far, total = True, np.zeros(count, dtype=int), weights[0].copy(), 0.0
    for _ in range(count - 1):
        found = int(np.argmin(np.where(inside, np.inf, far)))
        total += far[found]
        degree[[found, near[found]]] += 1
        inside[found] = True
        closer = (weights[found] < far) & ~inside
        far[closer], near[closer] = weights[found, closer], found
    return total, degree


def _bound(lengths):
    """Return a length below which no open walk from 0 lies.

    With a place more, at no distance from any, to which one goes from the last and from which
    one comes to the first, a walk is closed. Each closed walk is a tree of the real places and
    two pieces to that place. A penalty on each place, raised where the least of such trees
    branches, keeps its length a bound and makes it close: the ascent of Held and Karp 1970.
    """
    penalty, best, step = np.zeros(len(lengths)), 0.0, lengths.max() / 10
    for _ in range(300):
        total, degree = _tree(lengths + penalty[:, None] + penalty[None, :])
        last = 1 + int(np.argmin(penalty[1:]))
        best = max(best, total + penalty[0] + penalty[last] - 2 * penalty.sum())
        degree[[0, last]] += 1
        penalty += step * (degree - 2)
        step *= 0.98
    return best


@pytest.mark.parametrize("seed", range(12))
def test_the_order_of_a_few_stones_is_the_shortest_there_is(seed):
    lengths = _lengths(9, seed)
    order = walking_order(lengths)
    assert sorted(order) == list(range(1, 10))
    assert walk_length(lengths, order) == pytest.approx(_exact(lengths))


@pytest.mark.parametrize("seed", [4711, 4712, 4713])
def test_the_order_of_a_hundred_stones_is_within_five_per_cent_of_the_shortest(seed):
    lengths = _lengths(100, seed)
    order = walking_order(lengths)
    assert sorted(order) == list(range(1, 101))
    assert walk_length(lengths, order) <= 1.05 * _bound(lengths)


def test_no_bound_lies_above_an_exact_walk():
    for seed in range(5):
        lengths = _lengths(8, seed)
        assert _bound(lengths) <= _exact(lengths) + 1e-9


def test_stones_in_rows_are_walked_row_after_row():
    rows, stones = 5, 20
    places = np.array(
        [(0.0, 0.0), *((e * 1.2, n * 2.5) for n in range(rows) for e in range(stones))]
    )
    lengths = np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))
    there_and_back = rows * (stones - 1) * 1.2 + (rows - 1) * 2.5
    assert walk_length(lengths, walking_order(lengths)) <= 1.01 * there_and_back


def test_the_same_stones_make_the_same_round():
    lengths = _lengths(30, 3)
    assert walking_order(lengths) == walking_order(lengths.copy())


@pytest.mark.parametrize("count", [0, 1, 2, 3])
def test_a_few_stones_are_all_walked_to(count):
    order = walking_order(_lengths(count, 1))
    assert sorted(order) == list(range(1, count + 1))


def test_stones_at_one_place_are_all_walked_to():
    assert sorted(walking_order(np.zeros((13, 13)))) == list(range(1, 13))
