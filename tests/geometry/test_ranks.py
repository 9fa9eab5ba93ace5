"""Rectangles side by side, by sums that are done by hand."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import (
    Axis,
    along_line,
    at_pitch,
    axis_between,
    count_that_fits,
    evened,
    head_of,
    in_line,
    stretched,
)

SIZE = (1.2, 2.4)
EAST = Axis(start=(0.0, 0.0), bearing_deg=90.0)


def corners(rectangle: Rectangle) -> set[tuple[float, float]]:
    return {(round(e, 6) + 0.0, round(n, 6) + 0.0) for e, n in rectangle.corners()}


def test_five_graves_on_ten_metres_stand_two_metres_and_twenty_apart() -> None:
    found = along_line((0, 0), (10, 0), SIZE, 5, right=True)
    # (10 - 1.2) / 4 = 2.2
    assert [round(r.east, 6) for r in found] == [0.0, 2.2, 4.4, 6.6, 8.8]
    assert corners(found[0]) == {(0, 0), (1.2, 0), (1.2, -2.4), (0, -2.4)}
    assert corners(found[-1]) == {(8.8, 0), (10, 0), (10, -2.4), (8.8, -2.4)}


def test_on_the_other_side_they_lie_on_the_same_head_line() -> None:
    found = along_line((0, 0), (10, 0), SIZE, 5, right=False)
    assert corners(found[0]) == {(0, 0), (1.2, 0), (1.2, 2.4), (0, 2.4)}
    assert head_of(found[4]) == pytest.approx((9.4, 0.0))


def test_one_alone_stands_at_the_start() -> None:
    (found,) = along_line((0, 0), (0, 9), SIZE, 1, right=True)
    assert corners(found) == {(0, 0), (0, 1.2), (2.4, 1.2), (2.4, 0)}


def test_what_cannot_be_laid_out_is_told() -> None:
    with pytest.raises(ValueError, match="bearing"):
        along_line((1, 1), (1, 1), SIZE, 3, right=True)
    with pytest.raises(ValueError, match="one grave"):
        at_pitch(EAST, SIZE, 0, 1.5, right=True)
    with pytest.raises(ValueError, match="bearing"):
        axis_between((2, 2), (2, 2))


def test_how_many_fit_is_the_nearest_whole_number() -> None:
    # 14 graves of 1.2 m at 1.5 m take 13 * 1.5 + 1.2 = 20.7 m
    assert count_that_fits(20.7, 1.2, 1.5) == 14
    assert count_that_fits(21.4, 1.2, 1.5) == 14
    assert count_that_fits(21.5, 1.2, 1.5) == 15
    assert count_that_fits(0.3, 1.2, 1.5) == 1


def test_a_stretched_row_keeps_sizes_and_gaps_in_proportion() -> None:
    row = at_pitch(EAST, SIZE, 5, 2.0, right=True)
    some = (row[0], row[1], row[4])  # two untraced between
    found = stretched(some, EAST, 9.2, (0.0, 5.0), (0.0, 5.0 + 17.2))
    assert [r.width for r in found] == [1.2] * 3
    # north now, and twice as far apart: 0.6, 4.6, 16.6
    assert [head_of(r) for r in found] == [
        pytest.approx((0.0, 5.6)),
        pytest.approx((0.0, 9.6)),
        pytest.approx((0.0, 21.6)),
    ]
    assert {round(r.bearing_deg, 9) for r in found} == {0.0}


def test_one_grave_goes_to_the_new_start() -> None:
    (alone,) = at_pitch(EAST, SIZE, 1, 2.0, right=True)
    (found,) = stretched([alone], EAST, 1.2, (3.0, 0.0), (9.0, 0.0))
    assert head_of(found) == pytest.approx((3.6, 0.0))


def test_evening_out_keeps_the_first_the_last_and_how_far_each_stands_out() -> None:
    places = [(0.0, 0.0), (1.0, 0.2), (5.0, -0.1), (9.0, 0.0)]
    row = [
        Rectangle(east=e, north=n, width=1.2, length=2.4, bearing_deg=90.0) for e, n in places
    ]
    found = evened(row, EAST)
    assert [head_of(r) for r in found] == [
        pytest.approx((0.6, 0.0)),
        pytest.approx((3.6, 0.2)),
        pytest.approx((6.6, -0.1)),
        pytest.approx((9.6, 0.0)),
    ]
    assert evened(row[:1], EAST) == tuple(row[:1])


def test_a_grave_is_put_in_line_where_it_stands_along_it() -> None:
    stray = Rectangle(east=4.0, north=0.5, width=1.2, length=2.4, bearing_deg=100.0)
    found = in_line(stray, EAST, 90.0)
    head = head_of(stray)
    assert head_of(found) == pytest.approx((head[0], 0.0))
    assert found.bearing_deg == 90.0


@given(
    st.tuples(st.floats(-90, 90), st.floats(-90, 90)),
    st.floats(0, 360),
    st.integers(1, 40),
    st.floats(1.2, 3.0),
    st.booleans(),
)
def test_graves_never_overlap_where_the_pitch_is_no_less_than_their_width(
    start, bearing, count, pitch, right
) -> None:
    found = at_pitch(Axis(start=start, bearing_deg=bearing), SIZE, count, pitch, right=right)
    shapes = [shapely.Polygon(r.corners()) for r in found]
    assert shapely.union_all(shapes).area == pytest.approx(count * 1.2 * 2.4, rel=1e-6)


@given(
    st.floats(0, 360),
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
)
def test_a_row_stretched_there_and_back_is_what_it_was(bearing, start, end) -> None:
    axis = Axis(start=(1.0, 2.0), bearing_deg=bearing)
    row = at_pitch(axis, SIZE, 6, 1.6, right=True)
    length = 5 * 1.6 + 1.2
    there = abs(complex(end[0] - start[0], end[1] - start[1]))
    if there < 2.5:
        return
    moved = stretched(row, axis, length, start, end)
    back = stretched(moved, axis_between(start, end), there, axis.start, axis.at(length))
    for one, other in zip(row, back, strict=True):
        assert one.corners()[0] == pytest.approx(other.corners()[0], abs=1e-6)
