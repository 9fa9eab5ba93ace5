"""A typed length and bearing become a place."""

import pytest

from plan_editor.drafting.typed import typed_count, typed_place
from plan_editor.errors import CannotUse

ORIGIN = (100.0, 200.0)
EASTWARD = (110.0, 200.0)


def at(length: str, bearing: str, toward: tuple[float, float] = EASTWARD):
    return typed_place(ORIGIN, toward, length=length, bearing=bearing)


def test_a_length_alone_goes_towards_the_pointer():
    assert at("2.74", "") == pytest.approx((102.74, 200.0))


def test_feet_and_inches_are_read():
    # 9 ft is 2.7432 m exactly: Weights and Measures Act 1985, schedule 1
    assert at("9'", "") == pytest.approx((102.7432, 200.0))


def test_a_bearing_is_clockwise_from_grid_north():
    assert at("10", "0") == pytest.approx((100.0, 210.0))
    assert at("10", "S") == pytest.approx((100.0, 190.0))
    # 3-4-5: a bearing of 36°52'12" goes 6 east and 8 north in 10
    assert at("10", "36 52 11.63") == pytest.approx((106.0, 208.0), abs=1e-6)


def test_a_bearing_alone_goes_as_far_as_the_pointer_is():
    assert at("", "180") == pytest.approx((100.0, 190.0))


@pytest.mark.parametrize(
    ("length", "bearing", "toward", "said"),
    [
        ("", " ", EASTWARD, "Type a length"),
        ("2", "", ORIGIN, "shows no way"),
        ("", "90", ORIGIN, "shows no way"),
        ("two", "", EASTWARD, "“two” is not a length"),
        ("2", "up", EASTWARD, "“up” is not a bearing"),
        ("0", "90", EASTWARD, "greater than nothing"),
        ("100001", "90", EASTWARD, "under 100 km"),
    ],
)
def test_what_makes_no_place_is_said(length, bearing, toward, said):
    with pytest.raises(CannotUse, match=said) as told:
        at(length, bearing, toward)
    assert "Nothing was placed" in str(told.value)


def test_both_typed_need_no_pointer():
    assert at("2", "90", ORIGIN) == pytest.approx((102.0, 200.0))


def test_a_count_is_a_whole_number_that_is_not_too_large():
    assert typed_count(" 14 ", 500) == 14
    assert typed_count("500", 500) == 500
    # Python works out no number of more than 4300 digits, and says so by an error
    for none in ("", "0", "501", "-3", "2.5", "three", "9" * 5000):
        assert typed_count(none, 500) is None
