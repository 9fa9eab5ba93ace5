"""Choosing, moving, reshaping and measuring, pointer by pointer."""

import pytest
from shapely import LineString, Point, Polygon

from plan_editor.drafting.corners import Corner
from plan_editor.drafting.tool import Act, Chosen, Pointer, Setting
from plan_editor.drafting.tools import measure, move, reshape, select
from plan_editor.edits.places import Move, Reshape
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, boundary, burial, grave, tree, wall
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of

GRAVE = new_item(
    grave.KIND, Rectangle(east=0.0, north=0.0, width=1.2, length=2.4), number="C 14"
)
OTHER = new_item(
    grave.KIND, Rectangle(east=10.0, north=0.0, width=1.2, length=2.4), number="C 15"
)
YARD = new_item(boundary.KIND, Polygon([(-5, -5), (20, -5), (20, 20), (-5, 20)]))
WALL = new_item(wall.KIND, LineString([(-5, -5), (20, -5), (20, 20)]))
YEW = new_item(tree.KIND, Point(3, 9))
SCAN = new_item(
    base_plan.KIND,
    Polygon([(-50, -50), (50, -50), (50, 50), (-50, 50)]),
    details=base_plan.BasePlanDetails(fit=(1.0, 0.0, 0.0, 0.0, -1.0, 0.0), digest="0" * 64),
)
ENTRY = new_item(burial.KIND)
PLAN = plan_of([GRAVE, OTHER, YARD, WALL, YEW, SCAN, ENTRY])


def at(which: Act, east: float = 0.0, north: float = 0.0, **more) -> Pointer:
    return Pointer(act=which, east=east, north=north, **({"reach": 0.3} | more))


def run(tool, *pointers: Pointer, plan=PLAN, chosen=()):
    answer = tool.TOOL.start(Setting(chosen=chosen))
    for pointer in pointers:
        answer = answer.tool.take(pointer, plan)
    return answer


# select


def clicked(*hits, chosen=(), add=False):
    pressed = at(Act.PRESS, 1, 1, hits=hits, chosen=chosen, add=add)
    return run(select, pressed, at(Act.RELEASE, 1, 1)).chosen


def test_a_click_chooses_the_top_one():
    assert clicked(GRAVE.id, YARD.id) == Chosen(ids=(GRAVE.id,))


def test_a_click_on_what_alone_is_chosen_takes_what_lies_beneath():
    assert clicked(GRAVE.id, YARD.id, chosen=(GRAVE.id,)) == Chosen(ids=(YARD.id,))
    assert clicked(GRAVE.id, YARD.id, chosen=(YARD.id,)) == Chosen(ids=(GRAVE.id,))


def test_a_click_on_bare_ground_chooses_nothing():
    assert clicked() == Chosen(ids=())
    assert clicked(add=True) == Chosen(ids=(), add=True)


def test_with_shift_a_click_adds_or_takes_away():
    added = clicked(OTHER.id, chosen=(GRAVE.id,), add=True)
    assert added == Chosen(ids=(GRAVE.id, OTHER.id))
    assert clicked(GRAVE.id, chosen=(GRAVE.id, OTHER.id), add=True) == Chosen(ids=(OTHER.id,))


def test_a_box_asks_for_what_lies_in_it():
    pointers = [at(Act.PRESS, 5, 5), at(Act.MOVE, -2, 8), at(Act.RELEASE, -3, 9)]
    assert run(select, *pointers[:2]).preview[0].length == pytest.approx(20)
    assert run(select, *pointers).chosen == Chosen(box=(-3, 5, 5, 9))
    cancelled = run(select, *pointers[:2], at(Act.CANCEL))
    assert cancelled.tool == select.Idle()
    assert cancelled.chosen is None


