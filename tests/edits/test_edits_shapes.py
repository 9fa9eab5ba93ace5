"""Splitting, cutting out, bringing to a line and simplifying, as edits: sums by hand."""

from dataclasses import replace
from typing import Any

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, box
from strategies import kind_of, plain, plans

from plan_editor.edits.shapes import CutOut, Simplify, Split, ToLine, ground_of
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds.burial import BurialDetails
from plan_editor.kinds.path import PathDetails
from plan_editor.kinds.zone import ZoneDetails
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

SPACE = Rectangle(east=0.0, north=0.0, width=2.0, length=3.0)
C14 = replace(plain(kind_of("grave"), 1).on(SPACE), number="C 14")
LIES = replace(plain(kind_of("burial"), 2), details=BurialDetails(grave=C14.id))
MEADOW = replace(
    plain(kind_of("zone"), 3).at(box(10, 0, 20, 10)), details=ZoneDetails(), number="Z 1"
)
PATH = replace(
    plain(kind_of("path"), 4).at(LineString([(9, 5), (21, 5)])),
    details=PathDetails(width_m=2.0),
)
WALL = plain(kind_of("wall"), 5).at(LineString([(0, -5), (8, -5)]))
HEDGE = plain(kind_of("hedge"), 6).at(LineString([(15, -10), (15, -2)]))
TREE = plain(kind_of("tree"), 7).at(Point(30, 30))
SCAN = plain(kind_of("base_plan"), 8)
FENCE = plain(kind_of("fence"), 9).at(LineString([(9, 5), (21, 5)]))
ITEMS = (C14, LIES, MEADOW, PATH, WALL, HEDGE, TREE, SCAN, FENCE)
PLAN = plan_of(ITEMS, grid=Grid(crs="EPSG:27700", east=553_000.0, north=421_000.0))
LOST = ItemId("f" * 32)
SEED = ItemId("a" * 32)


def after(edit: Edit, plan: Plan = PLAN) -> Plan:
    document = Document(plan)
    document.apply(edit)
    done = document.plan
    document.undo()
    assert dict(document.plan.items) == dict(plan.items)
    return done


def refusal(edit: Edit, plan: Plan = PLAN) -> str:
    with pytest.raises(EditRefused) as caught:
        Document(plan).apply(edit)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


def fresh(plan: Plan, before: Plan = PLAN) -> list[Item[Any]]:
    return [i for i in plan.items.values() if i.id not in before.items]


# split


def test_the_larger_part_of_a_grave_keeps_number_and_burial_and_both_stay_rectangles():
    told = after(Split(ids=(C14.id,), cut=((-1.0, 0.5), (4.0, 0.5)), seed=SEED))
    kept, (part,) = told.items[C14.id], fresh(told)
    assert (kept.number, part.number) == ("C 14", "")
    assert (kept.shape.area, part.shape.area) == (4.5, 1.5)
    # the head line still runs north, at the west end
    assert kept.rectangle == Rectangle(east=0.0, north=0.5, width=1.5, length=3.0)
    assert part.rectangle == Rectangle(east=0.0, north=0.0, width=0.5, length=3.0)
    assert told.items[LIES.id].details.grave == C14.id
    assert part.details == C14.details
    assert part.basis == C14.basis


def test_a_grave_split_aslant_becomes_two_outlines():
    told = after(Split(ids=(C14.id,), cut=((-1.0, 0.0), (4.0, 2.0)), seed=SEED))
    kept, (part,) = told.items[C14.id], fresh(told)
    assert kept.rectangle is None
    assert part.rectangle is None
    assert kept.shape.area + part.shape.area == pytest.approx(6.0, abs=0.003)


def test_a_grave_split_across_keeps_its_head_where_it_was():
    turned = C14.on(SPACE.turned(200.0, (0.0, 0.0)))
    (e, n), way = turned.rectangle.centre, turned.rectangle
    cut = LineString([(e, n - 9), (e, n + 9)])
    across = shapely.affinity.rotate(cut, -way.bearing_deg, origin=(e, n))
    told = after(
        Split(ids=(C14.id,), cut=tuple(across.coords), seed=SEED), plan_of([turned, LIES])
    )
    for item in told.of(kind_of("grave")):
        assert item.rectangle.bearing_deg % 360 == pytest.approx(200.0, abs=0.06)
        assert (item.rectangle.width, item.rectangle.length) == pytest.approx(
            (2.0, 1.5), abs=0.002
        )


def test_several_are_split_by_one_line_and_others_stay():
    plot = plain(kind_of("grave"), 10).on(SPACE.moved(0.0, 4.0))
    plan = plan_of([*ITEMS, plot])
    ids = (C14.id, plot.id, MEADOW.id)
    told = after(Split(ids=ids, cut=((1.5, -1.0), (1.5, 8.0)), seed=SEED), plan)
    assert len(fresh(told, plan)) == 2
    assert told.items[MEADOW.id] is MEADOW


