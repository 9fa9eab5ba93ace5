"""A whole side shifted parallel to itself: by the tool, and every case by hand."""

import pytest
import shapely
from shapely import LineString, Polygon

from plan_editor.drafting.corners import Corner, middles
from plan_editor.drafting.sides import shift_to, side_shifted
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting
from plan_editor.drafting.tools import reshape
from plan_editor.edits.places import Reshape
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grass, grave
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of

FIELD = Polygon([(0, 0), (10, 0), (12, 6), (0, 6)])
SLANT = new_item(grass.KIND, FIELD)


def corners(shape):
    return shapely.get_coordinates(shape).round(9).tolist()


def side(shape, near):
    """Return which side has its middle there."""
    return next(c for c, place in middles(shape) if place == near)


def test_the_sides_next_to_it_are_carried_on_along_their_own_lines():
    # the top at 6 goes to 9: the slanting side rises 3 in 1, so the corner comes to 13
    after = side_shifted(FIELD, side(FIELD, (6.0, 6.0)), (4.0, 9.0))
    assert corners(after) == [[0, 0], [10, 0], [13, 9], [0, 9], [0, 0]]


def test_a_side_is_cut_back_too():
    after = side_shifted(FIELD, side(FIELD, (6.0, 6.0)), (4.0, 3.0))
    assert corners(after) == [[0, 0], [10, 0], [11, 3], [0, 3], [0, 0]]


def test_the_side_that_closes_the_ring_is_shifted_as_any():
    after = side_shifted(FIELD, side(FIELD, (0.0, 3.0)), (-2.0, 99.0))
    assert after.equals(Polygon([(-2, 0), (10, 0), (12, 6), (-2, 6)]))


def test_where_a_neighbour_runs_straight_on_a_corner_comes_in():
    bay = Polygon([(0, 0), (3, 0), (7, 0), (10, 0), (10, 6), (0, 6)])
    after = side_shifted(bay, side(bay, (5.0, 0.0)), (5.0, -2.0))
    wanted = [(0, 0), (3, 0), (3, -2), (7, -2), (7, 0), (10, 0), (10, 6), (0, 6)]
    assert after.equals(Polygon(wanted))
    assert after.area == 60.0 + 8.0


def test_the_open_ends_of_a_line_move_square():
    line = LineString([(0, 0), (4, 0), (4, 4)])
    assert corners(side_shifted(line, Corner(0, 1), (0.0, 1.0))) == [[0, 1], [4, 1], [4, 4]]
    assert corners(side_shifted(line, Corner(0, 2), (5.0, 0.0))) == [[0, 0], [5, 0], [5, 4]]


def test_a_side_of_a_hole_is_shifted_and_the_outline_stays():
    yard = Polygon(shapely.box(0, 0, 9, 9).exterior, [[(3, 3), (6, 3), (6, 6), (3, 6)]])
    after = side_shifted(yard, side(yard, (4.5, 3.0)), (4.5, 2.0))
    assert after.area == 81.0 - 12.0


def test_how_far_a_side_is_shifted():
    by, normal = shift_to(FIELD, side(FIELD, (5.0, 0.0)), (3.0, -2.5))
    assert by == pytest.approx(2.5)
    assert normal == pytest.approx((0.0, -1.0))


def used(pointers: list[Pointer], item: Item) -> Answer:
    answer = reshape.TOOL.start(Setting(chosen=(item.id,)))
    for pointer in pointers:
        answer = answer.tool.take(pointer, plan_of([item]))
    return answer


def did(which: Act, east: float, north: float, **more) -> Pointer:
    return Pointer(act=which, east=east, north=north, chosen=(SLANT.id,), **more)


def test_a_middle_drawn_with_the_straight_key_shifts_its_side():
    drag = [did(Act.PRESS, 6, 6), did(Act.MOVE, 4, 8, straight=True)]
    shown = used(drag, SLANT)
    assert shown.figures == ("shifted 2.00 m (6' 6¾\")", "90.7 m²")
    assert shown.prompt == reshape.SHIFT
    put = used([*drag, did(Act.RELEASE, 4, 9, straight=True)], SLANT)
    assert isinstance(put.edit, Reshape)
    assert put.edit.place.equals(Polygon([(0, 0), (10, 0), (13, 9), (0, 9)]))


def test_without_the_key_a_corner_comes_in():
    put = used([did(Act.PRESS, 6, 6), did(Act.MOVE, 4, 8), did(Act.RELEASE, 4, 9)], SLANT)
    assert shapely.get_num_coordinates(put.edit.place) == 6


def test_the_offer_does_what_the_key_does_and_a_length_is_typed():
    taken = [did(Act.PRESS, 6, 6), did(Act.TAKE, 6, 6, offer="side")]
    shown = used([*taken, did(Act.MOVE, 4, 7)], SLANT)
    assert shown.offers[0].on
    assert shown.origin == (6.0, 6.0)
    assert shown.toward == pytest.approx((6.0, 7.0))
    put = used([*taken, did(Act.PRESS, 6, 9, typed=True)], SLANT)
    assert put.edit.place.equals(Polygon([(0, 0), (10, 0), (13, 9), (0, 9)]))
    again = used([*taken, did(Act.TAKE, 6, 6, offer="side")], SLANT)
    assert not again.offers[0].on


def test_a_rectangle_has_no_such_offer_because_its_sides_go_so_anyway():
    place = Rectangle(east=0.0, north=0.0, width=2.0, length=4.0)
    held = new_item(grave.KIND, place)
    first = Pointer(act=Act.PRESS, east=2.0, north=2.0, chosen=(held.id,))
    shown = used([first, Pointer(act=Act.MOVE, east=2.0, north=3.0, straight=True)], held)
    assert shown.offers == ()


def test_what_is_chosen_shows_its_corners_at_once_and_is_told_its_own_way():
    plot = new_item(grave.KIND, Rectangle(east=0, north=0, width=1, length=2, bearing_deg=0))
    plan = plan_of((plot, SLANT))
    for item, said in ((plot, reshape.SIDES), (SLANT, reshape.TAKE)):
        answer = reshape.TOOL.start(Setting(chosen=(item.id,), plan=plan))
        assert answer.prompt == said
        assert answer.preview
    assert reshape.TOOL.start(Setting(plan=plan)).prompt == reshape.CHOOSE
