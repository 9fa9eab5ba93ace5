"""Many shapes moved and turned at one go, against shapely's own, one by one."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, affinity

from plan_editor.geometry.moving import moved, turned

millimetres = st.integers(-300_000, 300_000).map(lambda n: n / 1000)
SHAPES = (
    Point(1, 2),
    LineString([(0, 0), (3.125, 4)]),
    Polygon([(0, 0), (9, 0), (9, 5)], [[(7, 1), (8, 1), (8, 2)]]),
)


@given(millimetres, millimetres)
def test_what_moves_keeps_its_form_and_its_whole_millimetres(east, north):
    for before, after in zip(SHAPES, moved(SHAPES, east, north), strict=True):
        expected = affinity.translate(before, east, north)
        assert after.equals_exact(expected, 1e-9)
        grains = shapely.get_coordinates(after) * 1000
        assert np.abs(grains - grains.round()).max() < 1e-6


def test_a_move_is_taken_to_the_millimetre():
    assert moved([Point(0, 0)], 1.23456, -0.0004)[0] == Point(1.235, 0.0)


@given(st.floats(-360, 360), st.tuples(millimetres, millimetres))
def test_a_turn_is_clockwise_about_the_point(degrees, about):
    for before, after in zip(SHAPES, turned(SHAPES, degrees, about), strict=True):
        # shapely counts turns counter-clockwise
        assert after.equals_exact(affinity.rotate(before, -degrees, origin=about), 1e-6)


def test_north_turned_a_quarter_is_east():
    (found,) = turned([Point(0, 5)], 90, (0, 0))
    assert (found.x, found.y) == pytest.approx((5, 0))


def test_nothing_moved_is_nothing():
    assert len(moved([], 1, 1)) == 0
    assert math.isclose(turned([Point(1, 1)], 0, (0, 0))[0].x, 1)
