"""Drawing: a list of pointers in, an item out."""

from collections.abc import Iterable

import pytest
from shapely import LineString, Point, Polygon

from plan_editor.drafting.head_line import HeadFrom, HeadLine
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting
from plan_editor.drafting.tools import draw
from plan_editor.edits.basic import Add
from plan_editor.kinds import base_plan, boundary, burial, grave, note, steps, tree, wall
from plan_editor.plan.item import Basis, Method, new_item
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.plan import Plan, plan_of

EMPTY = Plan()


def press(east: float, north: float, **more) -> Pointer:
    return Pointer(act=Act.PRESS, east=east, north=north, **more)


def move(east: float, north: float, **more) -> Pointer:
    return Pointer(act=Act.MOVE, east=east, north=north, **more)


def act(which: Act, east: float = 0.0, north: float = 0.0) -> Pointer:
    return Pointer(act=which, east=east, north=north)


def drawn(
    kind: Kind | None, pointers: Iterable[Pointer], plan: Plan = EMPTY, form: Form | None = None
) -> Answer:
    answer = draw.TOOL.start(Setting(kind=kind, form=form))
    for pointer in pointers:
        answer = answer.tool.take(pointer, plan)
    return answer


def item(answer: Answer):
    assert isinstance(answer.edit, Add)
    (only,) = answer.edit.items
    return only


def test_nothing_is_drawn_before_a_kind_is_chosen():
    answer = drawn(None, [press(1, 2), move(3, 4)])
    assert answer.edit is None
    assert answer.prompt == draw.CHOOSE


def test_an_entry_of_the_register_has_no_place_to_draw():
    answer = drawn(burial.KIND, [press(1, 2)])
    assert answer.edit is None
    assert answer.prompt == draw.CHOOSE


def test_a_tree_is_one_click():
    answer = drawn(tree.KIND, [move(0, 0), press(1.2346, 2)])
    assert item(answer).shape.equals(Point(1.235, 2))
    assert answer.tool == drawn(tree.KIND, []).tool


def test_a_wall_is_ended_by_enter():
    corners = [press(0, 0), press(4, 0), press(4, 3), act(Act.FINISH, 9, 9)]
    assert item(drawn(wall.KIND, corners)).shape.equals(LineString([(0, 0), (4, 0), (4, 3)]))


def test_a_double_click_ends_it_where_it_was_clicked():
    # a double click comes as press, release, finish
    corners = [press(0, 0), press(4, 0), act(Act.RELEASE, 4, 0), act(Act.FINISH, 4, 0)]
    assert item(drawn(wall.KIND, corners)).shape.equals(LineString([(0, 0), (4, 0)]))


def test_a_second_press_on_the_same_place_adds_no_corner():
    answer = drawn(wall.KIND, [press(0, 0), press(0, 0), press(4, 0), press(4, 0)])
    assert answer.tool.corners == ((0, 0), (4, 0))


def test_a_wall_that_comes_back_to_its_start_is_closed():
    answer = drawn(wall.KIND, [press(0, 0), press(9, 0), press(9, 9), press(0.1, 0.1)])
    assert item(answer).shape.is_closed


def test_an_area_closes_on_its_first_corner_or_by_enter():
    corners = [press(0, 0), press(9, 0), press(9, 9)]
    square = Polygon([(0, 0), (9, 0), (9, 9)])
    assert item(drawn(boundary.KIND, [*corners, press(0.1, 0.1)])).shape.equals(square)
    assert item(drawn(boundary.KIND, [*corners, act(Act.FINISH)])).shape.equals(square)


def test_a_typed_corner_near_the_first_is_a_corner():
    corners = [press(0, 0), press(9, 0), press(9, 9), press(0.1, 0.1, typed=True)]
    assert drawn(boundary.KIND, corners).edit is None


def test_a_kind_of_two_forms_can_be_drawn_in_either():
    corners = [press(0, 0), press(9, 0), press(9, 9), act(Act.FINISH)]
    assert item(drawn(wall.KIND, corners, form=Form.AREA)).shape.geom_type == "Polygon"


def test_too_few_corners_are_asked_for():
    answer = drawn(boundary.KIND, [press(0, 0), press(9, 0), act(Act.FINISH)])
    assert answer.edit is None
    assert "at least 3" in answer.prompt


