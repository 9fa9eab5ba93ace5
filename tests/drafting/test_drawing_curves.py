"""Drawing beyond straight corners: arcs, edges, circles, right angles, parallels, facings."""

from collections.abc import Iterable
from dataclasses import replace
from math import hypot, pi

import pytest
from shapely import LineString, Point, Polygon, box

from plan_editor.drafting.squared import squared
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting, tools
from plan_editor.drafting.tools import draw
from plan_editor.drafting.touched import touched, way_here
from plan_editor.edits.basic import Add
from plan_editor.edits.holes import CutHole
from plan_editor.geometry.arcs import SAGITTA
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    bench,
    boundary,
    building,
    fence,
    grass,
    grave,
    notice_board,
    path,
    tree,
    wall,
    well,
    zone,
)
from plan_editor.plan.document import Document
from plan_editor.plan.item import Method, new_item
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.plan import Plan, plan_of

EMPTY = Plan()


def press(east: float, north: float, *hits, **more) -> Pointer:
    return Pointer(
        act=Act.PRESS, east=east, north=north, hits=tuple(h.id for h in hits), **more
    )


def move(east: float, north: float, **more) -> Pointer:
    return Pointer(act=Act.MOVE, east=east, north=north, **more)


def take(offer: str, east: float = 0.0, north: float = 0.0) -> Pointer:
    return Pointer(act=Act.TAKE, offer=offer, east=east, north=north)


def fill(east: float = 0.0, north: float = 0.0, **filled: str) -> Pointer:
    return Pointer(act=Act.FILL, east=east, north=north, filled=tuple(filled.items()))


def act(which: Act, east: float = 0.0, north: float = 0.0) -> Pointer:
    return Pointer(act=which, east=east, north=north)


ENTER, BACK, CANCEL = act(Act.FINISH), act(Act.BACK), act(Act.CANCEL)


def drawn(
    kind: Kind, pointers: Iterable[Pointer], plan: Plan = EMPTY, form: Form | None = None
) -> Answer:
    answer = draw.TOOL.start(Setting(kind=kind, form=form))
    for pointer in pointers:
        answer = answer.tool.take(pointer, plan)
    return answer


def item(answer: Answer):
    assert isinstance(answer.edit, Add), answer.prompt
    (only,) = answer.edit.items
    return only


def offers(answer: Answer) -> dict[str, bool]:
    return {o.name: o.on for o in answer.offers}


# arcs


def test_a_path_edge_is_curved_by_an_arc_through_three_places():
    half = [press(0, 0), take("arc"), press(1, 1), move(1.5, 0.5), press(2, 0), ENTER]
    line = item(drawn(path.KIND, half, form=Form.LINE)).shape
    assert line.coords[0] == (0, 0)
    assert line.coords[-1] == (2, 0)
    # half a circle of radius 1 about (1, 0): its chords fall short by the stated sagitta
    assert pi * (1 - SAGITTA) <= line.length <= pi
    assert all(hypot(e - 1, n) == pytest.approx(1.0, abs=0.001) for e, n in line.coords)


def test_an_area_has_straight_and_curved_sides():
    # a square of 4 with half a circle of radius 2 on its top
    corners = [press(0, 0), press(4, 0), press(4, 4), take("arc"), press(2, 6), press(0, 4)]
    shape = item(drawn(building.KIND, [*corners, ENTER])).shape
    assert shape.area == pytest.approx(16 + 2 * pi, rel=0.002)
    assert shape.area < 16 + 2 * pi


def test_a_line_that_an_arc_brought_back_to_its_start_ends_with_a_second_click_there():
    back = [press(0, 0), press(10, 0), take("arc"), press(12, 5), press(0, 0), press(0, 0)]
    line = item(drawn(path.KIND, back, form=Form.LINE)).shape
    assert line.is_ring
    assert len(set(line.coords)) == len(line.coords) - 1


def test_places_in_a_line_make_a_straight_side():
    straight = [press(0, 0), take("arc"), press(1, 0), press(2, 0), ENTER]
    assert list(item(drawn(fence.KIND, straight)).shape.coords) == [(0, 0), (2, 0)]


def test_a_step_back_takes_a_whole_arc_out():
    begun = [press(0, 0), press(1, 0), take("arc"), press(2, 1), press(3, 0)]
    assert len(drawn(fence.KIND, begun).tool.corners) > 10
    assert drawn(fence.KIND, [*begun, BACK]).tool.corners == ((0, 0), (1, 0))