def test_a_wall_is_split_where_it_is_crossed():
    told = after(Split(ids=(WALL.id,), cut=((3.0, -6.0), (3.0, -4.0)), seed=SEED))
    assert told.items[WALL.id].shape == LineString([(3, -5), (8, -5)])
    assert fresh(told)[0].shape == LineString([(0, -5), (3, -5)])


def test_a_line_that_goes_across_nothing_is_refused_with_the_place():
    said = refusal(Split(ids=(MEADOW.id,), cut=((9.0, 5.0), (15.0, 5.0))))
    assert "E 553015.00, N 421005.00" in said
    assert "two ends that lie apart" in refusal(Split(ids=(MEADOW.id,), cut=((1.0, 1.0),)))
    assert "two ends" in refusal(Split(ids=(MEADOW.id,), cut=((1.0, 1.0), (1.0, 1.0))))


@pytest.mark.parametrize(
    "edit", [Split(ids=(), cut=((0, 0), (1, 1))), Split(ids=(LOST,), cut=())]
)
def test_nothing_or_what_is_gone_cannot_be_split(edit):
    refusal(edit)


def test_points_scans_and_burials_cannot_be_split():
    for item in (TREE, SCAN, LIES):
        said = refusal(Split(ids=(item.id,), cut=((-99.0, 0.0), (99.0, 0.0))))
        assert "neither a line nor an area" in said or "lies where it was placed" in said


def test_what_a_split_is_called_in_the_undo_menu():
    assert Split(ids=(C14.id,), cut=(), called="grave C 14").title == "Split grave C 14"
    assert Split(ids=(C14.id, WALL.id), cut=()).title == "Split 2 things"
    assert CutOut(ids=(C14.id,)).title == "Cut a piece out of 1 thing"
    assert ToLine(id=C14.id, at_start=True, to=WALL.id, near=(0, 0)).title == (
        "Bring 1 thing to a line"
    )
    assert Simplify(ids=(C14.id,), tolerance=1.0, called="a wall").title == "Simplify a wall"


@given(plans(), st.floats(0, 180), st.data())
def test_split_parts_of_any_plan_make_up_what_was_there(plan, way, data):
    flat = [i for i in plan.items.values() if i.shape is not None and not i.kind.pinned]
    flat = [i for i in flat if shapely.get_dimensions(i.shape) == 2]
    if not flat:
        return
    item = data.draw(st.sampled_from(flat))
    middle = item.shape.representative_point()
    line = LineString([(middle.x, middle.y - 900), (middle.x, middle.y + 900)])
    cut = shapely.affinity.rotate(line, way, origin=middle)
    edit = Split(ids=(item.id,), cut=tuple(cut.coords), seed=SEED)
    try:
        told = after(edit, plan)
    except EditRefused as why:
        assert "thinner than a millimetre" in str(why) or "touches" in str(why)  # noqa: PT017
        return
    parts = [told.items[item.id], *fresh(told, plan)]
    assert len(parts) > 1
    # every new corner is rounded by 0.7 mm at most, and lies on the edge or the cut
    allowed = 0.00071 * (item.shape.length + 2 * sum(p.shape.length for p in parts))
    assert sum(p.shape.area for p in parts) == pytest.approx(item.shape.area, abs=allowed)
    assert [p.number for p in parts[1:]] == [""] * (len(parts) - 1)


# cut out


def test_a_piece_of_a_zone_is_cut_out_and_a_hole_is_left():
    piece = ((12.0, 2.0), (14.0, 2.0), (14.0, 5.0), (12.0, 5.0))
    shape = after(CutOut(ids=(MEADOW.id,), piece=piece)).items[MEADOW.id].shape
    assert shape.area == 100.0 - 6.0
    assert len(shape.interiors) == 1


def test_a_path_with_a_width_is_cut_out_of_a_zone_and_two_parts_are_left():
    told = after(CutOut(ids=(MEADOW.id,), by=PATH.id, seed=SEED))
    (part,) = fresh(told)
    # the path runs right across in the middle, 2 m wide
    assert [told.items[MEADOW.id].shape.area, part.shape.area] == [40.0, 40.0]
    assert (told.items[MEADOW.id].number, part.number) == ("Z 1", "")
    assert told.items[PATH.id] is PATH


def test_what_a_piece_does_not_touch_stays_as_it_is():
    piece = ((12.0, 2.0), (14.0, 2.0), (14.0, 5.0))
    told = after(CutOut(ids=(MEADOW.id, C14.id), piece=piece))
    assert told.items[C14.id] is C14


