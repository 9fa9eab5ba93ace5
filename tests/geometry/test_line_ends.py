"""A line brought to another: cut back, carried on, or neither; sums by hand."""

import pytest
import shapely
from shapely import LineString, Point

from plan_editor.geometry.line_ends import brought_to

WALL = LineString([(6.0, -5.0), (6.0, 5.0)])


def brought(line, other, near, *, at_start=False):
    found = brought_to(LineString(line), other, at_start=at_start, near=near)
    return None if found is None else list(found.coords)


def test_a_line_is_carried_on_along_its_last_side():
    # from (0, 0) over (3, 1): at 6 m east it has risen by 2
    assert brought([(0, 0), (3, 1)], WALL, (6, 0)) == [(0, 0), pytest.approx((6, 2))]


def test_a_line_is_cut_back_to_where_it_crosses():
    assert brought([(0, 0), (3, 0), (9, 0)], WALL, (6, 0)) == [(0, 0), (3, 0), (6, 0)]


def test_the_first_end_is_brought_as_well():
    assert brought([(9, 0), (8, 0), (0, 0)], WALL, (6, 0), at_start=True) == [(6, 0), (0, 0)]
    assert brought([(3, 0), (0, 0)], WALL, (6, 0), at_start=True) == [(6, 0), (0, 0)]


def test_of_several_places_the_nearest_to_the_pointer_counts():
    house = shapely.box(4, -1, 8, 1)
    line = [(0, 0), (2, 0)]
    assert brought(line, house, (4.2, 0.5)) == [(0, 0), (4, 0)]
    assert brought(line, house, (7.9, 0.5)) == [(0, 0), (8, 0)]


def test_what_meets_nowhere_is_not_brought():
    assert brought([(0, 0), (-3, 0)], WALL, (6, 0)) is None
    assert brought([(0, 0), (0, 3)], WALL, (6, 0)) is None
    assert brought([(0, 0), (3, 0)], Point(6, 1), (6, 0)) is None


def test_what_ends_there_already_stays():
    assert brought([(0, 0), (6, 0)], WALL, (6, 0)) is None


def test_a_crossing_at_a_corner_gives_no_side_without_length():
    assert brought([(0, 0), (6, 0), (9, 3)], WALL, (6, 0)) == [(0, 0), (6, 0)]


def test_a_line_of_which_nothing_would_be_left_is_not_cut_back():
    assert brought([(6, 0), (9, 0)], WALL, (6, 0)) is None