def test_an_arc_can_be_given_up_a_step_at_a_time():
    begun = [press(0, 0), press(1, 0), take("arc"), press(2, 1)]
    arc_from = drawn(fence.KIND, [*begun, BACK])
    assert offers(arc_from) == {"arc": True}
    assert drawn(fence.KIND, [*begun, BACK, BACK]).tool.corners == ((0, 0), (1, 0))
    assert drawn(fence.KIND, [*begun, take("arc")]).tool.corners == ((0, 0), (1, 0))
    for count in (3, 4):
        assert drawn(fence.KIND, [*begun[:count], CANCEL]).tool == drawn(fence.KIND, []).tool


def test_enter_while_an_arc_is_asked_for_ends_the_line_without_it():
    ended = drawn(fence.KIND, [press(0, 0), press(1, 0), take("arc"), ENTER])
    assert list(item(ended).shape.coords) == [(0, 0), (1, 0)]


def test_an_arc_shows_its_radius_and_waits_where_two_places_are_the_same():
    begun = [press(0, 0), take("arc"), press(0, 0)]
    assert "somewhere in its middle" in drawn(fence.KIND, begun).prompt
    through = [press(0, 0), take("arc"), move(1, 1), press(1, 1)]
    waiting = drawn(fence.KIND, [*through, press(1, 1)])
    assert waiting.prompt == "Click where the arc ends"
    assert drawn(fence.KIND, [*through, move(2, 0)]).figures[0].startswith("radius 1.00 m (3'")
    assert drawn(fence.KIND, [*through, move(2, 2)]).figures[0].startswith("2.83 m")


# right angles


def test_with_the_key_held_a_side_is_square_to_the_last_or_in_line_with_it():
    # the first side runs 3-4-5: what follows is square to it
    begun = [press(0, 0), press(3, 4)]
    answer = drawn(fence.KIND, [*begun, press(-1, 7.2, straight=True)])
    e, n = answer.tool.corners[-1]
    assert (e - 3) * 3 + (n - 4) * 4 == pytest.approx(0.0)
    in_line = drawn(fence.KIND, [*begun, press(6.1, 7.9, straight=True)]).tool.corners[-1]
    assert in_line[0] * 4 - in_line[1] * 3 == pytest.approx(0.0)


def test_the_first_side_keeps_to_grid_north_or_to_the_side_where_it_begins():
    north = drawn(fence.KIND, [press(0, 0), press(0.3, 5, straight=True)])
    assert north.tool.corners == ((0, 0), (0, 5))
    slanting = new_item(wall.KIND, LineString([(0, 0), (3, 4)]))
    plan = plan_of([slanting])
    begun = [press(1.5, 2.0, slanting), press(-2.4, 5.1, straight=True)]
    e, n = drawn(fence.KIND, begun, plan).tool.corners[-1]
    assert (e - 1.5) * 3 + (n - 2.0) * 4 == pytest.approx(0.0)


def test_the_lock_can_be_switched_on_and_the_key_lifts_it():
    locked = [press(0, 0), take("square", 1, 1)]
    assert offers(drawn(fence.KIND, locked))["square"]
    assert drawn(fence.KIND, [*locked, press(5, 1)]).tool.corners[-1] == (5, 0)
    assert drawn(fence.KIND, [*locked, press(5, 1, straight=True)]).tool.corners[-1] == (5, 1)
    assert drawn(fence.KIND, [*locked, press(5, 1, typed=True)]).tool.corners[-1] == (5, 1)
    assert drawn(fence.KIND, [*locked, move(5, 1)]).toward == (5, 0)
    assert not offers(drawn(fence.KIND, [*locked, take("square")]))["square"]


def test_after_an_arc_the_next_side_goes_on_as_the_arc_arrives():
    # half a circle arrives due south
    begun = [press(0, 0), take("arc"), press(1, 1), press(2, 0), press(2.2, -3, straight=True)]
    assert drawn(fence.KIND, begun).tool.corners[-1] == pytest.approx((2, -3))


