"""What stops a tape between a mark and a place."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from yards import yard

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.sights import obstacles, seen
from plan_editor.kinds import building, fence, hedge, tree, wall
from plan_editor.plan.item import Status, new_item

CHURCH = shapely.box(10, 10, 20, 16)
ROUND = np.array([(5.0, 13.0), (15.0, 20.0), (25.0, 13.0), (15.0, 5.0)])


def _sees(station, place, *items):
    past = obstacles(yard(more=items))
    return bool(seen(np.array([station]), np.array([place]), 30.0, past)[0, 0])


def test_a_tape_does_not_go_through_a_church():
    past = obstacles(yard(church=CHURCH))
    reached = seen(np.array([(5.0, 13.0)]), ROUND, 30.0, past)[:, 0]
    assert reached.tolist() == [True, True, False, True]


def test_a_tape_reaches_no_farther_than_it_is_long():
    past = obstacles(yard())
    reached = seen(np.array([(0.0, 0.0)]), np.array([(30.0, 0.0), (30.01, 0.0)]), 30.0, past)
    assert reached[:, 0].tolist() == [True, False]


@pytest.mark.parametrize("off", [0.0, 0.05, -0.05])
def test_a_mark_on_the_corner_of_a_church_sees_along_both_its_walls(off):
    # on the corner, or a hand's breadth within or without: no outline is drawn truer
    church = new_item(building.KIND, CHURCH)
    at = (10.0 + off, 10.0 + off)
    for place, seen_from in (
        ((25.0, 10.0), True),
        ((10.0, 25.0), True),
        ((2.0, 2.0), True),
        ((25.0, 25.0), False),
        ((14.0, 25.0), False),
    ):
        assert _sees(at, place, church) is seen_from, place


@pytest.mark.parametrize(
    ("height", "stops"), [(1.2, False), (1.5, False), (1.6, True), (None, True)]
)
@pytest.mark.parametrize(
    ("kind", "details"), [(wall, wall.WallDetails), (hedge, hedge.HedgeDetails)]
)
def test_a_wall_or_hedge_stops_a_tape_that_cannot_be_held_over_it(kind, details, height, stops):
    line = shapely.LineString([(0, 10), (40, 10)])
    item = new_item(kind.KIND, line, details=details(height_m=height))
    assert _sees((5, 5), (5, 15), item) is not stops
    assert _sees((5, 5), (15, 5), item)
    outline = item.at(shapely.box(0, 9.8, 40, 10.2))
    assert _sees((5, 5), (5, 15), outline) is not stops


def test_from_the_end_of_a_wall_both_its_sides_are_seen():
    high = new_item(wall.KIND, shapely.LineString([(0, 10), (20, 10)]))
    assert _sees((20, 10), (10, 5), high)
    assert _sees((20, 10), (10, 15), high)
    assert not _sees((10, 9.8), (10, 15), high)


def test_walls_without_a_recorded_height_are_counted():
    line = shapely.LineString([(0, 10), (40, 10)])
    low = new_item(wall.KIND, line, details=wall.WallDetails(height_m=1.0))
    past = obstacles(yard(more=[new_item(wall.KIND, line), new_item(hedge.KIND, line), low]))
    assert past.untold == 2
    assert len(past.shapes) == 2


def test_what_is_only_proposed_stops_nothing_and_trees_and_fences_never_do():
    line = shapely.LineString([(0, 10), (40, 10)])
    proposed = replace(new_item(wall.KIND, line), status=Status.PROPOSED)
    others = (new_item(fence.KIND, line), new_item(tree.KIND, shapely.Point(5, 10)))
    assert _sees((5, 5), (5, 15), proposed, *others)
    going = replace(new_item(wall.KIND, line), status=Status.TO_BE_REMOVED)
    assert not _sees((5, 5), (5, 15), going)


def test_a_shed_thinner_than_a_tapes_doubt_stops_nothing():
    shed = new_item(building.KIND, Rectangle(east=4, north=10, width=5, length=0.15).outline())
    assert obstacles(yard(more=[shed])).shapes == ()
