"""Rectangles whose truth is a corner, two sides and a bearing."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon

from plan_editor.geometry.outlines import Rectangle, on_head_line, outlines, rectangle_of

place = st.tuples(st.floats(-300, 300), st.floats(-300, 300))
side = st.floats(0.2, 30)
bearing = st.floats(0, 359.99)
rectangles = st.builds(
    lambda at, width, length, deg: Rectangle(
        east=at[0], north=at[1], width=width, length=length, bearing_deg=deg
    ),
    place,
    side,
    side,
    bearing,
)

GRAVE = Rectangle(east=10, north=20, width=1.2, length=2.4)


def near(one: Rectangle, other: Rectangle, within: float) -> bool:
    """Return whether every corner lies within a distance of its like."""
    return all(
        math.dist(p, q) <= within for p, q in zip(one.corners(), other.corners(), strict=True)
    )


def test_a_grave_with_its_feet_to_the_east():
    expected = ((10, 20), (10, 21.2), (12.4, 21.2), (12.4, 20))
    for corner, place in zip(GRAVE.corners(), expected, strict=True):
        assert corner == pytest.approx(place)
    assert GRAVE.facing_deg == 90
    assert GRAVE.centre == pytest.approx((11.2, 20.6))


@given(rectangles)
def test_its_outline_has_its_sides_and_area(rectangle):
    outline = rectangle.outline()
    assert outline.is_valid
    assert not outline.exterior.is_ccw
    assert outline.area == pytest.approx(
        rectangle.width * rectangle.length, abs=0.001 * outline.length
    )
    millimetres = shapely.get_coordinates(outline) * 1000
    assert abs(millimetres - millimetres.round()).max() < 1e-5


@given(rectangles, place)
def test_turned_a_full_circle_in_degrees_it_is_what_it_was(rectangle, about):
    turned = rectangle
    for _ in range(360):
        turned = turned.turned(1.0, about)
    assert near(turned, rectangle, 1e-6)
    assert (turned.width, turned.length) == (rectangle.width, rectangle.length)


@given(rectangles, st.floats(-360, 360), place)
def test_a_turn_moves_every_corner_as_shapely_turns_it(rectangle, degrees, about):
    turned = rectangle.turned(degrees, about)
    expected = shapely.affinity.rotate(Polygon(rectangle.corners()), -degrees, origin=about)
    assert shapely.get_coordinates(expected)[:4] == pytest.approx(
        shapely.get_coordinates(Polygon(turned.corners()))[:4], abs=1e-6
    )


@given(rectangles, place)
def test_a_move_there_and_back_is_none(rectangle, by):
    assert near(rectangle.moved(*by).moved(-by[0], -by[1]), rectangle, 1e-9)


@given(rectangles)
def test_its_head_line_and_length_make_it_again(rectangle):
    start, end, *_ = rectangle.corners()
    assert near(on_head_line(start, end, rectangle.length), rectangle, 1e-7)


@given(rectangles)
def test_its_outline_is_recognised_either_way_round(rectangle):
    outline = rectangle.outline()
    for shape in (outline, outline.reverse()):
        found = rectangle_of(shape)
        assert found is not None
        assert shapely.equals_exact(
            found.outline().normalize(), outline.normalize(), tolerance=0.0031
        )


@pytest.mark.parametrize(
    "shape",
    [
        Point(0, 0),
        Polygon([(0, 0), (1, 0), (1, 1)]),
        Polygon([(0, 0), (2, 0), (2.5, 1), (0.5, 1)]),
        Polygon([(0, 0), (0.0001, 0), (0.0001, 1), (0, 1)]),
    ],
)
def test_what_is_no_rectangle_is_not_taken_for_one(shape):
    assert rectangle_of(shape) is None


@given(st.lists(rectangles, max_size=5))
def test_many_outlines_at_once_are_those_of_each(some):
    assert list(outlines(some)) == [rectangle.outline() for rectangle in some]


@pytest.mark.parametrize(
    "wrong",
    [
        {"width": 0.0},
        {"length": -1.0},
        {"east": math.nan},
        {"bearing_deg": math.inf},
    ],
)
def test_a_rectangle_that_cannot_be_is_refused(wrong):
    with pytest.raises(ValueError, match="a rectangle needs"):
        Rectangle(**{"east": 0.0, "north": 0.0, "width": 1.0, "length": 1.0} | wrong)


def test_a_head_line_without_length_makes_no_rectangle():
    with pytest.raises(ValueError, match="without length"):
        on_head_line((1, 1), (1, 1), 2.0)