def test_a_grave_of_which_an_end_is_cut_off_is_a_shorter_rectangle():
    piece = ((2.5, -1.0), (5.0, -1.0), (5.0, 5.0), (2.5, 5.0))
    told = after(CutOut(ids=(C14.id,), piece=piece))
    assert told.items[C14.id].rectangle == replace(SPACE, length=2.5)


def test_a_piece_that_cannot_be_cut_out_is_refused_and_why():
    whole = ((9.0, -1.0), (21.0, -1.0), (21.0, 11.0), (9.0, 11.0))
    far = ((40.0, 0.0), (41.0, 0.0), (41.0, 2.0))
    tie = ((12.0, 2.0), (16.0, 6.0), (16.0, 2.0), (12.0, 6.0))
    assert "Nothing would be left of" in refusal(CutOut(ids=(MEADOW.id,), piece=whole))
    assert "lies on no area" in refusal(CutOut(ids=(MEADOW.id,), piece=far))
    said = refusal(CutOut(ids=(MEADOW.id,), piece=tie))
    assert "by E 553012.00, N 421002.00" in said
    assert "has an outline that crosses itself, or no area" in said
    assert "The piece has an outline" in refusal(CutOut(ids=(MEADOW.id,)))
    assert "covers no ground" in refusal(CutOut(ids=(MEADOW.id,), by=FENCE.id))
    assert "covers no ground" in refusal(CutOut(ids=(MEADOW.id,), by=TREE.id))
    assert "lies on no area" in refusal(CutOut(ids=(MEADOW.id,), by=MEADOW.id))
    assert "no longer on the plan" in refusal(CutOut(ids=(MEADOW.id,), by=LOST))


def test_the_ground_of_a_thing_is_its_area_or_its_line_with_its_width():
    assert ground_of(MEADOW) == MEADOW.shape
    assert ground_of(PATH).area == 24.0
    assert ground_of(TREE) is None
    assert ground_of(FENCE) is None


# to a line


def test_a_wall_is_carried_on_to_a_hedge_that_is_carried_on_to_the_wall():
    on = ToLine(id=HEDGE.id, at_start=False, to=WALL.id, near=(8.0, -5.0))
    assert "meets" in refusal(on)  # the hedge, carried on north, misses the wall
    told = after(ToLine(id=WALL.id, at_start=False, to=HEDGE.id, near=(15.0, -5.0)))
    assert told.items[WALL.id].shape == LineString([(0, -5), (15, -5)])
    back = ToLine(id=HEDGE.id, at_start=False, to=WALL.id, near=(15.0, -5.0))
    assert after(back, told).items[HEDGE.id].shape == LineString([(15, -10), (15, -5)])


def test_what_is_brought_nowhere_is_refused_with_its_end():
    said = refusal(ToLine(id=WALL.id, at_start=True, to=HEDGE.id, near=(15.0, -5.0)))
    assert "E 553000.00, N 420995.00" in said
    for one, other in ((MEADOW, WALL), (WALL, WALL), (WALL, LIES)):
        edit = ToLine(id=one.id, at_start=False, to=other.id, near=(0.0, 0.0))
        assert "cannot be brought to" in refusal(edit)
    assert "neither" in refusal(ToLine(id=TREE.id, at_start=False, to=WALL.id, near=(0.0, 0.0)))


# simplify


def test_what_two_zones_share_stays_shared():
    edge = [(10, 0), (10.2, 3), (9.9, 6), (10, 10)]
    west = plain(kind_of("zone"), 11).at(Polygon([(0, 0), *edge, (0, 10)]))
    east = plain(kind_of("zone"), 12).at(Polygon([*edge[::-1], (20, 0), (20, 10)]))
    plan = plan_of([west, east])
    told = after(Simplify(ids=(west.id, east.id), tolerance=0.5), plan).items
    assert [told[i].shape.area for i in (west.id, east.id)] == [100.0, 100.0]
    assert shapely.coverage_is_valid([told[west.id].shape, told[east.id].shape])
    # alone, one of them must not leave the other
    said = refusal(Simplify(ids=(west.id,), tolerance=0.5), plan)
    assert "No corner can be left out" in said


def test_only_those_that_lose_a_corner_change():
    bent = plain(kind_of("wall"), 13).at(LineString([(0, 50), (5, 50.1), (10, 50)]))
    plan = plan_of([*ITEMS, bent])
    told = after(Simplify(ids=(bent.id, HEDGE.id), tolerance=0.2), plan)
    assert told.items[bent.id].shape == LineString([(0, 50), (10, 50)])
    assert told.items[HEDGE.id] is HEDGE


def test_an_outline_that_would_vanish_is_refused():
    wavy = plain(kind_of("zone"), 14).at(
        Polygon([(50, 0), (52, 0.1), (54, 0), (54, 2), (52, 2.1), (50, 2)])
    )
    assert "cannot lie like that" in refusal(
        Simplify(ids=(wavy.id,), tolerance=50.0), plan_of([wavy])
    )