def test_a_grave_s_head_line_can_be_kept_square_too():
    begun = [press(0, 0), press(0.1, 1.2, straight=True)]
    assert drawn(grave.KIND, begun).tool.end == (0, 1.2)
    typed = [press(0, 0), press(0.1, 1.2, straight=True, typed=True)]
    assert drawn(grave.KIND, typed).tool.end == (0.1, 1.2)


def test_square_places_by_hand():
    assert squared((1, 1), (4, 2), (0.0, 1.0)) == (4, 1)
    assert squared((1, 1), (2, 4), (0.0, 1.0)) == (1, 4)
    assert squared((0, 0), (-3, 1), (1.0, 0.0)) == (-3, 0)


# along an edge

CHURCH = new_item(
    building.KIND,
    Polygon([(0, 0), (7.123, 0.457), (7.001, 3.333), (9.5, 3.5), (9.25, 6.875), (0.5, 6.25)]),
)
PATH = new_item(path.KIND, LineString([(20, 0), (24.5, 3.125), (30, 3)]))
GROUND = plan_of([CHURCH, PATH])


def test_a_boundary_that_is_followed_is_shared_exactly():
    # from the first corner round by the east to the fourth
    corners = [take("along"), press(0, 0, CHURCH), move(8, 7), press(9.5, 3.5, CHURCH)]
    taken_over = ((0, 0), (7.123, 0.457), (7.001, 3.333), (9.5, 3.5))
    assert drawn(zone.KIND, corners, GROUND).tool.corners == taken_over
    rest = [press(12, 3.5), press(12, -2), press(0, -2), ENTER]
    made = item(drawn(zone.KIND, [*corners, *rest], GROUND)).shape
    assert made.intersection(CHURCH.shape).area == 0.0
    shared = made.intersection(CHURCH.shape)
    assert shared.length == pytest.approx(LineString(taken_over).length)
    assert set(taken_over) <= set(made.exterior.coords) & set(CHURCH.shape.exterior.coords)
    # neither gap nor overlap: together they are one piece without a hole, as large as both
    both = made.union(CHURCH.shape)
    assert both.geom_type == "Polygon"
    assert not both.interiors
    assert both.area == pytest.approx(made.area + CHURCH.shape.area, abs=1e-9)


def test_the_other_way_round_is_offered():
    begun = [take("along"), press(0, 0, CHURCH), take("other", 0.5, 6.25)]
    answer = drawn(zone.KIND, begun, GROUND)
    assert offers(answer) == {"along": True, "other": True}
    long = drawn(zone.KIND, [*begun, press(0.5, 6.25, CHURCH)], GROUND).tool.corners
    assert len(long) == 6
    short = drawn(zone.KIND, [*begun[:2], press(0.5, 6.25, CHURCH)], GROUND).tool.corners
    assert short == ((0.0, 0.0), (0.5, 6.25))


def test_a_line_is_followed_in_the_middle_of_an_outline():
    begun = [press(18, 0), take("along", 19, 0), press(20, 0, PATH), press(30, 3, PATH)]
    answer = drawn(fence.KIND, begun, GROUND)
    assert answer.tool.corners == ((18, 0), (20, 0), (24.5, 3.125), (30, 3))
    back = drawn(fence.KIND, [*begun, BACK], GROUND)
    assert back.tool.corners == ((18, 0),)
    at_its_end = [press(20, 0), *begun[1:]]
    assert drawn(fence.KIND, at_its_end, GROUND).tool.corners[:2] == ((20, 0), (24.5, 3.125))


def test_a_zone_runs_along_either_face_of_a_wall():
    # 0.4 m thick, drawn along its middle: its faces are 0.2 m to the left and right of that
    bent = new_item(
        wall.KIND,
        LineString([(0, 0), (10, 0), (10, 10)]),
        details=wall.WallDetails(width_m=0.4),
    )
    plan = plan_of([bent])
    asked = [take("along"), press(0, 0, bent), take("face", 10, 10)]
    assert offers(drawn(zone.KIND, asked, plan))["face"]
    left = drawn(zone.KIND, [*asked, press(10, 10, bent)], plan).tool.corners
    assert left == (
        pytest.approx((0, 0.2)),
        pytest.approx((9.8, 0.2)),
        pytest.approx((9.8, 10)),
    )
    right = drawn(zone.KIND, [*asked, take("face"), press(10, 10, bent)], plan).tool.corners
    assert right[1] == pytest.approx((10.2, -0.2))
    middle = [*asked, take("face"), take("face"), press(10, 10, bent)]
    assert drawn(zone.KIND, middle, plan).tool.corners[1] == (10, 0)
    closed = drawn(zone.KIND, [take("along"), press(0, 0, CHURCH), take("face")], GROUND)
    assert "face" not in offers(closed)


