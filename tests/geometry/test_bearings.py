"""Bearings clockwise from north."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.geometry.bearings import (
    along,
    as_degrees,
    bearing,
    normal,
    read,
)

any_bearing = st.floats(0.0, 360.0, exclude_max=True)


def apart(one: float, other: float) -> float:
    """Return the angle between two bearings."""
    return abs((one - other + 180.0) % 360.0 - 180.0)


@pytest.mark.parametrize(
    ("east", "north", "degrees"),
    [(0, 1, 0), (1, 1, 45), (1, 0, 90), (0, -1, 180), (-1, 0, 270), (-1, 1, 315)],
)
def test_bearings_run_clockwise_from_north(east, north, degrees):
    assert bearing(east, north) == pytest.approx(degrees)


def test_a_leg_of_a_published_traverse_comes_out():
    # jerrymahun.com, open access, COGO problem 3: P1 (N 1000, E 2000) to LR (836.445, 1450.051)
    # is 573.754 long; its bearing follows from the right triangle: S 73-26-16 W
    east, north = 1450.051 - 2000.0, 836.445 - 1000.0
    assert bearing(east, north) == pytest.approx(read("S 73-26-16 W"), abs=0.001)
    assert along(read("S 73-26-16 W"), 573.754) == pytest.approx((east, north), abs=0.005)


def test_a_way_without_length_has_no_bearing():
    with pytest.raises(ValueError, match="no bearing"):
        bearing(0.0, 0.0)


def test_the_three_four_five_triangle_goes_along_its_side():
    assert along(bearing(3, 4), 5.0) == pytest.approx((3.0, 4.0))


@given(any_bearing, st.floats(0.01, 1000.0))
def test_going_along_a_bearing_has_that_bearing(degrees, distance):
    assert apart(bearing(*along(degrees, distance)), degrees) < 1e-9


@given(st.floats(-1e6, 1e6))
def test_a_normal_bearing_is_from_0_to_under_360(degrees):
    assert 0.0 <= normal(degrees) < 360.0
    assert apart(normal(degrees), degrees) < 1e-9


def test_a_hair_under_north_is_north():
    assert normal(-1e-20) == 0.0


TYPED = {
    "75": 75.0,
    "75.5": 75.5,
    "75,5°": 75.5,
    "75°30'": 75.5,
    "75° 30′ 36″": 75.51,
    "75 30 36": 75.51,
    "75-30-36": 75.51,
    "75°30'36''": 75.51,
    "360": 0.0,
    "N 30 E": 30.0,
    "s 30 e": 150.0,
    "S30°30'W": 210.5,
    "N 30 W": 330.0,
    "N 0 W": 0.0,
    "ne": 45.0,
    " S ": 180.0,
}


@pytest.mark.parametrize(("text", "degrees"), TYPED.items())
def test_a_typed_bearing_is_read(text, degrees):
    assert read(text) == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    ["", "361", "-5", "75 61", "75.5 30", "7530", "75'", "N 91 E", "N E", "E 30 N", "up"],
)
def test_what_is_no_bearing_is_refused_with_what_can_be_written(text):
    with pytest.raises(ValueError, match=r"is not a bearing\. Write a bearing like"):
        read(text)


def test_bearings_are_written():
    assert as_degrees(75.26) == "75.3°"
    assert as_degrees(359.96) == "0.0°"


@given(any_bearing)
def test_what_is_written_comes_back(degrees):
    assert apart(read(as_degrees(degrees)), degrees) <= 0.05 + 1e-9
