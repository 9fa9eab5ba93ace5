"""A place by two tapes, against published and elementary figures."""

from collections.abc import Iterable
from math import hypot

import pytest
from shapely import Point

from plan_editor.drafting.tool import Act, Answer, Pointer, Setting
from plan_editor.drafting.tools import draw
from plan_editor.geometry.lengths import FOOT
from plan_editor.kinds import fence, grave, mark, tree, zone
from plan_editor.plan.item import Basis, Method, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid


def marked(*places: tuple[float, float], grid: Grid | None = None, **basis) -> Plan:
    marks = [
        new_item(mark.KIND, Point(p), number=f"M{n}", basis=Basis(**basis))
        for n, p in enumerate(places, 1)
    ]
    return plan_of(marks, grid=grid) if grid else plan_of(marks)


def take(east: float = 0.0, north: float = 0.0) -> Pointer:
    return Pointer(act=Act.TAKE, offer="tapes", east=east, north=north)


def fill(one: str, other: str, first: str = "M1", second: str = "M2") -> Pointer:
    filled = {
        "first mark": first,
        "first tape": one,
        "second mark": second,
        "second tape": other,
    }
    return Pointer(act=Act.FILL, filled=tuple(filled.items()))


def act(which: Act, east: float = 0.0, north: float = 0.0, **more) -> Pointer:
    return Pointer(act=which, east=east, north=north, **more)


def drawn(plan: Plan, pointers: Iterable[Pointer], kind=tree.KIND) -> Answer:
    answer = draw.TOOL.start(Setting(kind=kind))
    for pointer in pointers:
        answer = answer.tool.take(pointer, plan)
    return answer


def item(answer: Answer):
    assert answer.edit is not None, answer.prompt
    (only,) = answer.edit.items
    return only


def placed(plan: Plan, one: str, other: str, toward: tuple[float, float]):
    return item(drawn(plan, [take(), fill(one, other), act(Act.PRESS, *toward)]))


@pytest.mark.parametrize(
    ("apart", "tapes", "place"),
    [
        # Heronian triangles, elementary geometry: 13-14-15, 3-4-5 and 10-17-21
        (14, ("13", "15"), (5, 12)),
        (4, ("3", "5"), (0, 3)),
        (21, ("10", "17"), (6, 8)),
    ],
)
def test_triangles_of_whole_sides(apart, tapes, place):
    plan = marked((0, 0), (apart, 0))
    assert placed(plan, *tapes, (5, 50)).shape.equals(Point(place))
    below = placed(plan, *tapes, (5, -50)).shape
    assert below.equals(Point(place[0], -place[1]))


def test_two_distances_of_a_published_exercise():
    # J. Mahun, Open Access Surveying Library, self-study problem COGO 3: points 1 and FP, the
    # distances 1-LR 573.754 ft and LR-FP 1053.642 ft, and LR at N 836.445, E 1450.051. Here a
    # foot of it is a decimetre, so that the tapes are no longer than tapes are.
    tenth = 0.1
    one, fp, lr = (2000.0, 1000.0), (2435.613, 463.846), (1450.051, 836.445)
    plan = marked(*((e * tenth, n * tenth) for e, n in (one, fp)))
    found = placed(plan, "57.3754", "105.3642", (lr[0] * tenth, lr[1] * tenth)).shape
    assert (found.x / tenth, found.y / tenth) == pytest.approx(lr, abs=0.02)


def test_feet_and_inches_are_read():
    plan = marked((0, 0), (4 * FOOT, 0))
    found = placed(plan, "3'", "5' 0\"", (0, 9)).shape
    assert (found.x, found.y) == pytest.approx((0, 3 * FOOT), abs=0.001)


def test_a_tape_reads_ground_metres_and_the_grid_makes_them_shorter():
    # 0.999889: scale factor of the British National Grid at that place; see test_grid_facts
    grid = Grid(crs="EPSG:27700", east=553_112.0, north=421_034.0)
    plan = marked((0, 0), (100, 0), grid=grid)
    found = placed(plan, "80", "80", (50, 99)).shape
    assert hypot(found.x, found.y) == pytest.approx(80 * 0.999889, abs=0.001)


def test_how_well_it_is_known_comes_from_tapes_marks_and_the_angle_of_crossing():
    square = placed(marked((0, 0), (5, 0)), "3", "4", (2, 9)).basis  # 3-4-5: a right angle
    assert square.method is Method.TAPED
    assert square.source == "tapes from M1 and M2"
    assert 0.005 < square.sd_m < 0.05
    unsure = placed(marked((0, 0), (5, 0), sd_m=0.3), "3", "4", (2, 9)).basis
    assert unsure.sd_m == pytest.approx(hypot(0.3, square.sd_m), abs=0.002)
    flat = placed(marked((0, 0), (10, 0)), "5.1", "5.1", (5, 9)).basis
    assert flat.sd_m > 2 * square.sd_m
    touching = placed(marked((0, 0), (10, 0)), "5", "5", (5, 9))
    assert touching.shape.equals(Point(5, 0))
    assert 0.1 < touching.basis.sd_m < 1.0