def test_backspace_takes_the_last_corner_back_and_then_the_first():
    answer = drawn(wall.KIND, [press(0, 0), press(4, 0), act(Act.BACK, 4, 0)])
    assert answer.tool.corners == ((0, 0),)
    assert answer.tool.take(act(Act.BACK), EMPTY).tool == drawn(wall.KIND, []).tool


def test_lengths_and_areas_go_along_with_the_pointer():
    answer = drawn(boundary.KIND, [press(0, 0), move(3, 0)])
    assert answer.figures[1] == "bearing 90.0°"
    assert answer.figures[0].startswith("3.00 m (9' 10")
    assert answer.origin == (0, 0)
    answer = drawn(boundary.KIND, [press(0, 0), press(3, 0), move(3, 4)])
    assert answer.figures[0].startswith("4.00 m")
    assert "6.0 m²" in answer.figures
    whole = drawn(wall.KIND, [press(0, 0), press(3, 0), move(3, 4)]).figures
    assert whole[2].startswith("in all 7.00 m")


def test_an_outline_that_crosses_itself_is_not_drawn_and_may_be_mended():
    bow = [press(0, 0), press(9, 9), press(9, 0), press(0, 9)]
    answer = drawn(boundary.KIND, [*bow, act(Act.FINISH)])
    assert answer.edit is None
    assert "crosses itself" in answer.prompt
    mended = drawn(boundary.KIND, [*bow, act(Act.FINISH), act(Act.BACK), act(Act.FINISH)])
    assert item(mended).shape.geom_type == "Polygon"


def test_what_lies_too_far_away_is_not_drawn():
    answer = drawn(tree.KIND, [press(2e6, 0)])
    assert answer.edit is None
    assert "cannot lie like that" in answer.prompt


def test_cancel_drops_what_was_begun():
    answer = drawn(boundary.KIND, [press(0, 0), press(9, 0), act(Act.CANCEL)])
    assert answer.tool == drawn(boundary.KIND, []).tool
    assert answer.preview == ()


# rectangles: a grave with its head in the west, drawn from south to north, reaches east


def test_a_grave_is_two_clicks_along_its_head_and_one_for_its_length():
    answer = drawn(
        grave.KIND, [press(10, 20), move(10, 21), press(10, 21.2), press(12.2, 20.5)]
    )
    rectangle = item(answer).rectangle
    assert (rectangle.east, rectangle.north) == (10, 20)
    assert rectangle.width == pytest.approx(1.2)
    assert rectangle.length == pytest.approx(2.2)
    assert rectangle.bearing_deg == pytest.approx(0.0)
    assert rectangle.facing_deg == pytest.approx(90.0)


def test_a_grave_drawn_to_the_left_has_its_head_where_it_was_drawn():
    rectangle = item(
        drawn(grave.KIND, [press(10, 20), press(10, 21.2), press(8, 20.5)])
    ).rectangle
    assert rectangle.facing_deg == pytest.approx(270.0)
    assert rectangle.corners()[0] == pytest.approx((10, 21.2))


def test_near_its_usual_length_a_grave_takes_it():
    # 9 ft: the usual plot of the burial regulations named in the kind
    pointers = [press(0, 0), press(0, 1.22), press(2.6, 0.5, reach=0.5)]
    assert item(drawn(grave.KIND, pointers)).rectangle.length == 2.74


def test_enter_takes_the_usual_sizes():
    pointers = [press(0, 0), move(0, 5), act(Act.FINISH, 0, 5), act(Act.FINISH, 3, 1)]
    rectangle = item(drawn(grave.KIND, pointers)).rectangle
    assert (rectangle.width, rectangle.length) == pytest.approx((1.22, 2.74))


def test_a_typed_length_is_exact_whatever_its_bearing():
    typed = press(2.5, 0.8, typed=True)  # 2.5 m east and 0.4 m south of the head's end
    rectangle = item(drawn(grave.KIND, [press(0, 0), press(0, 1.2), typed])).rectangle
    assert rectangle.length == pytest.approx((2.5**2 + 0.4**2) ** 0.5)


