"""Turn, split, cut out, bring to a line, align: pointers in, one edit out."""

from collections.abc import Iterable

import pytest
import shapely
from shapely import LineString, Point

from plan_editor.drafting.across import Across, ByThing, Ready
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting, ToolButton, tools
from plan_editor.drafting.tools import align, cut_out, split, to_a_line, turn
from plan_editor.drafting.workable import middle_of
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, bench, burial, grass, grave, path, tree, wall
from plan_editor.kinds.path import PathDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of

MEADOW = new_item(grass.KIND, shapely.box(0, 0, 20, 10))
OTHER = new_item(grass.KIND, shapely.box(20, 0, 40, 10))
WAY = new_item(path.KIND, LineString([(-5, 5), (45, 5)]), details=PathDetails(width_m=2.0))
WALL = new_item(wall.KIND, LineString([(0, -5), (10, -5)]))
HEDGE = new_item(path.KIND, LineString([(15, -9), (15, -1)]))
YEW = new_item(tree.KIND, Point(3, 30))
SEAT = new_item(bench.KIND, Point(8, 30))
BURIAL = new_item(burial.KIND)
GRAVES = tuple(
    new_item(
        grave.KIND,
        Rectangle(east=50.0, north=2.0 * n, width=1.0, length=2.0, bearing_deg=10.0),
        number=f"A {n}",
    )
    for n in range(3)
)
GROUND = plan_of([MEADOW, OTHER, WAY, WALL, HEDGE, YEW, SEAT, BURIAL, *GRAVES])


def did(which: Act, east: float = 0.0, north: float = 0.0, **more) -> Pointer:
    return Pointer(act=which, east=east, north=north, **more)


def press(east: float, north: float, *hits, **more) -> Pointer:
    return did(Act.PRESS, east, north, hits=tuple(i.id for i in hits), **more)


def over(east: float, north: float, *hits, **more) -> Pointer:
    return did(Act.MOVE, east, north, hits=tuple(i.id for i in hits), **more)


ENTER = did(Act.FINISH)
ESC = did(Act.CANCEL)
BACK = did(Act.BACK)


def taken(offer: str) -> Pointer:
    return did(Act.TAKE, offer=offer)


def typed(angle: str) -> Pointer:
    return did(Act.FILL, filled=(("angle", angle),))


def used(
    button: ToolButton, pointers: Iterable[Pointer], *chosen, plan: Plan = GROUND
) -> Answer:
    ids = tuple(i.id for i in chosen)
    answer = button.start(Setting(chosen=ids))
    for pointer in pointers:
        if answer.chosen is not None:
            ids = answer.chosen.ids
        told = Pointer(**{n: getattr(pointer, n) for n in Pointer.__slots__} | {"chosen": ids})
        answer = answer.tool.take(told, plan)
    return answer


def after(answer: Answer, plan: Plan = GROUND):
    """Return the plan as it is after the answer's edit, by id."""
    assert answer.edit is not None
    document = Document(plan)
    document.apply(answer.edit)
    return document.plan.items


def test_the_tools_of_shapes_stand_between_their_neighbours():
    keys = {b.key: b.order for b in tools()}
    assert [keys[k] for k in "UXCEI"] == [33, 43, 45, 47, 48]


# turn


def test_a_turn_is_three_clicks():
    clicks = [press(0, 0), press(5, 0), press(0, -5)]
    answer = used(turn.TOOL, clicks, WALL)
    # from east to south is a quarter clockwise: the wall along north 5 below lies 5 to the left
    assert list(after(answer)[WALL.id].shape.coords) == [(-5, 0), (-5, -10)]
    assert answer.chosen.ids == (WALL.id,)


def test_a_turn_shows_what_it_would_be_and_by_how_much():
    answer = used(turn.TOOL, [press(0, 0), press(5, 0), over(0, -5)], WALL)
    assert answer.prompt == turn.TO
    assert answer.figures == ("turned 90.0°",)
    assert answer.preview[0].equals(LineString([(-5, 0), (-5, -10)]))
    left = used(turn.TOOL, [press(0, 0), press(5, 0), over(0, 5)], WALL)
    assert left.figures == ("turned 90.0° to the left",)