def test_tapes_that_do_not_meet_are_refused_with_what_is_wrong():
    plan = marked((0, 0), (25, 0))
    short = drawn(plan, [take(), fill("14.2", "3.1")])
    assert short.prompt.startswith("14.20 m and 3.10 m do not reach each other: M1 and M2 lie")
    assert "25.00 m apart" in short.prompt
    assert short.edit is None
    past = drawn(plan, [take(), fill("60", "3")])
    assert "60.00 m goes past all that 3.00 m can reach" in past.prompt


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("", "3"), "is not typed yet"),
        (("3 yards", "3"), "is not a length"),
        (("0", "3"), "longer than nothing"),
        (("3", "1e9"), "is not a length"),
        (("3", "201"), "not longer than 200 m"),
        (("3", "3", "M9"), "There is no mark “M9”"),
        (("3", "3", "M1", ""), "There is no mark “”"),
        (("3", "3", "m 1", "M1"), "from the same place"),
    ],
)
def test_what_cannot_be_read_is_said(typed, said):
    answer = drawn(marked((0, 0), (4, 0)), [take(), fill(*typed)])
    assert said in answer.prompt
    assert "othing was" in answer.prompt
    assert answer.blanks[0].name == "first mark"


def test_the_nearest_two_marks_are_offered_and_a_click_on_a_mark_offers_that():
    plan = marked((0, 0), (50, 0), (90, 0))
    asked = drawn(plan, [take(95, 3)])
    assert [b.text for b in asked.blanks] == ["M3", "", "M2", ""]
    (first,) = (i for i in plan.items.values() if i.number == "M1")
    clicked = asked.tool.take(act(Act.PRESS, hits=(first.id,)), plan)
    assert [b.text for b in clicked.blanks] == ["M2", "", "M1", ""]
    assert asked.tool.take(act(Act.PRESS), plan).tool == asked.tool


def test_two_marks_are_needed():
    answer = drawn(marked((0, 0)), [take()])
    assert answer.prompt.startswith("Two marks with numbers are needed")
    assert answer.tool == drawn(Plan(), []).tool


def test_both_circles_are_shown_and_the_side_of_the_pointer_is_taken():
    plan = marked((0, 0), (4, 0))
    shown = drawn(plan, [take(), fill("3", "5"), act(Act.MOVE, 1, -9)])
    rings = [s for s in shown.preview if s.geom_type == "LinearRing"]
    assert [round(r.length / 6.2832, 1) for r in rings] == [3.0, 5.0]
    assert shown.preview[-1].equals(Point(0, -3))
    assert shown.figures[0].startswith("3.00 m (9' 10")
    assert "from M1" in shown.figures[0]
    entered = drawn(plan, [take(), fill("3", "5"), act(Act.FINISH, 1, 9)])
    assert item(entered).shape.equals(Point(0, 3))


def test_tapes_can_be_given_up_or_typed_again():
    plan, ready = marked((0, 0), (4, 0)), drawn(Plan(), []).tool
    met = [take(), fill("3", "5")]
    assert drawn(plan, [*met, act(Act.BACK)]).blanks
    assert drawn(plan, [*met, act(Act.BACK), act(Act.BACK)]).tool == ready
    assert drawn(plan, [*met, act(Act.TAKE)]).tool == ready
    assert drawn(plan, [*met[:1], act(Act.TAKE)]).tool == ready
    assert drawn(plan, [*met, act(Act.CANCEL)]).tool == ready
    assert drawn(plan, [*met[:1], act(Act.CANCEL)]).tool == ready
    again = drawn(plan, [*met, fill("5", "3"), act(Act.PRESS, 0, 9)])
    assert item(again).shape.equals(Point(4, 3))


def test_a_shape_is_taped_only_where_every_corner_was():
    plan = marked((0, 0), (4, 0))
    first = [take(), fill("3", "5"), act(Act.PRESS, 0, 9)]
    second = [take(), fill("5", "3"), act(Act.PRESS, 4, 9)]
    line = item(drawn(plan, [*first, *second, act(Act.FINISH)], fence.KIND))
    assert list(line.shape.coords) == [(0, 3), (4, 3)]
    assert line.basis.method is Method.TAPED
    assert line.basis.source == "two tapes to each corner"
    mixed = item(drawn(plan, [*first, act(Act.PRESS, 9, 9), act(Act.FINISH)], fence.KIND))
    assert mixed.basis == Basis()
    area = [*first, *second, act(Act.PRESS, 9, 9), act(Act.FINISH)]
    assert item(drawn(plan, area, zone.KIND)).basis == Basis()


def test_one_taped_corner_does_not_make_a_taped_grave():
    plan = marked((0, 0), (4, 0))
    first = [take(), fill("3", "5"), act(Act.PRESS, 0, 9)]
    made = item(
        drawn(plan, [*first, act(Act.PRESS, 0, 4.2), act(Act.PRESS, 2.5, 3)], grave.KIND)
    )
    assert (made.rectangle.east, made.rectangle.north) == pytest.approx((0, 3))
    assert made.basis == Basis()
