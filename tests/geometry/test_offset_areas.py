"""Areas by offsets against published examples."""

import pytest

from plan_editor.geometry.offset_areas import even_step, mid_ordinate, simpson, trapezoidal

ELEVEN = [2.5, 3.5, 5.0, 4.6, 3.2, 2.4, 5.6, 6.2, 3.8, 1.8, 0.9]
BIRD = [0, 2.5, 5.5, 8.75, 12.5, 17.5, 24.0]


def every(step: float, count: int) -> list[float]:
    return [step * n for n in range(count)]


def test_eleven_offsets_at_ten_metres():
    # askfilo.com, question 3432383232333034: 378.0 m² and 375.33 m²
    assert trapezoidal(every(10, 11), ELEVEN) == pytest.approx(378.0, abs=0.005)
    assert simpson(10, ELEVEN) == pytest.approx(375.33, abs=0.005)


def test_nine_offsets_at_ten_metres():
    # askfilo.com, question 3337353334323632: 439.67 m²
    offsets = [3.25, 5.60, 4.20, 6.65, 8.75, 6.20, 3.25, 4.20, 5.65]
    assert simpson(10, offsets) == pytest.approx(439.67, abs=0.005)


def test_the_distance_under_a_curve_of_speed():
    # Bird, Basic Engineering Mathematics, p. 258, problem 1: 58.75 m and 58.25 m
    assert trapezoidal(every(1, 7), BIRD) == pytest.approx(58.75, abs=1e-9)
    middles = [1.25, 4.0, 7.0, 10.75, 15.0, 20.25]
    assert mid_ordinate(1, middles) == pytest.approx(58.25, abs=1e-9)


def test_an_even_number_of_offsets_leaves_a_trapezium():
    # quizall.hivanix.in, question 64713: 781 m²
    offsets = [0, 2.65, 3.80, 3.75, 4.65, 3.60, 5.00, 5.80]
    assert simpson(30, offsets) == pytest.approx(781.0, abs=0.5)


def test_steps_need_not_be_equal():
    assert trapezoidal([0.0, 1.0, 4.0], [2.0, 2.0, 2.0]) == pytest.approx(8.0)
    assert even_step([0.0, 1.0, 4.0]) is None
    assert even_step([0.0, 1.5, 3.0]) == 1.5
    assert even_step([0.0]) is None


@pytest.mark.parametrize(
    ("along", "offsets"), [([0.0], [1.0]), ([0.0, 1.0], [1.0]), ([0.0, 2.0, 2.0], [1, 1, 1])]
)
def test_too_few_offsets_or_a_muddle_of_them_are_refused(along, offsets):
    with pytest.raises(ValueError, match=r"in the order|two of them"):
        trapezoidal(along, offsets)


def test_simpson_wants_three():
    with pytest.raises(ValueError, match="three offsets"):
        simpson(1.0, [1.0, 2.0])