def test_what_is_not_chosen_is_not_moved_by_a_slip_of_the_hand():
    slip = [at(Act.PRESS, 1, 1, hits=(GRAVE.id,)), at(Act.MOVE, 4, 4), at(Act.RELEASE, 4, 4)]
    answer = run(select, *slip)
    assert answer.edit is None
    assert answer.chosen == Chosen(box=(1, 1, 4, 4))


def test_what_is_chosen_is_drawn_along_and_put_down():
    chosen = (GRAVE.id, OTHER.id)
    held = [at(Act.PRESS, 1, 1, hits=(GRAVE.id,), chosen=chosen), at(Act.MOVE, 1, 3)]
    shown = run(select, *held)
    assert shown.preview[0].bounds == pytest.approx((0, 2, 2.4, 3.2))
    assert shown.figures[0].startswith("2.00 m")
    assert shown.edit is None
    put = run(select, *held, at(Act.RELEASE, 1, 4))
    assert put.edit == Move(ids=chosen, east=0, north=3, called="2 graves")
    assert run(select, *held, at(Act.CANCEL)).edit is None


def test_a_hand_that_trembles_only_clicks():
    pressed = at(Act.PRESS, 1, 1, hits=(GRAVE.id,), chosen=(GRAVE.id,))
    assert run(select, pressed, at(Act.MOVE, 1.1, 1)).tool == run(select, pressed).tool
    assert run(select, pressed, at(Act.CANCEL)).tool == select.Idle()


def test_what_lies_under_the_pointer_is_named():
    assert run(select, at(Act.MOVE, hits=(GRAVE.id,))).prompt == "Grave C 14"
    both = run(select, at(Act.MOVE, hits=(GRAVE.id, YARD.id)))
    assert both.prompt == "Grave C 14, and 1 beneath"


def test_what_was_taken_away_meanwhile_is_not_moved():
    held = [at(Act.PRESS, 1, 1, hits=(GRAVE.id,), chosen=(GRAVE.id,)), at(Act.MOVE, 4, 4)]
    answer = run(select, *held).tool.take(at(Act.RELEASE, 4, 4), plan_of([YARD]))
    assert answer.edit is None
    assert answer.tool == select.Idle()


# move


def test_two_clicks_move_what_is_chosen():
    pointers = [
        at(Act.PRESS, 0, 0, chosen=(GRAVE.id,)),
        at(Act.MOVE, 1, 0),
        at(Act.PRESS, 3, 0),
    ]
    shown = run(move, *pointers[:2], chosen=(GRAVE.id,))
    assert shown.origin == (0, 0)
    assert shown.preview[0].bounds == pytest.approx((1, 0, 3.4, 1.2))
    put = run(move, *pointers)
    assert put.edit == Move(ids=(GRAVE.id,), east=3, north=0, called="grave C 14")


def test_with_nothing_chosen_the_first_click_chooses():
    assert run(move).prompt == move.CHOOSE
    answer = run(move, at(Act.PRESS, hits=(YEW.id,)))
    assert answer.chosen == Chosen(ids=(YEW.id,))
    assert answer.prompt == move.FROM
    assert run(move, at(Act.PRESS)).prompt == move.CHOOSE


def test_what_was_placed_by_points_or_has_no_place_is_not_moved():
    for fixed in (SCAN, ENTRY):
        assert run(move, at(Act.PRESS, chosen=(fixed.id,))).prompt == move.CHOOSE


def test_moving_can_be_cancelled():
    held = at(Act.PRESS, chosen=(GRAVE.id,))
    assert run(move, held, at(Act.BACK)).tool == move.Ready()
    gone = run(move, held).tool.take(at(Act.MOVE, 1, 1), plan_of([]))
    assert gone.prompt == move.CHOOSE


# reshape


def corners_shown(answer):
    return [s for s in answer.preview if s.geom_type == "Point"]


def test_the_corners_of_what_alone_is_chosen_are_shown():
    shown = run(reshape, at(Act.MOVE, chosen=(YARD.id,)))
    assert len(corners_shown(shown)) == 4
    assert shown.preview[-1].geom_type == "MultiPoint"
    assert run(reshape, at(Act.MOVE, chosen=(YARD.id, WALL.id))).preview == ()
    assert len(run(reshape, at(Act.MOVE, chosen=(YEW.id,))).preview) == 1


