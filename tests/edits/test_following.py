"""What hangs on a point goes with it."""

from math import cos, radians, sin

import pytest
import shapely
from shapely import LineString, Point, Polygon, box

from plan_editor.edits.following import Moved, followed
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, boundary, grave, mark, tree, wall
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of

STEP = Moved((10.0, 20.0), (10.3, 20.4))


def test_every_corner_within_a_millimetre_goes_along_and_no_other():
    line = new_item(wall.KIND, LineString([(0, 0), (10.001, 20), (30, 20)]))
    far = new_item(wall.KIND, LineString([(0, 0), (10.002, 20), (30, 20)]))
    found = followed(plan_of([line, far]), (STEP,))
    assert shapely.get_coordinates(found[line.id].shape).tolist() == [
        [0, 0],
        [10.3, 20.4],
        [30, 20],
    ]
    assert set(found) == {line.id}


def test_an_outline_stays_closed_where_it_begins_at_the_point():
    yard = new_item(boundary.KIND, Polygon([(10, 20), (30, 20), (30, 40), (10, 40)]))
    (after,) = followed(plan_of([yard]), (STEP,)).values()
    ring = shapely.get_coordinates(after.shape).tolist()
    assert ring[0] == ring[-1] == [10.3, 20.4]
    assert [30.0, 20.0] in ring


def test_a_rectangle_with_one_corner_on_the_point_is_shifted():
    plot = new_item(grave.KIND, Rectangle(east=10, north=20, width=1.2, length=2.7))
    (after,) = followed(plan_of([plot]), (STEP,)).values()
    assert after.rectangle == Rectangle(east=10.3, north=20.4, width=1.2, length=2.7)


@pytest.mark.parametrize("degrees", [0.0, 0.5, -30.0, 180.0])
def test_a_rectangle_with_two_is_shifted_and_turned_and_keeps_its_sides(degrees):
    plot = Rectangle(east=10, north=20, width=1.2, length=2.7)
    start, end, *_ = plot.corners()
    turn = radians(degrees)
    there = (11.0 + 1.2 * sin(turn), 19.0 + 1.2 * cos(turn))
    moves = (Moved(start, (11.0, 19.0)), Moved(end, there))
    item = new_item(grave.KIND, plot)
    (after,) = followed(plan_of([item]), moves).values()
    found = after.rectangle
    assert found is not None
    assert (found.width, found.length) == (1.2, 2.7)
    assert found.corners()[0] == pytest.approx((11.0, 19.0), abs=0.0015)
    assert found.corners()[1] == pytest.approx(there, abs=0.0015)


def test_two_corners_that_no_longer_fit_are_fitted_best():
    plot = Rectangle(east=0, north=0, width=1.0, length=2.0)
    moves = (Moved((0, 0), (0, -0.1)), Moved((0, 1), (0, 1.1)))
    (after,) = followed(plan_of([new_item(grave.KIND, plot)]), moves).values()
    assert after.rectangle == plot


def test_base_plans_and_what_is_to_stay_do_not_follow():
    laid = new_item(base_plan.KIND, box(10, 20, 30, 40))
    held = new_item(mark.KIND, Point(10, 20))
    free = new_item(tree.KIND, Point(10, 20))
    found = followed(plan_of([laid, held, free]), (STEP,), staying=frozenset({held.id}))
    assert set(found) == {free.id}
    assert found[free.id].shape == Point(10.3, 20.4)


def test_nothing_follows_where_nothing_moves_or_nothing_is():
    assert followed(plan_of([new_item(tree.KIND, Point(10, 20))]), ()) == {}
    assert followed(plan_of([]), (STEP,)) == {}


def test_what_would_cross_itself_is_refused_by_name():
    yard = new_item(boundary.KIND, Polygon([(10, 20), (30, 20), (30, 40), (10, 40)]))
    with pytest.raises(EditRefused, match="Boundary hangs on a point that would move"):
        followed(plan_of([yard]), (Moved((10.0, 20.0), (40.0, 30.0)),))
