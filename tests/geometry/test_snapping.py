"""What a pointer catches, against places worked out by hand and by shapely."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Point, Polygon

from plan_editor.geometry.snapping import Snap, SnapKind, snap

GRAVE = Polygon([(0, 0), (2.4, 0), (2.4, 1.2), (0, 1.2)])
PATH = LineString([(-5, 0.5), (5, 0.5)])

coordinate = st.integers(-100, 100).map(lambda n: n / 10)
place = st.tuples(coordinate, coordinate)
line = st.lists(place, min_size=2, max_size=5, unique=True).map(LineString)


def at(east, north, shapes=(GRAVE, PATH), reach=0.1, **more):
    return snap(shapes, at=(east, north), reach=reach, **more)


@pytest.mark.parametrize(
    ("east", "north", "caught"),
    [
        (2.35, 1.25, Snap(east=2.4, north=1.2, what=SnapKind.CORNER, index=0)),
        (-4.95, 0.52, Snap(east=-5.0, north=0.5, what=SnapKind.CORNER, index=1)),
        (2.37, 0.45, Snap(east=2.4, north=0.5, what=SnapKind.CROSSING, index=0)),
        (1.25, 0.04, Snap(east=1.2, north=0.0, what=SnapKind.MIDDLE, index=0)),
        (0.7, 1.25, Snap(east=0.7, north=1.2, what=SnapKind.EDGE, index=0)),
        (-3.0, 0.45, Snap(east=-3.0, north=0.5, what=SnapKind.EDGE, index=1)),
    ],
)
def test_the_most_wanted_thing_in_reach_is_caught(east, north, caught):
    found = at(east, north)
    assert found is not None
    assert (found.what, found.index) == (caught.what, caught.index) or (
        # two edges meet at a crossing: either may be named
        caught.what is found.what is SnapKind.CROSSING
    )
    assert (found.east, found.north) == pytest.approx((caught.east, caught.north), abs=1e-12)


def test_nothing_in_reach_is_nothing():
    assert at(1.2, 0.25) is None
    assert snap([], at=(0.0, 0.0), reach=1.0) is None
    assert snap([Polygon()], at=(0.0, 0.0), reach=1.0) is None


def test_a_corner_wins_over_a_nearer_edge():
    found = at(2.4, 1.11)
    assert found is not None
    assert found.what is SnapKind.CORNER


def test_the_nearest_of_two_corners_is_caught():
    found = snap([Point(0, 0), Point(0.3, 0)], at=(0.2, 0.0), reach=1.0)
    assert found == Snap(east=0.3, north=0.0, what=SnapKind.CORNER, index=1)


def test_a_perpendicular_from_the_start_is_dropped_where_the_pointer_is():
    found = at(0.72, 1.17, start=(0.7, 5.0))
    assert found == Snap(east=0.7, north=1.2, what=SnapKind.FOOT, index=0)
    beyond = at(0.72, 1.17, start=(9.0, 5.0))
    assert beyond is not None
    assert beyond.what is SnapKind.EDGE


def test_the_edge_of_a_hole_is_an_edge_and_rings_are_not_joined():
    holed = Polygon(GRAVE.exterior, [[(1, 0.4), (1.4, 0.4), (1.4, 0.8), (1, 0.8)]])
    found = snap([holed], at=(1.1, 0.41), reach=0.02)
    assert found == Snap(east=1.1, north=0.4, what=SnapKind.EDGE, index=0)
    # half way between the end of the outer ring and the start of the inner one
    assert snap([holed], at=(0.4, 0.16), reach=0.02) is None


def test_parts_of_one_shape_are_not_joined():
    far = Polygon([(10, 0), (11, 0), (11, 1)])
    both = MultiPolygon([GRAVE, far])
    assert snap([both], at=(5.0, 0.0), reach=0.1) is None
    found = snap([PATH, both], at=(10.02, 0.02), reach=0.1)
    assert found == Snap(east=10.0, north=0.0, what=SnapKind.CORNER, index=1)


def test_an_edge_without_length_does_no_harm():
    doubled = LineString([(0, 0), (0, 0), (4, 0)])
    found = snap([doubled], at=(1.0, 0.05), reach=0.1)
    assert found == Snap(east=1.0, north=0.0, what=SnapKind.EDGE, index=0)


@given(st.lists(line, min_size=1, max_size=6), place, st.floats(0.0, 3.0))
def test_something_is_caught_exactly_where_a_shape_is_in_reach(lines, point, reach):
    found = snap(lines, at=(point[0], point[1]), reach=reach)
    pointer = Point(point)
    away = [shape.distance(pointer) for shape in lines]
    if found is None:
        assert min(away) > reach - 1e-9
    else:
        assert min(away) <= reach + 1e-9
        caught = Point(found.east, found.north)
        assert caught.distance(pointer) <= reach + 1e-9
        assert caught.distance(lines[found.index]) < 1e-9


@given(line, line, place)
def test_a_crossing_in_reach_is_where_shapely_finds_it(one, other, point):
    if one.intersection(other).geom_type != "Point":
        return
    crossing = shapely.get_coordinates(one.intersection(other))[0]
    found = snap([one, other], at=(crossing[0], crossing[1]), reach=1e-6)
    assert found is not None
    assert found.what in {SnapKind.CORNER, SnapKind.CROSSING}


@given(st.lists(line, min_size=1, max_size=4), place)
def test_the_sort_that_is_caught_has_no_more_wanted_sort_in_reach(lines, point):
    reach = 1.0
    found = snap(lines, at=(point[0], point[1]), reach=reach)
    pointer = Point(point)
    corner = min(Point(c).distance(pointer) for c in shapely.get_coordinates(lines))
    if corner <= reach:
        assert found is not None
        assert found.what is SnapKind.CORNER
        assert Point(found.east, found.north).distance(pointer) == pytest.approx(corner)
    elif found is not None:
        assert found.what is not SnapKind.CORNER


ROW = LineString([(0.0, 4.0), (1.0, 4.0)])
ACROSS = LineString([(3.0, 3.0), (3.0, 3.5)])


def test_an_axis_is_caught_along_it_but_not_at_its_ends():
    found = snap([PATH], at=(0.96, 4.04), reach=0.1, axes=[ROW])
    assert found == Snap(east=0.96, north=4.0, what=SnapKind.AXIS, index=1)


def test_things_are_caught_before_an_axis_and_an_axis_where_no_thing_is():
    found = snap([PATH], at=(1.0, 0.53), reach=0.1, axes=[LineString([(0, 0.55), (9, 0.55)])])
    assert found == Snap(east=1.0, north=0.5, what=SnapKind.EDGE, index=0)
    assert snap([PATH], at=(1.0, 4.5), reach=0.1, axes=[ROW]) is None


def test_where_axes_cross_an_edge_or_each_other_is_a_crossing():
    post = LineString([(0.5, 3.0), (0.5, 6.0)])
    found = snap([post], at=(0.55, 4.05), reach=0.1, axes=[ROW])
    assert found == Snap(east=0.5, north=4.0, what=SnapKind.CROSSING, index=1)
    long = LineString([(0.0, 3.2), (9.0, 3.2)])
    both = snap([], at=(3.04, 3.22), reach=0.1, axes=[long, ACROSS])
    assert both is not None
    assert both.what is SnapKind.CROSSING
    assert (both.east, both.north) == pytest.approx((3.0, 3.2))


def test_an_axis_that_crosses_at_a_glance_makes_no_crossing():
    nearly = LineString([(0.0, 3.99), (9.0, 4.05)])
    found = snap([], at=(1.5, 4.0), reach=0.1, axes=[LineString([(0, 4), (9, 4)]), nearly])
    assert found is not None
    assert found.what is SnapKind.AXIS
