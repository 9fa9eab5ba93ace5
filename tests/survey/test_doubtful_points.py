"""The tests of one doubtful point against the distributions of scipy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from plan_editor.survey.fits.doubtful_points import CERTAINTY, chi_square_beyond, doubtful


@given(st.floats(0.0, 3000.0), st.integers(1, 40))
def test_chi_square_is_that_of_scipy(value, half):
    wanted = stats.chi2.sf(value, 2 * half)
    assert chi_square_beyond(value, 2 * half) == pytest.approx(wanted, rel=1e-9, abs=1e-300)


@pytest.mark.parametrize("surplus", [4, 8, 14, 30])
@pytest.mark.parametrize("points", [4, 9])
def test_without_standard_deviations_the_bound_is_that_of_the_f_distribution(surplus, points):
    # F = (fall / 2) / (rest / (surplus - 2)), beyond the quantile of CERTAINTY / points
    bound = stats.f.isf(CERTAINTY / points, 2, surplus - 2)
    fall = bound * 2 / (surplus - 2)
    eased = [0.0] * (points - 1)
    assert doubtful([*eased, 1.01 * fall], 1 + 1.01 * fall, surplus, None) == points - 1
    assert doubtful([*eased, 0.99 * fall], 1 + 0.99 * fall, surplus, None) is None


@pytest.mark.parametrize("points", [4, 9])
def test_with_standard_deviations_the_bound_is_that_of_chi_square(points):
    bound = stats.chi2.isf(CERTAINTY / points, 2) * 0.1**2
    rest = 6 * 0.1**2  # the others agree with them
    eased = [0.0] * (points - 1)
    assert doubtful([*eased, 1.01 * bound], rest + 1.01 * bound, 8, 0.1) == points - 1
    assert doubtful([*eased, 0.99 * bound], rest + 0.99 * bound, 8, 0.1) is None


def test_standard_deviations_that_the_others_contradict_are_not_believed():
    # the others disagree ten times as much as 0.1 m lets expect: 1.5 m is nothing special
    assert doubtful([0.0, 0.0, 0.0, 2.25], 6 + 2.25, 8, 0.1) is None
    assert doubtful([0.0, 0.0, 0.0, 2.25], 0.06 + 2.25, 8, 0.1) == 3


def test_what_is_less_than_a_millimetre_names_nobody():
    assert doubtful([0.0, 0.0, 0.0, 9e-7], 9.1e-7, 8, None) is None


def test_with_three_measurements_left_over_nobody_can_be_told_from_the_others():
    assert doubtful([0.0, 0.0, 4.0], 4.0, 2, None) is None