def test_of_a_face_of_which_nothing_is_left_the_middle_is_taken():
    # round three sides of a metre no line runs 4 m inside
    round_it = ((0, 0), (1, 0), (1, 1), (0, 1), (0, 0.1))
    broad = new_item(wall.KIND, LineString(round_it), details=wall.WallDetails(width_m=8.0))
    asked = [take("along"), press(0, 0, broad), take("face"), press(0, 0.1, broad)]
    assert drawn(zone.KIND, asked, plan_of([broad])).tool.corners == round_it


def test_where_there_is_no_edge_it_says_so_and_waits():
    begun = [take("along"), press(50, 50)]
    assert "no edge there" in drawn(zone.KIND, begun, GROUND).prompt
    begun = [take("along"), press(0, 0, CHURCH), press(50, 50)]
    assert "not on the same edge" in drawn(zone.KIND, begun, GROUND).prompt
    same = [take("along"), press(0, 0, CHURCH), press(0, 0, CHURCH)]
    assert "leaves the same edge" in drawn(zone.KIND, same, GROUND).prompt
    gone = drawn(zone.KIND, begun[:2], GROUND).tool.take(move(1, 1), EMPTY)
    assert gone.preview == (Point(0, 0),)


def test_following_an_edge_can_be_given_up_a_step_at_a_time():
    ready = drawn(zone.KIND, [], GROUND)
    asked = [take("along"), press(0, 0, CHURCH)]
    assert drawn(zone.KIND, [*asked, BACK], GROUND).prompt.startswith("Click where it joins")
    assert drawn(zone.KIND, [*asked, BACK, BACK], GROUND).tool == ready.tool
    assert drawn(zone.KIND, [*asked, take("along")], GROUND).tool == ready.tool
    assert drawn(zone.KIND, [*asked[:1], take("along")], GROUND).tool == ready.tool
    assert drawn(zone.KIND, [*asked, CANCEL], GROUND).tool == ready.tool
    assert drawn(zone.KIND, [*asked[:1], CANCEL], GROUND).tool == ready.tool
    assert drawn(zone.KIND, [*asked[:1], ENTER], GROUND).tool == ready.tool
    assert drawn(zone.KIND, [*asked[:1], move(3, 3)], GROUND).edit is None


def test_an_outline_that_ends_where_it_began_has_no_corner_twice():
    whole = [take("along"), press(0, 0, CHURCH), press(0.5, 6.25, CHURCH)]
    back = [take("along"), press(0.5, 6.25, CHURCH), take("other"), press(0, 0, CHURCH)]
    made = item(drawn(zone.KIND, [*whole, *back, ENTER], GROUND)).shape
    assert made.equals(CHURCH.shape)
    assert len(made.exterior.coords) == len(CHURCH.shape.exterior.coords)


def test_what_is_touched_is_the_nearest_edge_first():
    found = touched(GROUND, (CHURCH.id, PATH.id, "gone"), (20.1, 0.0), 30.0)
    assert [t.item for t in found] == [PATH.id, CHURCH.id]
    assert touched(GROUND, (CHURCH.id,), (20.1, 0.0), 1.0) == ()
    end = touched(GROUND, (PATH.id,), (30.0, 3.0), 0.1)[0]
    assert end.side == ((24.5, 3.125), (30, 3))
    flat = new_item(wall.KIND, LineString([(0, 0), (4, 0)]))
    assert way_here(plan_of([flat]), (flat.id,), (2, 0), 0.1) == (1.0, 0.0)
    assert way_here(plan_of([flat]), (), (2, 0), 0.1) == (0.0, 1.0)


# circles


def test_a_circle_by_its_middle_and_a_typed_radius():
    begun = [take("circle"), press(10, 20), move(11, 20), press(13, 20, typed=True)]
    shape = item(drawn(grass.KIND, begun)).shape
    assert shape.area == pytest.approx(9 * pi, rel=0.002)
    ring = shape.exterior.coords
    assert all(hypot(e - 10, n - 20) == pytest.approx(3.0, abs=0.001) for e, n in ring)
    figures = drawn(grass.KIND, [*begun[:2], move(13, 20)]).figures
    assert figures[0].startswith("radius 3.00 m (9' 10")
    assert figures[2] == "28.3 m²"