@pytest.mark.parametrize(
    ("angle", "degrees"), [("15", 15.0), ("-7.5", -7.5), ("−90", -90.0), ("12°30'", 12.5)]
)
def test_an_angle_is_typed(angle, degrees):
    answer = used(turn.TOOL, [typed(angle)], *GRAVES[:1])
    assert after(answer)[GRAVES[0].id].rectangle.bearing_deg == (10.0 + degrees) % 360.0


def test_a_typed_angle_turns_about_the_middle_of_all_or_about_the_place_clicked():
    answer = used(turn.TOOL, [typed("180")], MEADOW, OTHER)
    turned = after(answer)
    assert turned[MEADOW.id].shape.equals(OTHER.shape)
    assert turned[OTHER.id].shape.equals(MEADOW.shape)
    about = used(turn.TOOL, [press(0, -5), typed("180")], WALL)
    assert after(about)[WALL.id].shape.equals(LineString([(0, -5), (-10, -5)]))


def test_typed_turns_that_make_a_circle_bring_graves_back():
    plan = GROUND
    for _ in range(36):
        edit = used(turn.TOOL, [typed("10")], *GRAVES, plan=plan).edit
        plan = plan.after(edit.changes(plan))
    for before in GRAVES:
        after_all = plan.items[before.id].rectangle
        assert after_all.centre == pytest.approx(before.rectangle.centre, abs=5e-5)
        assert after_all.bearing_deg == pytest.approx(10.0, abs=1e-6)


def test_what_is_no_angle_turns_nothing():
    answer = used(turn.TOOL, [typed("a little")], WALL)
    assert answer.edit is None
    assert answer.prompt == turn.UNREAD


def test_each_about_its_own_middle_leaves_every_middle_where_it_is():
    answer = used(turn.TOOL, [taken("each"), typed("30")], *GRAVES)
    assert next(o.on for o in answer.offers)
    assert answer.prompt == turn.EACH
    items = after(answer)
    for before in GRAVES:
        assert items[before.id].rectangle.centre == pytest.approx(
            before.rectangle.centre, abs=2e-6
        )
        assert items[before.id].rectangle.bearing_deg == 40.0


def test_the_straight_key_turns_by_quarters():
    # towards a place 80 degrees on: a quarter
    clicks = [press(0, 0), press(5, 0), press(1, -5, straight=True)]
    assert used(turn.TOOL, clicks, WALL).edit.degrees == pytest.approx(90.0)
    on_pivot = [press(0, 0), press(5, 0), over(0, 0, straight=True)]
    assert used(turn.TOOL, on_pivot, WALL).figures == ("turned 0.0°",)


def test_a_turn_begun_is_taken_back_step_by_step():
    begun = [press(0, 0), press(5, 0)]
    assert used(turn.TOOL, [*begun, BACK], WALL).prompt == turn.FROM
    assert used(turn.TOOL, [*begun, BACK, BACK], WALL).prompt == turn.PIVOT
    assert used(turn.TOOL, [*begun, ESC], WALL).preview == ()
    assert used(turn.TOOL, [taken("nothing")], WALL).prompt == turn.PIVOT


def test_a_press_on_the_pivot_gives_no_way():
    assert used(turn.TOOL, [press(0, 0), press(0, 0)], WALL).prompt == turn.FROM


def test_without_anything_chosen_a_press_chooses_what_is_turned():
    answer = used(turn.TOOL, [press(1, 1, MEADOW)])
    assert answer.chosen.ids == (MEADOW.id,)
    assert answer.prompt == turn.PIVOT
    assert used(turn.TOOL, [press(1, 1)]).prompt == turn.CHOOSE
    assert used(turn.TOOL, [typed("9")]).edit is None


def test_what_cannot_be_turned_is_shown_nowhere():
    tiny = new_item(wall.KIND, LineString([(0.0, 0.0), (0.001, 0.0)]))
    pointers = [press(0.0002475, 0.0005975), press(0, 5), over(3.6, 3.6)]
    answer = used(turn.TOOL, pointers, tiny, plan=plan_of([tiny]))
    assert [s.geom_type for s in answer.preview] == ["LineString", "Point"]


