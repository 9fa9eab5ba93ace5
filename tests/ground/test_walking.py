"""The way on foot to a grave: lengths worked out by hand."""

from math import hypot

import numpy as np
import pytest
import shapely

from plan_editor.ground.path_network import path_network
from plan_editor.ground.walked import OUTSIDE_COUNTS, walked
from plan_editor.ground.walking import CLOSED_OFF, NO_BOUNDARY, NO_GATE, OVER_GRASS, way_to
from plan_editor.ground.walking_ground import walking_ground
from plan_editor.kinds import boundary, building, cordon, gate, grave, path, wall, well
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of


def _gate(east, north, name="Lychgate", **details):
    return new_item(
        gate.KIND, shapely.Point(east, north), details=gate.GateDetails(name=name, **details)
    )


def _path(*places, name="Main path", width_m=1.5):
    return new_item(
        path.KIND,
        shapely.LineString(places),
        details=path.PathDetails(name=name, width_m=width_m),
    )


def _area(box, name="Forecourt"):
    return new_item(path.KIND, box, details=path.PathDetails(name=name))


def _grave(east, north):
    return new_item(grave.KIND, shapely.box(east - 0.4, north - 1, east + 0.4, north + 1))


def _way(*items, to, closed=()):
    return way_to(plan_of([*items, to]), to.id, closed)


def _names(way):
    return [leg.path and leg.path.details.name for leg in way.legs]


def test_a_way_goes_along_the_path_and_then_over_the_grass():
    way = _way(_gate(0, 0), _path((0, 0), (0, 30)), to=_grave(3, 20))
    assert _names(way) == ["Main path", None]
    # three metres of path for one of grass: it leaves the path a metre early, at a place of it
    along, over = (leg.length_m for leg in way.legs)
    assert along == pytest.approx(18.0)
    assert over == pytest.approx(hypot(3, 2))
    assert way.length_m == pytest.approx(along + over)
    assert way.gate.details.name == "Lychgate"
    assert way.assumed == (OVER_GRASS,)
    assert way.places[0].tolist() == [0, 0]
    assert way.places[-1].tolist() == [3, 20]


def test_a_way_turns_from_one_path_into_another_where_they_cross():
    items = (_gate(0, 0), _path((0, 0), (0, 30)), _path((-10, 20), (40, 20), name="East path"))
    way = _way(*items, to=_grave(30, 20))
    assert _names(way) == ["Main path", "East path"]
    assert [leg.length_m for leg in way.legs] == pytest.approx([20.0, 30.0])
    assert way.assumed == ()


def test_paths_whose_ends_do_not_quite_touch_meet():
    items = (_gate(0, 0), _path((0, 0), (0, 30)), _path((1.2, 20), (40, 20), name="East path"))
    way = _way(*items, to=_grave(30, 20))
    assert _names(way) == ["Main path", "East path"]
    assert way.length_m == pytest.approx(50.0)


def test_paths_far_apart_are_walked_between_over_the_grass():
    items = (_gate(0, 0), _path((0, 0), (0, 20)), _path((10, 20), (60, 20), name="East path"))
    way = _way(*items, to=_grave(60, 20))
    assert _names(way) == ["Main path", None, "East path"]
    # it leaves the first at one of the places on it, two metres apart
    assert way.length_m == pytest.approx(16 + hypot(10, 4) + 50)


def test_a_path_round_the_church_closes_on_itself():
    ring = _path((10, 10), (30, 10), (30, 30), (10, 30), (10, 10), name="Round the church")
    way = _way(_gate(10, 10), ring, to=_grave(10, 30))
    assert way.length_m == pytest.approx(20.0)