def test_a_circle_through_three_places():
    begun = [take("circle by three points"), press(0, 0), press(6, 0), move(1, 1)]
    shape = item(drawn(grass.KIND, [*begun, press(0, 8)])).shape
    # the right angle stands on a diameter of 10
    assert shape.centroid.distance(Point(3, 4)) < 0.01
    assert shape.area == pytest.approx(25 * pi, rel=0.003)
    in_line = drawn(grass.KIND, [*begun, press(9, 0)])
    assert "lie in a line" in in_line.prompt
    assert drawn(grass.KIND, [*begun, press(6, 0)]).prompt == "Click the last place on its edge"
    assert drawn(grass.KIND, [*begun, BACK]).prompt == "Click the next place on its edge"


def test_a_well_is_as_wide_as_its_circle():
    begun = [take("circle"), press(0, 0), press(0.6, 0.8)]
    made = item(drawn(well.KIND, begun))
    assert made.shape.equals(Point(0, 0))
    assert made.details.diameter_m == 2.0
    assert "circle" not in offers(drawn(tree.KIND, []))


def test_a_circle_is_given_up_like_everything_else_and_does_not_grow_absurd():
    ready = drawn(grass.KIND, [take("circle")])
    assert offers(ready)["circle"]
    for last in (BACK, CANCEL):
        assert drawn(grass.KIND, [take("circle"), press(0, 0), last]).tool == ready.tool
    points = [take("circle by three points"), press(0, 0)]
    for last in (BACK, CANCEL):
        assert drawn(grass.KIND, [*points, last]).tool == drawn(grass.KIND, points[:1]).tool
    huge = drawn(grass.KIND, [take("circle"), press(0, 0), press(5000, 0)])
    assert huge.edit is None
    assert "1000 m" in huge.prompt
    assert drawn(grass.KIND, [take("circle"), press(0, 0), press(0, 0)]).edit is None
    assert not offers(drawn(grass.KIND, [take("circle"), take("circle")]))["circle"]


# rectangles and holes


def test_a_building_s_rectangle_is_three_places():
    made = item(
        drawn(building.KIND, [take("rectangle"), press(0, 0), press(0, 6), press(9, 2)])
    )
    assert made.form is Form.AREA
    assert made.shape.equals(box(0, 0, 9, 6))
    asked = drawn(building.KIND, [take("rectangle"), press(0, 0)])
    assert asked.prompt == "Click the other end of the first side"


HALL = new_item(building.KIND, box(0, 0, 20, 10))
TOWN = plan_of([HALL, new_item(zone.KIND, box(-50, -50, 50, 50))])


def test_a_hole_is_drawn_inside_an_area_of_its_kind():
    begun = [take("hole"), press(2, 2), press(6, 2), press(6, 5), ENTER]
    answer = drawn(building.KIND, begun, TOWN)
    assert isinstance(answer.edit, CutHole)
    document = Document(TOWN)
    document.apply(answer.edit)
    assert document.plan.items[HALL.id].shape.area == 200 - 6
    assert answer.prompt == "Click the first corner of the hole in a building"
    assert answer.edit.title == "Cut a hole into a building"


def test_a_hole_may_be_a_rectangle_or_a_circle():
    square = [take("hole"), take("rectangle"), press(2, 2), press(2, 4), press(5, 3)]
    edit = drawn(building.KIND, square, TOWN).edit
    assert edit.hole.equals(box(2, 2, 5, 4))
    well_yard = [take("hole"), take("circle"), press(5, 5), press(7, 5)]
    assert drawn(building.KIND, well_yard, TOWN).edit.hole.area == pytest.approx(
        4 * pi, rel=0.004
    )


def test_a_hole_in_nothing_and_one_that_crosses_itself_are_not_cut():
    begun = [take("hole"), press(102, 2), press(106, 2), press(106, 5), ENTER]
    answer = drawn(building.KIND, begun, TOWN)
    assert answer.edit is None
    assert "There is no building round that hole" in answer.prompt
    bow = [take("hole"), press(0, 0), press(9, 9), press(9, 0), press(0, 9), ENTER]
    assert "crosses itself" in drawn(building.KIND, bow, TOWN).prompt
    assert not offers(drawn(building.KIND, [take("hole"), take("hole")]))["hole"]


