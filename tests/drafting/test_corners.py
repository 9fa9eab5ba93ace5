"""Corners moved, put in and taken out; rectangles resized on their bearing."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Point, Polygon

from plan_editor.drafting.corners import (
    THINNEST,
    Corner,
    Ring,
    corner_moved,
    corners,
    middles,
    rings,
    side_moved,
    with_added,
    with_moved,
    without,
)
from plan_editor.geometry.outlines import Rectangle

SQUARE = Polygon([(0, 0), (4, 0), (4, 4), (0, 4)])
YARD = Polygon(
    [(0, 0), (10, 0), (10, 10), (0, 10)], [[(2, 2), (4, 2), (4, 4)], [(6, 6), (8, 6), (8, 8)]]
)
BENT = LineString([(0, 0), (5, 0), (5, 5)])
WALL = LineString([(0, 0), (5, 0), (5, 5), (0, 0)])
TWO = MultiPolygon([YARD, Polygon([(20, 0), (24, 0), (24, 4)])])

SHAPES = [Point(1, 2), BENT, WALL, SQUARE, YARD, TWO]


@pytest.mark.parametrize("shape", SHAPES, ids=lambda s: s.geom_type)
def test_every_corner_can_be_moved_and_nothing_else_moves(shape):
    found = list(corners(shape))
    for corner, (east, north) in found:
        moved = with_moved(shape, corner, (east + 0.25, north + 0.5))
        assert moved.geom_type == shape.geom_type
        expected = dict(found) | {corner: (east + 0.25, north + 0.5)}
        assert dict(corners(moved)) == expected
        assert with_moved(moved, corner, (east, north)).equals_exact(shape)


@pytest.mark.parametrize("shape", SHAPES[1:], ids=lambda s: s.geom_type)
def test_a_corner_put_in_the_middle_of_a_side_changes_no_outline(shape):
    for corner, place in middles(shape):
        more = with_added(shape, corner, place)
        assert len(list(corners(more))) == len(list(corners(shape))) + 1
        assert more.length == pytest.approx(shape.length)
        assert more.area == pytest.approx(shape.area)
        assert without(more, corner).equals_exact(shape)


def test_a_ring_keeps_three_corners_and_a_line_two():
    assert without(Polygon([(0, 0), (1, 0), (1, 1)]), Corner(0, 1)) is None
    assert without(LineString([(0, 0), (1, 0)]), Corner(0, 0)) is None
    assert without(Point(0, 0), Corner(0, 0)) is None
    assert without(SQUARE, Corner(0, 0)).area == 8.0


def test_a_wall_that_closes_stays_closed():
    moved = with_moved(WALL, Corner(0, 0), (-1.0, -1.0))
    assert moved.coords[0] == moved.coords[-1] == (-1.0, -1.0)


def test_the_corner_before_one_is_told():
    open_line, closed = rings(BENT)[0], rings(SQUARE)[0]
    assert open_line.before(0) == (5.0, 0.0)
    assert open_line.before(1) == (0.0, 0.0)
    assert closed.before(0) == closed.corners[-1]
    assert Ring(((0.0, 0.0),), closed=False).before(0) is None


sizes = st.floats(0.2, 5.0)
rectangles = st.builds(
    Rectangle,
    east=st.floats(-50, 50),
    north=st.floats(-50, 50),
    width=sizes,
    length=sizes,
    bearing_deg=st.floats(0, 359.9),
)


@given(rectangle=rectangles, corner=st.integers(0, 3), share=st.floats(0.3, 3.0))
def test_a_corner_of_a_rectangle_goes_where_it_is_put_and_the_opposite_one_stays(
    rectangle, corner, share
):
    before = rectangle.corners()
    still = before[(corner + 2) % 4]
    to = tuple(s + (c - s) * share for c, s in zip(before[corner], still, strict=True))
    after = corner_moved(rectangle, corner, to)
    assert after.bearing_deg == rectangle.bearing_deg
    if min(after.width, after.length) > THINNEST:
        assert after.corners()[corner] == pytest.approx(to, abs=1e-6)
    assert after.corners()[(corner + 2) % 4] == pytest.approx(still, abs=1e-6)


@given(rectangle=rectangles, side=st.integers(0, 3), metres=st.floats(0.1, 9.0))
def test_a_side_of_a_rectangle_moves_and_the_opposite_one_stays(rectangle, side, metres):
    before = rectangle.corners()
    ends = before[side], before[(side + 1) % 4]
    still = before[(side + 2) % 4], before[(side + 3) % 4]
    middle = [(a + b) / 2 for a, b in zip(*ends, strict=True)]
    opposite = [(a + b) / 2 for a, b in zip(*still, strict=True)]
    away = shapely.Point(middle).distance(shapely.Point(opposite))
    to = tuple(o + (m - o) / away * metres for m, o in zip(middle, opposite, strict=True))
    after = side_moved(rectangle, side, to)
    assert after.bearing_deg == rectangle.bearing_deg
    size = after.length if side in {0, 2} else after.width
    assert size == pytest.approx(metres, abs=1e-6)
    assert after.corners()[(side + 2) % 4] == pytest.approx(still[0], abs=1e-6)
    assert after.corners()[(side + 3) % 4] == pytest.approx(still[1], abs=1e-6)


def test_a_rectangle_drawn_past_its_opposite_side_stays_thin():
    rectangle = Rectangle(east=0.0, north=0.0, width=1.0, length=2.0)
    for side, to in ((0, (9.0, 0.5)), (1, (1.0, -9.0)), (2, (-9.0, 0.5)), (3, (1.0, 9.0))):
        thin = side_moved(rectangle, side, to)
        assert min(thin.width, thin.length) == pytest.approx(THINNEST)