def test_a_click_elsewhere_chooses_another():
    answer = run(reshape, at(Act.PRESS, 9, 9, hits=(WALL.id,), chosen=(YARD.id,)))
    assert answer.chosen == Chosen(ids=(WALL.id,))
    assert len(corners_shown(answer)) == 3
    bare = run(reshape, at(Act.PRESS, 9, 9, chosen=(YARD.id,)))
    assert bare.chosen == Chosen(ids=())


def gripped(item, east, north, *after):
    return run(reshape, at(Act.PRESS, east, north, chosen=(item.id,)), *after)


def test_a_corner_is_drawn_to_its_place():
    drag = at(Act.MOVE, 22, 22)
    shown = gripped(YARD, 20, 20, drag)
    assert shown.edit is None
    assert shown.origin == (20, -5)
    put = gripped(YARD, 20, 20, drag, at(Act.RELEASE, 24, 24))
    wanted = Polygon([(-5, -5), (20, -5), (24, 24), (-5, 20)])
    assert put.edit == Reshape(id=YARD.id, place=wanted, called="a boundary")


def test_a_corner_that_was_clicked_stays_in_hand_until_the_next_click():
    clicks = [at(Act.RELEASE, 20, 20), at(Act.MOVE, 21, 20), at(Act.PRESS, 24, 20)]
    held = gripped(YARD, 20, 20, *clicks[:1])
    assert isinstance(held.tool, reshape.Gripped)
    put = gripped(YARD, 20, 20, *clicks)
    assert put.edit.place.area == pytest.approx(25 * 25 + 50)
    assert gripped(YARD, 20, 20, clicks[0], at(Act.PRESS, 20, 20)).edit is None


def test_a_typed_place_is_taken_however_near():
    put = gripped(YARD, 20, 20, at(Act.PRESS, 20.1, 20, typed=True))
    assert put.edit.place.bounds == pytest.approx((-5, -5, 20.1, 20))


def test_a_double_click_on_a_corner_changes_nothing():
    answer = gripped(YARD, 20, 20, at(Act.RELEASE, 20, 20), at(Act.FINISH, 20, 20))
    assert answer.edit is None
    assert answer.tool == reshape.Idle()
    moved = gripped(YARD, 20, 20, at(Act.MOVE, 24, 20), at(Act.FINISH, 24, 20))
    assert moved.edit is not None


def test_the_middle_of_a_side_becomes_a_corner():
    put = gripped(WALL, 7.5, -5, at(Act.MOVE, 7.5, -8), at(Act.RELEASE, 7.5, -8))
    assert put.edit.place.equals(LineString([(-5, -5), (7.5, -8), (20, -5), (20, 20)]))


def test_backspace_takes_a_corner_out():
    put = gripped(WALL, 20, -5, at(Act.BACK))
    assert put.edit.place.equals(LineString([(-5, -5), (20, 20)]))
    assert gripped(YEW, 3, 9, at(Act.BACK)).edit is None
    assert gripped(GRAVE, 0, 0, at(Act.BACK)).edit is None


def test_a_point_is_moved_by_its_only_corner():
    put = gripped(YEW, 3, 9, at(Act.MOVE, 4, 9), at(Act.RELEASE, 5, 9))
    assert put.edit.place.equals(Point(5, 9))
    assert gripped(YEW, 3, 9, at(Act.MOVE, 4, 9)).figures == ()