def test_the_smallest_area_round_a_hole_is_meant():
    outer, inner = (
        new_item(zone.KIND, box(0, 0, 40, 40)),
        new_item(zone.KIND, box(5, 5, 25, 25)),
    )
    begun = [take("hole"), press(8, 8), press(12, 8), press(12, 12), ENTER]
    assert drawn(zone.KIND, begun, plan_of([outer, inner])).edit.id == inner.id
    away = [take("hole"), press(28, 28), press(32, 28), press(32, 32), ENTER]
    assert drawn(zone.KIND, away, plan_of([outer, inner])).edit.id == outer.id


# facings


def test_a_bench_is_placed_and_then_turned():
    made = item(drawn(bench.KIND, [press(10, 10), move(12, 10), press(15, 10)]))
    assert made.shape.equals(Point(10, 10))
    assert made.details.facing_deg == 90.0
    assert drawn(bench.KIND, [press(10, 10), move(10, 5)]).figures == ("faces 180.0°",)


def test_enter_leaves_open_which_way_a_board_faces():
    made = item(drawn(notice_board.KIND, [press(10, 10), act(Act.FINISH, 10, 10)]))
    assert made.details.facing_deg is None
    for last in (BACK, CANCEL):
        answer = drawn(notice_board.KIND, [press(10, 10), last])
        assert answer.tool == drawn(notice_board.KIND, []).tool
    assert drawn(notice_board.KIND, [press(1, 1), press(1, 1)]).edit is None


def test_a_facing_can_be_kept_to_the_grid():
    made = item(drawn(bench.KIND, [press(0, 0), press(-0.1, 3, straight=True)]))
    assert made.details.facing_deg == 0.0
    typed = item(drawn(bench.KIND, [press(0, 0), press(3, 3, straight=True, typed=True)]))
    assert typed.details.facing_deg == 45.0


# parallels

KERB = new_item(path.KIND, LineString([(0, 0), (10, 0), (10, 10)]))
LAWN = new_item(grass.KIND, box(30, 0, 40, 6))
GARDEN = plan_of([KERB, LAWN])


def ends(line: LineString) -> list[tuple[float, float]]:
    """The corners of a line, from the lesser end."""
    found = [pytest.approx(c, abs=0.001) for c in line.coords]
    return found if tuple(line.coords[0]) < tuple(line.coords[-1]) else found[::-1]


def test_a_fence_runs_at_a_typed_distance_on_the_side_of_the_pointer():
    asked = [take("parallel"), press(5, 0, KERB)]
    outside = drawn(fence.KIND, [*asked, fill(8, -3, distance="1")], GARDEN)
    # worked out by hand: both sides shifted by 1 m, their corner mitred
    assert ends(item(outside).shape) == [(0, -1), (11, -1), (11, 10)]
    assert item(outside).basis.method is Method.COMPUTED
    assert item(outside).basis.source == "1.00 m from Path"
    inside = drawn(fence.KIND, [*asked, fill(8, 3, distance="3' 3\"")], GARDEN)
    assert ends(item(inside).shape) == [(0, 0.9906), (9.0094, 0.9906), (9.0094, 10)]


def test_a_click_tells_how_far_away_it_runs():
    asked = [take("parallel"), press(5, 0, KERB), move(5, -1.5)]
    assert drawn(fence.KIND, asked, GARDEN).figures[0].startswith("1.50 m (4' 11")
    made = item(drawn(fence.KIND, [*asked, press(5, -2)], GARDEN)).shape
    assert ends(made) == [(0, -2), (12, -2), (12, 10)]


def test_one_side_of_an_area_is_followed_or_all_of_it():
    side = [take("parallel"), press(35, 6, LAWN)]
    assert ends(item(drawn(fence.KIND, [*side, press(36, 7)], GARDEN)).shape) == [
        (30, 7),
        (40, 7),
    ]
    round_it = [*side, take("whole")]
    outside = item(drawn(fence.KIND, [*round_it, press(36, 7)], GARDEN)).shape
    assert Polygon(outside.coords).equals(box(29, -1, 41, 7))
    inside = item(drawn(fence.KIND, [*round_it, press(36, 5)], GARDEN)).shape
    assert Polygon(inside.coords).equals(box(31, 1, 39, 5))


