"""How well ties fix a place, against printed algebra, scipy, brute force and many a peg."""

from itertools import combinations
from math import inf, radians, sin, sqrt

import numpy as np
import pytest
from scipy.optimize import least_squares

from plan_editor.survey.adjustment.fixes import (
    CHECKS_DEG,
    CROSSES_DEG,
    MOST_TIES,
    Fixes,
    Ties,
    bettered,
    fixes,
    ties,
)

PLACE = np.array([[100.0, 200.0]])


def _stations(*bearing_and_length: tuple[float, float]) -> np.ndarray:
    turned = np.radians([b for b, _ in bearing_and_length])
    length = np.array([d for _, d in bearing_and_length])
    return PLACE + np.stack([length * np.sin(turned), length * np.cos(turned)], axis=1)


def _fixed(stations: np.ndarray, sd: object, place: np.ndarray = PLACE) -> Fixes:
    each = np.broadcast_to(np.asarray(sd, dtype=np.float64), (len(place), len(stations)))
    return fixes(ties(place, stations, each, np.ones(each.shape, dtype=np.bool_)))


@pytest.mark.parametrize("angle", [90.0, 60.0, 30.0, 120.0, 150.0])
def test_two_ties_alike_fix_a_place_to_s_root_2_over_the_sine_of_their_angle(angle):
    # the usual expression for the error of an intersection of two distances
    stations = _stations((17.0, 12.0), (17.0 + angle, 25.0))
    found = _fixed(stations, 0.02)
    assert found.error_m[0] == pytest.approx(0.02 * sqrt(2) / sin(radians(angle)))
    assert not found.checked[0]


def test_three_ties_alike_at_sixty_degrees_fix_it_to_s_root_of_four_thirds():
    # N is 3/2 of the unit matrix over s²: trace of its inverse 4/3 s²
    found = _fixed(_stations((0, 9.0), (120, 20.0), (240, 14.0)), 0.03)
    assert found.error_m[0] == pytest.approx(0.03 * sqrt(4 / 3))
    assert found.checked[0]


def test_the_error_is_that_of_the_covariance_that_scipy_finds():
    stations = _stations((10, 14.0), (95, 22.0), (220, 9.0))
    sd = np.array([0.012, 0.03, 0.05])
    read = np.hypot(*(stations - PLACE).T)

    def misfit(at):
        return (np.hypot(*(stations - at).T) - read) / sd

    jacobian = least_squares(misfit, PLACE[0] + (0.3, -0.2)).jac
    covariance = np.linalg.inv(jacobian.T @ jacobian)
    assert _fixed(stations, sd).error_m[0] == pytest.approx(
        sqrt(np.trace(covariance)), rel=1e-6
    )


def test_pegs_set_out_many_times_lie_as_far_off_as_is_told():
    # each time with another reading of the tape and other errors of the marks themselves
    rng = np.random.default_rng(1962)
    stations = _stations((35, 18.0), (120, 26.0), (250, 21.0))
    tape, own = np.array([0.012, 0.016, 0.013]), np.array([0.02, 0.03, 0.01])
    told = _fixed(stations, np.hypot(tape, own)).error_m[0]
    count = 20_000
    true = stations + own[:, None] * rng.standard_normal((count, 3, 2))
    read = np.hypot(*(stations - PLACE).T) + tape * rng.standard_normal((count, 3))
    at = np.repeat(PLACE, count, axis=0)
    weight = 1 / (tape**2 + own**2)
    for _ in range(4):  # Gauss-Newton on the ground: the peg goes where the tapes say
        way = at[:, None, :] - true
        length = np.linalg.norm(way, axis=2)
        unit = way / length[..., None]
        normal = np.einsum("k,nki,nkj->nij", weight, unit, unit)
        right = np.einsum("k,nki,nk->ni", weight, unit, read - length)
        at = at + np.linalg.solve(normal, right[..., None])[..., 0]
    off = np.linalg.norm(at - PLACE, axis=1)
    assert sqrt(np.mean(off**2)) == pytest.approx(told, rel=0.02)
    # of a circular error 63 %, of one along a line 68 % lie within the root of its trace
    assert 0.62 < np.mean(off <= told) < 0.69


