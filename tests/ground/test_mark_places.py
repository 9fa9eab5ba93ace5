"""Where a permanent mark can be, and how that is told."""

from dataclasses import replace

import pytest
import shapely
from yards import yard

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.mark_places import mark_places
from plan_editor.kinds import building, fence, gate, tree, wall
from plan_editor.plan.item import Status, new_item

GROUND = shapely.box(0, 0, 40, 30)


def _told(*items):
    return {(p.east, p.north): p.words for p in mark_places(yard(more=items), GROUND)}


def test_the_corners_of_a_church_are_told_by_the_compass():
    church = new_item(
        building.KIND,
        shapely.box(10, 10, 30, 16),
        details=building.BuildingDetails(name="St Elfric"),
    )
    assert _told(church) == {
        (10.0, 10.0): "SW corner of building St Elfric",
        (10.0, 16.0): "NW corner of building St Elfric",
        (30.0, 16.0): "NE corner of building St Elfric",
        (30.0, 10.0): "SE corner of building St Elfric",
    }


def test_where_an_outline_hardly_turns_there_is_no_corner():
    # the point in the middle of the north wall stands out by a hand
    hall = shapely.Polygon([(5, 5), (15, 5), (15, 15), (10, 15.1), (5, 15)])
    assert len(_told(new_item(building.KIND, hall))) == 4


def test_both_parts_of_a_building_have_corners():
    parts = shapely.MultiPolygon([shapely.box(5, 5, 9, 9), shapely.box(20, 5, 24, 9)])
    assert len(_told(new_item(building.KIND, parts))) == 8


def test_a_wall_has_ends_and_corners_and_is_told_by_the_side_it_stands_on():
    along = new_item(wall.KIND, shapely.LineString([(2, 2), (38, 2), (38, 20)]))
    assert _told(along) == {
        (2.0, 2.0): "SW end of the wall on the south side",
        (38.0, 20.0): "NE end of the wall on the south side",
        (38.0, 2.0): "corner of the wall on the south side",
    }
    short = new_item(wall.KIND, shapely.LineString([(18, 15), (22, 15)]))
    assert _told(short)[(18.0, 15.0)] == "W end of the wall in the middle"


def test_a_wall_that_closes_has_corners_only():
    pound = shapely.LineString([(2, 2), (8, 2), (8, 8), (2, 8), (2, 2)])
    told = _told(new_item(wall.KIND, pound))
    assert len(told) == 4
    assert all(words.startswith("corner") for words in told.values())


def test_a_wall_drawn_by_its_outline_has_corners():
    thick = new_item(wall.KIND, Rectangle(east=5, north=5, width=9, length=2).outline())
    assert len(_told(thick)) == 4


def test_a_gate_has_two_posts_and_a_railing_too():
    told = _told(
        new_item(
            gate.KIND,
            shapely.LineString([(10, 0.5), (11, 0.5)]),
            details=gate.GateDetails(name="East gate"),
        ),
        new_item(
            fence.KIND,
            shapely.LineString([(39, 2), (39, 25)]),
            details=fence.FenceDetails(sort=fence.FenceSort.RAILING),
        ),
    )
    assert told == {
        (10.0, 0.5): "W post of the East gate",
        (11.0, 0.5): "E post of the East gate",
        (39.0, 2.0): "S post of the fence on the east side",
        (39.0, 25.0): "N post of the fence on the east side",
    }


def test_wooden_fences_trees_and_what_is_not_there_for_good_bear_no_marks():
    line = shapely.LineString([(2, 2), (20, 2)])
    going = replace(new_item(wall.KIND, line), status=Status.TO_BE_REMOVED)
    one_point = new_item(gate.KIND, shapely.Point(5, 5))
    others = (new_item(fence.KIND, line), new_item(tree.KIND, shapely.Point(9, 9)))
    assert _told(going, one_point, *others) == {}


@pytest.mark.parametrize(("north", "counts"), [(-0.5, True), (-1.5, False)])
def test_what_stands_just_outside_the_boundary_may_bear_a_mark(north, counts):
    outside = new_item(wall.KIND, shapely.LineString([(2, north), (20, north)]))
    assert bool(_told(outside)) is counts