def test_a_path_drawn_as_an_area_is_walked_within_it():
    bent = shapely.union_all([shapely.box(0, 0, 3, 30), shapely.box(0, 27, 40, 30)])
    way = _way(_gate(1.5, 1.0), _area(bent), to=_grave(38, 28.5))
    places = shapely.points(way.places)
    assert shapely.covers(shapely.buffer(bent, 0.01), places).all()
    # between the inner corner cut close and the middle line
    assert hypot(1.5, 26) + hypot(35, 1.5) < way.length_m < 27.5 + 38.5


def test_an_area_and_a_line_that_meet_are_one_way():
    items = (_gate(0, 0), _path((0, 0), (0, 20)), _area(shapely.box(-5, 20, 25, 24)))
    way = _way(*items, to=_grave(24, 22))
    assert [n for n in _names(way) if n] == ["Main path", "Forecourt"]


def test_two_areas_side_by_side_are_one_way():
    items = (_area(shapely.box(0, 0, 4, 20), "A"), _area(shapely.box(4.3, 16, 30, 20), "B"))
    way = _way(_gate(2, 0.5), *items, to=_grave(29, 18))
    assert [n for n in _names(way) if n] == ["A", "B"]


def test_a_way_over_the_grass_goes_round_a_building():
    church = new_item(building.KIND, shapely.box(5, -10, 15, 4))
    way = _way(_gate(0, 0), church, to=_grave(20, 0))
    # by two corners, each passed at 0.3 m
    assert way.length_m == pytest.approx(2 * hypot(4.7, 4.3) + 10.6, abs=0.01)
    line = shapely.LineString(way.places)
    assert shapely.distance(line, church.shape) == pytest.approx(0.3, abs=0.01)


def test_a_cordon_across_a_path_is_gone_round():
    shut = new_item(cordon.KIND, shapely.box(-2, 8, 2, 12))
    way = _way(_gate(0, 0), _path((0, 0), (0, 30)), shut, to=_grave(0, 30))
    assert _names(way) == ["Main path", None, "Main path"]
    assert not shapely.intersects(shapely.LineString(way.places), shut.shape)


def test_ground_that_is_kept_off_is_gone_round_too():
    way = _way(_gate(0, 0), to=_grave(0, 20), closed=[shapely.Point(0, 10).buffer(2.0)])
    # two tangents and an arc of 2.3 m; the outline has corners, so it is a little longer
    reach = 2.3
    tangent = hypot(10, 0) ** 2 - reach**2
    arc = reach * 2 * np.arcsin(reach / 10)
    assert way.length_m == pytest.approx(2 * tangent**0.5 + arc, rel=0.005)


def test_a_grave_within_a_cordon_is_come_near():
    shut = new_item(cordon.KIND, shapely.box(-3, 17, 3, 23))
    way = _way(_gate(0, 0), shut, to=_grave(0, 20))
    assert CLOSED_OFF in way.assumed
    assert shapely.distance(shapely.Point(way.places[-1]), shut.shape) == pytest.approx(0.3)


def test_a_wall_is_passed_by_its_gate_only():
    between = new_item(wall.KIND, shapely.LineString([(-20, 10), (20, 10)]))
    way = _way(_gate(0, 10), between, to=_grave(5, 20))
    assert way.length_m == pytest.approx(hypot(5, 10))
    closed = new_item(
        wall.KIND, shapely.LineString([(0, 15), (10, 15), (10, 25), (0, 25), (0, 15)])
    )
    assert _way(_gate(0, 10), between, closed, to=_grave(5, 20)) is None


def test_a_path_through_a_wall_is_an_opening():
    between = new_item(wall.KIND, shapely.LineString([(-20, 10), (20, 10)]))
    way = _way(_gate(0, 0), _path((0, 0), (0, 30)), between, to=_grave(0, 30))
    assert way.length_m == pytest.approx(30.0)


def test_a_point_that_is_in_the_way_has_some_size():
    hole = new_item(well.KIND, shapely.Point(0, 10))
    way = _way(_gate(0, 0), hole, to=_grave(0, 20))
    assert shapely.distance(shapely.LineString(way.places), hole.shape) > 0.5