def test_the_best_two_or_three_are_found_as_by_trying_all():
    rng = np.random.default_rng(7)
    places = rng.uniform(0, 40, (60, 2))
    stations = rng.uniform(0, 40, (7, 2))
    sd = rng.uniform(0.01, 0.05, (60, 7))
    reached = rng.random((60, 7)) < 0.6
    found = fixes(ties(places, stations, sd, reached))
    for n, place in enumerate(places):
        known = [k for k in range(7) if reached[n, k]]
        error, checked = _tried(place, stations[known], sd[n, known])
        assert found.error_m[n] == pytest.approx(error, rel=1e-9)
        assert found.checked[n] == checked


def _tried(place: np.ndarray, stations: np.ndarray, sd: np.ndarray) -> tuple[float, bool]:
    way = stations - place
    unit = way / np.linalg.norm(way, axis=1)[:, None]
    meet = np.degrees(
        np.arccos(np.clip(np.abs(unit @ unit.T), 0, 1))
    )  # the lesser of the two angles
    least, checked = inf, False
    for size in (2, 3):
        for some in combinations(range(len(sd)), size):
            angles = [meet[i, j] for i, j in combinations(some, 2)]
            if max(angles) < CROSSES_DEG:
                continue
            each = unit[list(some)]
            normal = each.T @ (each / sd[list(some)][:, None] ** 2)
            least = min(least, sqrt(np.trace(np.linalg.inv(normal))))
            checked |= size == 3 and min(angles) >= CHECKS_DEG
    return least, checked


def test_ties_that_run_along_each_other_fix_nothing():
    stations = _stations((40, 10.0), (43, 20.0), (221, 15.0))
    assert _fixed(stations, 0.01).error_m[0] == inf
    assert _fixed(stations[:1], 0.01).error_m[0] == inf
    assert _fixed(stations[:0], 0.01).error_m[0] == inf


def test_three_ties_of_which_two_run_along_each_other_do_not_check():
    found = _fixed(_stations((0, 10.0), (12, 15.0), (90, 12.0)), 0.01)
    assert np.isfinite(found.error_m[0])
    assert not found.checked[0]


def test_a_tie_of_a_hands_breadth_is_left_out():
    near = _stations((0, 0.2), (90, 10.0))
    assert _fixed(near, 0.01).error_m[0] == inf
    on_the_mark = np.vstack([PLACE, _stations((90, 10.0))])
    assert _fixed(on_the_mark, 0.01).error_m[0] == inf


def test_of_many_marks_the_nearest_are_looked_at():
    rng = np.random.default_rng(3)
    stations = _stations(*zip(rng.uniform(0, 360, 30), np.linspace(2, 29, 30), strict=True))
    sd = np.full((1, 30), 0.02)
    found = ties(PLACE, stations, sd, np.ones((1, 30), dtype=np.bool_))
    assert found.weight.shape == (1, MOST_TIES)
    nearest = fixes(found).error_m[0]
    assert nearest == _fixed(stations[:MOST_TIES], 0.02).error_m[0]


def test_a_tie_more_betters_a_fix_as_if_it_had_been_there_from_the_start():
    rng = np.random.default_rng(5)
    places, stations = rng.uniform(0, 30, (40, 2)), rng.uniform(0, 30, (5, 2))
    sd, all_of = np.full((40, 5), 0.02), np.ones((40, 5), dtype=np.bool_)
    reached = all_of.copy()
    reached[::3, 2] = False
    before = ties(places, stations[:4], sd[:, :4], reached[:, :4])
    new = ties(places, stations[4:], sd[:, 4:], reached[:, 4:])
    found = bettered(fixes(before), before, new)
    whole = fixes(ties(places, stations, sd, reached))
    np.testing.assert_allclose(found.error_m, whole.error_m, rtol=1e-12)
    np.testing.assert_array_equal(found.checked, whole.checked)
    added = before.and_one(new)
    assert added.weight.shape == (40, 5)
    np.testing.assert_allclose(added.at(np.arange(3)).weight, added.weight[:3])


def test_shares_and_quantiles_count_what_is_out_of_reach():
    found = Fixes(np.array([0.02, 0.04, 0.06, inf]), np.array([True, False, False, False]))
    assert found.within(0.05) == 0.5
    assert found.out_of_reach == 0.25
    assert found.share_checked == 0.25
    assert found.quantile(0.5) == 0.04
    assert found.quantile(0.75) == 0.06
    assert found.quantile(0.9) is None


def test_no_ties_at_all_are_no_fix():
    found = fixes(Ties(np.zeros((2, 0)), np.zeros((2, 0), dtype=np.complex128)))
    assert found.out_of_reach == 1.0