def test_where_nothing_is_left_of_a_parallel_it_says_so():
    too_far = [take("parallel"), press(35, 6, LAWN), take("whole"), fill(36, 5, distance="4")]
    answer = drawn(fence.KIND, too_far, GARDEN)
    assert answer.edit is None
    assert answer.prompt.startswith("Nothing is left of it 4.00 m away")
    for typed, said in (
        ("4 yards", "is not a length"),
        ("0", "up to 1000 m"),
        ("9999", "up to"),
    ):
        answer = drawn(fence.KIND, [*too_far[:3], fill(36, 5, distance=typed)], GARDEN)
        assert answer.edit is None
        assert said in answer.prompt
    begun = drawn(fence.KIND, [*too_far[:2], fill(36, 5)], GARDEN)
    assert "is not a length" in begun.prompt


def test_a_sharp_bend_drops_what_would_cross_itself():
    hairpin = new_item(path.KIND, LineString([(0, 0), (10, 0), (10, 1), (0, 1)]))
    asked = [take("parallel"), press(5, 0, hairpin), fill(5, 0.4, distance="0.4")]
    made = item(drawn(fence.KIND, asked, plan_of([hairpin]))).shape
    assert made.is_simple
    wide = [take("parallel"), press(5, 0, hairpin), fill(5, -9, distance="2")]
    assert item(drawn(fence.KIND, wide, plan_of([hairpin]))).shape.is_simple


def test_a_parallel_needs_a_line_and_is_given_up_like_everything_else():
    ready = drawn(fence.KIND, [take("parallel")], GARDEN)
    assert "no line there" in drawn(fence.KIND, [take("parallel"), press(5, 0)], GARDEN).prompt
    for last in (BACK, CANCEL):
        asked = [take("parallel"), press(5, 0, KERB), last]
        assert drawn(fence.KIND, asked, GARDEN).tool == ready.tool
    on_it = drawn(fence.KIND, [take("parallel"), press(5, 0, KERB), press(5, 0)], GARDEN)
    assert on_it.edit is None


def test_of_an_outline_that_crosses_itself_there_is_no_parallel_round():
    wall_ = new_item(wall.KIND, LineString([(0, 0), (4, 4), (4, 0), (0, 4), (0, 0)]))
    asked = [take("parallel"), press(1, 1, wall_), take("whole"), press(-3, 2)]
    answer = drawn(fence.KIND, asked, plan_of([wall_]))
    assert "Nothing is left" in answer.prompt


# what is offered


def test_only_what_is_offered_can_be_taken_up():
    assert set(offers(drawn(boundary.KIND, []))) == {
        "rectangle",
        "circle",
        "circle by three points",
        "along",
        "tapes",
        "hole",
    }
    assert set(offers(drawn(fence.KIND, []))) == {"parallel", "along", "tapes"}
    assert drawn(fence.KIND, [take("hole")]).tool == drawn(fence.KIND, []).tool
    assert drawn(fence.KIND, [press(0, 0), take("hole")]).tool.corners == ((0, 0),)
    assert set(offers(drawn(fence.KIND, [press(0, 0)]))) == {"arc", "along", "tapes", "square"}


def test_no_two_offers_of_a_state_share_a_key():
    states = [drawn(k, []) for k in (boundary.KIND, fence.KIND, well.KIND, grave.KIND)]
    states += [drawn(fence.KIND, [press(0, 0)])]
    for answer in states:
        keys = [o.key for o in answer.offers]
        assert len(set(keys)) == len(keys)
        assert not any(key.isdigit() for key in keys)
        # the keys of the other tools go on to mean what they mean
        assert not {t.key for t in tools()} & set(keys)


def test_a_rectangle_can_be_followed_and_a_grave_drawn_by_its_side():
    other = new_item(grave.KIND, Rectangle(east=0, north=0, width=1.2, length=2.7))
    plan = plan_of([replace(other, number="C 1")])
    begun = [press(0, 1.2, other), press(0.05, 2.4, straight=True)]
    assert drawn(grave.KIND, begun, plan).tool.end == pytest.approx((0, 2.4))