def test_a_grave_is_resized_by_corner_and_side_and_keeps_its_bearing():
    corner = gripped(GRAVE, 2.4, 1.2, at(Act.MOVE, 2.0, 1.0), at(Act.RELEASE, 2.6, 1.4))
    place = corner.edit.place
    assert (place.width, place.length) == pytest.approx((1.4, 2.6))
    foot = gripped(GRAVE, 2.4, 0.6, at(Act.MOVE, 2.0, 0.6), at(Act.RELEASE, 2.74, 0.9))
    assert (foot.edit.place.width, foot.edit.place.length) == pytest.approx((1.2, 2.74))
    assert foot.edit.place.bearing_deg == 0.0


def test_a_typed_length_of_a_side_counts_from_the_opposite_one():
    held = gripped(GRAVE, 2.4, 0.6)
    assert held.origin == pytest.approx((0.0, 0.6))
    # 2.74 m towards the pointer, which lies a little aside
    typed = at(Act.PRESS, 2.74 * 0.8, 0.6 + 2.74 * 0.6, typed=True)
    assert held.tool.take(typed, PLAN).edit.place.length == pytest.approx(2.74)


def test_live_figures_go_with_what_is_reshaped():
    assert "650.0 m²" in gripped(YARD, 20, 20, at(Act.MOVE, 22, 20)).figures
    assert "it crosses itself" in gripped(YARD, 20, 20, at(Act.MOVE, 7, -9)).figures
    wall_figures = gripped(WALL, 20, 20, at(Act.MOVE, 20, 25)).figures
    assert wall_figures[-1].startswith("in all 55.00 m")
    assert gripped(GRAVE, 0, 0, at(Act.MOVE, -1, 0)).figures[0].startswith("head")


def test_a_corner_in_hand_is_let_go_when_the_plan_has_changed_under_it():
    held = gripped(YARD, 20, 20)
    gone = held.tool.take(at(Act.RELEASE, 9, 9), plan_of([WALL]))
    assert gone.edit is None
    changed = plan_of([YARD.at(Polygon([(-5, -5), (19, -5), (19, 19)]))])
    other = held.tool.take(at(Act.RELEASE, 9, 9), changed)
    assert other.edit is None
    assert other.tool == reshape.Idle()
    assert held.tool.corner == Corner(0, 2)
    assert gripped(YARD, 20, 20, at(Act.CANCEL)).edit is None


# measure


def test_a_distance_is_measured_between_two_clicks():
    answer = run(measure, at(Act.PRESS, 0, 0), at(Act.MOVE, 3, 4))
    assert answer.figures == ("5.00 m (16' 4¾\")", "bearing 36.9°")
    assert answer.edit is None


def test_the_way_round_and_the_area_within_are_measured():
    corners = [at(Act.PRESS, 0, 0), at(Act.PRESS, 3, 0), at(Act.PRESS, 3, 4)]
    figures = run(measure, *corners).figures
    assert figures[2].startswith("in all 7.00 m")
    assert figures[3] == "within it 6.0 m²"


def test_the_figures_stay_after_the_end_until_the_next_click():
    corners = [at(Act.PRESS, 0, 0), at(Act.PRESS, 3, 4), at(Act.FINISH, 3, 4)]
    done = run(measure, *corners, at(Act.MOVE, 9, 9))
    assert done.figures[0].startswith("5.00 m")
    assert done.prompt == measure.DONE
    assert run(measure, *corners, at(Act.PRESS, 9, 9)).tool == measure.Measuring(
        corners=((9, 9),)
    )
    assert run(measure, *corners, at(Act.CANCEL)).tool == measure.Ready()


def test_measuring_goes_back_and_is_given_up():
    begun = [at(Act.PRESS, 0, 0), at(Act.PRESS, 3, 4)]
    assert run(measure, *begun, at(Act.BACK, 3, 4)).tool == measure.Measuring(corners=((0, 0),))
    for act in (Act.BACK, Act.FINISH, Act.CANCEL):
        assert run(measure, begun[0], at(act)).tool == measure.Ready()
    assert run(measure, at(Act.MOVE)).prompt == measure.FROM
    assert run(measure, begun[0], at(Act.MOVE)).preview == (Point(0, 0),)