def test_the_gate_is_the_one_that_is_best_for_it_and_open():
    gates = (_gate(0, 0), _gate(40, 0, "East gate"))
    assert _way(*gates, to=_grave(35, 5)).gate.details.name == "East gate"
    locked = (_gate(0, 0), _gate(40, 0, "East gate", locked=True))
    assert _way(*locked, to=_grave(35, 5)).gate.details.name == "Lychgate"
    assert _way(locked[1], to=_grave(35, 5)).gate.details.name == "East gate"


def test_a_gate_drawn_from_post_to_post_is_entered_in_its_middle():
    wide = new_item(gate.KIND, shapely.LineString([(-2, 0), (2, 0)]))
    assert _way(wide, to=_grave(0, 20)).places[0].tolist() == [0, 0]


def test_without_a_gate_a_way_begins_at_the_boundary():
    ground = new_item(boundary.KIND, shapely.box(0, 0, 40, 30))
    way = _way(ground, to=_grave(20, 4))
    assert way.gate is None
    assert NO_GATE in way.assumed
    assert way.length_m == pytest.approx(4.0)
    line = new_item(boundary.KIND, shapely.LineString([(0, 0), (40, 0)]))
    assert _way(line, to=_grave(20, 4)).length_m == pytest.approx(4.0)


def test_without_a_boundary_a_way_begins_at_the_end_of_a_path():
    way = _way(_path((0, 0), (0, 30)), to=_grave(0, 30))
    assert NO_BOUNDARY in way.assumed
    assert way.length_m == pytest.approx(30.0)


def test_a_step_across_from_one_end_of_a_bend_to_the_other_is_no_path_of_its_own():
    bend = _path((0, 0), (0, 10), (20, 10), (20, 10.9), (0, 10.9), (0, 30))
    step = _path((0, 10), (0, 10.9), name="Step")
    assert _names(_way(_gate(0, 0), bend, step, to=_grave(0, 30))) == ["Main path"]


def test_a_grave_at_the_gate_is_a_step_away():
    way = _way(_gate(0, 0), to=_grave(0.5, 0))
    assert len(way.legs) == 1
    assert way.length_m == pytest.approx(0.5)


def test_where_nothing_is_drawn_there_is_no_way():
    assert _way(to=_grave(0, 20)) is None


def test_a_plan_without_paths_has_an_empty_network():
    found = path_network(plan_of([]))
    assert len(found.places) == len(found.ends) == 0


def test_lengths_between_places_go_round_what_is_in_the_way():
    church = new_item(building.KIND, shapely.box(5, -10, 15, 4))
    ground = walking_ground(plan_of([church]))
    places = np.array([(0.0, 0.0), (20.0, 0.0), (0.0, 10.0)])
    found = walked(ground, places)
    assert found[0, 1] == found[1, 0] == pytest.approx(2 * hypot(4.7, 4.3) + 10.6, abs=0.01)
    assert found[0, 2] == pytest.approx(10.0)
    assert np.diag(found).tolist() == [0, 0, 0]


def test_lengths_between_places_in_open_ground_are_straight():
    found = walked(walking_ground(plan_of([])), np.array([(0.0, 0.0), (3.0, 4.0)]))
    assert found.tolist() == [[0, 5], [5, 0]]


def test_one_place_is_no_distance_from_itself():
    ground = walking_ground(plan_of([new_item(building.KIND, shapely.box(5, 5, 9, 9))]))
    assert walked(ground, np.array([(0.0, 0.0)])).tolist() == [[0]]


def test_a_place_walled_in_counts_as_far_away():
    ring = new_item(wall.KIND, shapely.LineString(shapely.box(5, 5, 15, 15).exterior))
    found = walked(walking_ground(plan_of([ring])), np.array([(0.0, 10.0), (10.0, 10.0)]))
    assert found[0, 1] == pytest.approx(10 * OUTSIDE_COUNTS)
