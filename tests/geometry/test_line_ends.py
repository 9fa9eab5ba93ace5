"""Lines that are cut back to where they meet another, or carried on: places by hand."""

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, box

from plan_editor.geometry.line_ends import brought_to

EAST = LineString([(0, 0), (10, 0)])


def corners(line: LineString | None) -> list[list[float]]:
    assert line is not None
    return shapely.get_coordinates(line).tolist()


def test_a_line_too_short_is_carried_on_and_one_too_long_is_cut_back():
    wall, post = LineString([(14, -5), (14, 5)]), LineString([(7, -5), (7, 5)])
    assert corners(brought_to(EAST, wall, at_start=False, near=(14, 3))) == [[0, 0], [14, 0]]
    assert corners(brought_to(EAST, post, at_start=False, near=(7, 3))) == [[0, 0], [7, 0]]


def test_the_other_end_stays():
    post, far = LineString([(7, -5), (7, 5)]), LineString([(-2, -5), (-2, 5)])
    assert corners(brought_to(EAST, post, at_start=True, near=(7, 1))) == [[7, 0], [10, 0]]
    assert corners(brought_to(EAST, far, at_start=True, near=(-2, 1))) == [[-2, 0], [10, 0]]


def test_it_goes_on_along_its_last_side_and_corners_past_a_cut_go():
    bent = LineString([(0, 0), (10, 0), (12, 2)])
    high, post = LineString([(0, 5), (30, 5)]), LineString([(4, -1), (4, 1)])
    on = brought_to(bent, high, at_start=False, near=(15, 5))
    assert corners(on) == [[0, 0], [10, 0], [15, 5]]
    assert corners(brought_to(bent, post, at_start=False, near=(4, 0))) == [[0, 0], [4, 0]]


def test_cut_back_to_one_of_its_corners_it_ends_there_once():
    bent = LineString([(0, 0), (10, 0), (10, 6)])
    back = brought_to(bent, LineString([(9, -1), (11, 1)]), at_start=False, near=(10, 0))
    assert corners(back) == [[0, 0], [10, 0]]


def test_of_two_edges_of_an_area_the_one_that_was_pointed_at():
    house = box(14, -3, 20, 3)
    assert corners(brought_to(EAST, house, at_start=False, near=(14.2, 1)))[-1] == [14, 0]
    assert corners(brought_to(EAST, house, at_start=False, near=(19.8, 1)))[-1] == [20, 0]


def test_a_line_that_meets_nothing_or_ends_there_already_is_left():
    for other in (
        LineString([(14, 1), (14, 5)]),
        LineString([(0, 2), (10, 2)]),
        LineString([(10, -5), (10, 5)]),
        LineString([(-3, -5), (-3, 5)]),
    ):
        assert brought_to(EAST, other, at_start=False, near=(10, 0)) is None
    # cutting it back to where it begins would leave nothing of it
    start = LineString([(0, -5), (0, 5)])
    assert brought_to(EAST, start, at_start=False, near=(0, 0)) is None


@given(st.floats(-60, 60), st.floats(1, 50), st.floats(-80, 80))
def test_carried_on_it_ends_on_the_line_and_runs_as_before(way, far, slant):
    assume(abs(way - slant) < 85)
    line = shapely.affinity.rotate(EAST, way, origin=(0, 0))
    across = LineString([(10 + far, -900), (10 + far, 900)])
    other = shapely.affinity.rotate(across, slant, origin=(10 + far, 0))
    assume(other.distance(Point(line.coords[-1])) > 0.01)
    after = brought_to(line, other, at_start=False, near=(10 + far, 0))
    assume(after is not None)
    (e0, n0), (e1, n1) = after.coords
    (_, _), (e, n) = line.coords
    assert other.distance(Point(e1, n1)) == pytest.approx(0, abs=1e-9)
    assert (e1 - e0) * n - (n1 - n0) * e == pytest.approx(0, abs=1e-6)