def test_the_middle_of_nothing_is_nowhere():
    assert middle_of((BURIAL.id,), GROUND) is None
    assert middle_of((MEADOW.id, OTHER.id), GROUND) == (20.0, 5.0)


# split


def test_a_line_drawn_across_splits_what_is_chosen():
    answer = used(split.TOOL, [press(8, -1), press(8, 11), ENTER], MEADOW)
    parts = [i for i in after(answer).values() if i.kind == grass.KIND and i.id != OTHER.id]
    assert sorted(p.shape.area for p in parts) == [80.0, 120.0]
    assert after(answer)[MEADOW.id].shape.area == 120.0


def test_a_line_needs_two_corners_and_a_corner_twice_counts_once():
    answer = used(split.TOOL, [press(8, -1), press(8, -1), ENTER], MEADOW)
    assert answer.edit is None
    assert answer.prompt == "It needs at least 2 corners: click the next"


def test_a_line_across_keeps_to_right_angles_with_the_key():
    answer = used(
        split.TOOL,
        [press(8, -1), press(8.4, 4, straight=True), over(12, 5, straight=True)],
        MEADOW,
    )
    assert answer.preview[0].equals(LineString([(8, -1), (8, 4), (12, 4)]))


def test_a_line_across_is_taken_back_corner_by_corner():
    begun = [press(8, -1), press(8, 4)]
    assert used(split.TOOL, [*begun, BACK], MEADOW).tool.corners == ((8, -1),)
    assert used(split.TOOL, [*begun, BACK, BACK], MEADOW).prompt == split.ACROSS.first
    assert used(split.TOOL, [*begun, ESC], MEADOW).preview == ()


def test_what_is_to_be_split_is_chosen_by_a_press():
    answer = used(split.TOOL, [press(1, 1, YEW, MEADOW)])
    assert answer.chosen.ids == (MEADOW.id,)
    assert used(split.TOOL, [press(3, 30, YEW)]).prompt == split.ACROSS.choose


def test_what_is_gone_meanwhile_is_not_split():
    begun = used(split.TOOL, [press(8, -1), press(8, 11)], MEADOW)
    answer = begun.tool.take(ENTER, plan_of([OTHER]))
    assert answer.edit is None
    assert answer.prompt == split.ACROSS.choose


# cut out


def test_a_piece_drawn_is_cut_out():
    corners = [press(5, 2), press(9, 2), over(9, 4), press(9, 6)]
    for end in (ENTER, press(5, 2)):
        answer = used(cut_out.TOOL, [*corners, end], MEADOW)
        assert after(answer)[MEADOW.id].shape.area == 200.0 - 8.0
    shown = used(cut_out.TOOL, [*corners, over(5, 6)], MEADOW)
    assert shown.preview[0].area == 16.0
    crossed = used(cut_out.TOOL, [*corners, over(5, -9)], MEADOW)
    assert crossed.preview[0].geom_type == "LineString"


def test_the_ground_of_a_path_is_cut_out_of_a_meadow():
    answer = used(cut_out.TOOL, [taken("thing"), over(1, 5, WAY), press(1, 5, WAY)], MEADOW)
    assert sorted(i.shape.area for i in after(answer).values() if i.kind == grass.KIND) == [
        80.0,
        80.0,
        200.0,
    ]


def test_a_thing_to_cut_by_is_shown_and_what_is_cut_is_none():
    shown = used(cut_out.TOOL, [taken("thing"), over(1, 5, MEADOW, WAY)], MEADOW)
    assert shown.preview[0].equals(shapely.box(-5, 4, 45, 6))
    assert used(cut_out.TOOL, [taken("thing"), over(3, 30, YEW)], MEADOW).preview == ()
    assert shown.offers[0].on
    assert used(cut_out.TOOL, [taken("thing"), press(1, 5, MEADOW)], MEADOW).edit is None
    for end in (ESC, BACK, taken("thing")):
        answer = used(cut_out.TOOL, [taken("thing"), end], MEADOW)
        assert answer.prompt == cut_out.ACROSS.first


def test_only_a_tool_that_has_it_cuts_by_a_thing():
    assert used(split.TOOL, [taken("thing")], MEADOW).prompt == split.ACROSS.first
    lost = ByThing(across=split.ACROSS, ids=(MEADOW.id,))
    assert lost.take(press(1, 5, WAY), GROUND).tool == Ready(split.ACROSS)
    assert isinstance(lost.across, Across)