def test_a_kind_without_usual_sizes_is_drawn_by_clicks_alone():
    one_end = drawn(steps.KIND, [press(0, 0), act(Act.FINISH, 0, 3)])
    assert isinstance(one_end.tool, HeadLine)
    assert item(one_end.tool.take(act(Act.FINISH, 2, 1), EMPTY)).rectangle.length == 2.0
    assert "Enter" not in one_end.prompt
    assert "Enter" not in drawn(steps.KIND, [press(0, 0)]).prompt


def test_a_head_line_or_a_length_of_nothing_waits():
    assert isinstance(drawn(grave.KIND, [press(0, 0), press(0, 0)]).tool, HeadFrom)
    assert isinstance(drawn(grave.KIND, [press(0, 0), act(Act.FINISH)]).tool, HeadFrom)
    waiting = drawn(grave.KIND, [press(0, 0), press(0, 1), press(0, 3)])
    assert isinstance(waiting.tool, HeadLine)
    assert waiting.edit is None


def long_side(pointers):
    return drawn(grave.KIND, [Pointer(act=Act.TAKE, offer="long side"), *pointers])


def test_a_long_side_first_has_its_head_where_it_was_begun():
    right = item(long_side([press(10, 20), press(12.4, 20), press(11, 18.9)])).rectangle
    assert [*right.corners()[0], *right.corners()[2]] == pytest.approx([10, 18.9, 12.4, 20])
    left = item(long_side([press(10, 20), press(12.4, 20), press(11, 21.1)])).rectangle
    assert [*left.corners()[0], *left.corners()[2]] == pytest.approx([10, 20, 12.4, 21.1])
    assert right.facing_deg == left.facing_deg == pytest.approx(90.0)


def test_a_long_side_first_takes_no_usual_width_unless_enter_asks_for_it():
    begun = [press(0, 0), move(3, 0), act(Act.FINISH, 3, 0)]
    near = item(long_side([*begun, press(1, 1.1, reach=0.5)])).rectangle
    assert (near.width, near.length) == pytest.approx((1.1, 2.74))
    usual = item(long_side([*begun, act(Act.FINISH, 1, 2)])).rectangle
    assert (usual.width, usual.length) == pytest.approx((1.22, 2.74))


def test_a_long_side_first_says_what_comes_next():
    assert "head end of a long side" in long_side([]).prompt
    assert "foot end of the long side; Enter makes it 2.74 m" in long_side([press(0, 0)]).prompt
    across = long_side([press(0, 0), press(2, 0)])
    assert "type its width; Enter makes it 1.22 m" in across.prompt
    assert across.tool.take(press(1, 1.1), EMPTY).prompt == long_side([]).prompt


def test_backspace_goes_back_through_a_grave():
    begun = [press(0, 0), press(0, 1)]
    back = drawn(grave.KIND, [*begun, act(Act.BACK, 0, 1)])
    assert isinstance(back.tool, HeadFrom)
    assert back.tool.take(act(Act.BACK), EMPTY).tool == drawn(grave.KIND, []).tool
    assert drawn(grave.KIND, [*begun, act(Act.CANCEL)]).tool == drawn(grave.KIND, []).tool


def test_a_grave_shows_its_sizes_while_it_is_drawn():
    answer = drawn(grave.KIND, [press(0, 0), press(0, 1.22), move(2, 0.5)])
    assert answer.figures[0].startswith("head 1.22 m (4' 0")
    assert answer.figures[2] == "feet to 90.0°"
    assert answer.preview[0].area == pytest.approx(2.44)
    assert answer.origin == (0, 1.22)


# how its place is known


def _scan(name: str, **details) -> object:
    told = base_plan.BasePlanDetails(
        name=name, digest="0" * 64, fit=(1.0, 0.0, 0.0, 0.0, -1.0, 0.0), **details
    )
    outline = Polygon([(-50, -50), (50, -50), (50, 50), (-50, 50)])
    return new_item(base_plan.KIND, outline, details=told)


def test_what_is_drawn_over_a_base_plan_is_traced_on_it():
    old, new, hidden = _scan("1911"), _scan("1962"), _scan("1999", shown=False)
    plan = plan_of([old, new, hidden])
    found = item(drawn(note.KIND, [press(1, 1)], plan)).basis
    assert found == Basis(method=Method.TRACED, source="1962", base_plan=new.id)
    assert item(drawn(note.KIND, [press(99, 1)], plan)).basis == Basis()