def test_nothing_is_cut_out_of_a_line():
    assert used(cut_out.TOOL, [press(5, -5, WALL)]).prompt == cut_out.ACROSS.choose
    assert not used(cut_out.TOOL, [over(0, 0)]).offers[0].possible


def test_who_points_at_a_path_in_a_meadow_means_the_path():
    answer = used(turn.TOOL, [press(1, 5, MEADOW, WAY)])
    assert answer.chosen.ids == (WAY.id,)  # 100 m² of path, 200 m² of grass
    yard = new_item(grass.KIND, shapely.box(-100, -100, 100, 100))
    plan = plan_of([MEADOW, WAY, yard])
    answer = used(turn.TOOL, [press(1, 5, yard, MEADOW, WAY)], plan=plan)
    assert answer.chosen.ids == (WAY.id,)


# to a line


def test_a_wall_is_carried_on_to_another():
    answer = used(to_a_line.TOOL, [press(9, -5, WALL), press(15, -3, HEDGE)])
    assert list(after(answer)[WALL.id].shape.coords) == [(0, -5), (15, -5)]
    assert answer.chosen.ids == (WALL.id,)


def test_the_end_nearer_to_the_click_is_meant():
    assert used(to_a_line.TOOL, [press(4, -5, WALL)]).tool.at_start
    assert not used(to_a_line.TOOL, [press(6, -5, WALL)]).tool.at_start
    shown = used(to_a_line.TOOL, [over(4, -5, WALL)])
    assert shown.preview == (Point(0, -5),)


def test_where_a_line_would_end_is_shown():
    shown = used(to_a_line.TOOL, [press(9, -5, WALL), over(15, -3, HEDGE)])
    assert shown.preview[1].equals(LineString([(0, -5), (15, -5)]))
    assert "15.00 m" in shown.figures[0]
    nowhere = used(to_a_line.TOOL, [press(1, -5, WALL), over(15, -3, HEDGE)])
    assert nowhere.figures == ()


def test_only_lines_are_brought_and_not_to_themselves():
    assert used(to_a_line.TOOL, [press(1, 1, MEADOW)]).prompt == to_a_line.LINE
    assert used(to_a_line.TOOL, [press(9, -5, WALL), press(9, -5, WALL)]).edit is None
    assert used(to_a_line.TOOL, [press(9, -5, WALL), ESC]).prompt == to_a_line.LINE
    assert used(to_a_line.TOOL, [ENTER]).prompt == to_a_line.LINE


# align


def test_graves_are_aligned_with_a_side():
    answer = used(align.TOOL, [press(5, 0, MEADOW)], *GRAVES)
    # the side runs east and west, 80 degrees on from 10: the heads turn the short way
    assert after(answer)[GRAVES[0].id].rectangle.bearing_deg == 0.0
    assert after(answer)[GRAVES[0].id].rectangle.centre == pytest.approx(
        GRAVES[0].rectangle.centre, abs=2e-6
    )


def test_the_side_is_shown_before_it_is_clicked():
    shown = used(align.TOOL, [over(5, 0, MEADOW)], *GRAVES)
    assert shown.preview[0].equals(LineString([(0, 0), (20, 0)]))
    assert used(align.TOOL, [over(5, 3, MEADOW)], *GRAVES).preview == ()
    assert used(align.TOOL, [ENTER], *GRAVES).prompt == align.SIDE


def test_what_is_aligned_is_chosen_by_a_press():
    answer = used(align.TOOL, [press(1, 1, MEADOW)])
    assert answer.chosen.ids == (MEADOW.id,)
    assert answer.prompt == align.SIDE
    assert used(align.TOOL, [over(1, 1, MEADOW)]).prompt == align.CHOOSE


def test_what_lies_where_it_was_placed_is_not_touched():
    sheet = new_item(base_plan.KIND, shapely.box(0, 0, 9, 9))
    answer = used(turn.TOOL, [press(1, 1, sheet)], plan=plan_of([sheet]))
    assert answer.chosen.ids == ()
