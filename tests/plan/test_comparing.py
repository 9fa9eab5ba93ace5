"""Two plans compared; distances and turns are worked out by hand."""

from dataclasses import replace
from math import isclose
from typing import Any

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon
from strategies import edits, one_of_each, plain

from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave, tree, wall
from plan_editor.kinds.grave import State
from plan_editor.plan.comparing import Comparison, Pair, compared
from plan_editor.plan.differences import DETAILS, differences, fields_of
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Item, ItemId, Method, Status
from plan_editor.plan.kind import kinds
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

GRAVE = replace(plain(grave.KIND), number="C 14")
OAK = plain(tree.KIND, 2)
SEA = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)


def plan(*items: Item[Any], grid: Grid | None = None) -> Plan:
    return plan_of(items, grid=grid)


def called(item: Item[Any], name: str) -> Item[Any]:
    return replace(item, id=ItemId(name))


def changed(before: Item[Any], after: Item[Any]) -> Pair:
    found = compared(plan(before), plan(after))
    assert (found.added, found.removed, found.alike) == ((), (), ())
    (one,) = found.changed
    return one


def fields(pair: Pair) -> list[str]:
    return [d.field.detail.name for d in pair.differences]


def test_a_plan_is_the_same_as_itself() -> None:
    found = compared(one_of_each(), one_of_each())
    assert not found.differs
    assert found.same == len(one_of_each().items)


@given(data=st.data())
def test_what_an_edit_changed_is_what_differs(data: st.DataObject) -> None:
    work = Document(one_of_each())
    edit = data.draw(edits(work.plan))
    try:
        entry = work.apply(edit)
    except EditRefused:
        entry = None
    if entry is None or entry.moves_grid:
        return
    found = compared(one_of_each(), work.plan)
    come = {*found.added, *(p.after for p in found.alike)}
    gone = {*found.removed, *(p.before for p in found.alike)}
    assert come == {c.after for c in entry.changes if c.before is None}
    assert gone == {c.before for c in entry.changes if c.after is None}
    there = {c.id for c in entry.changes if c.before is not None and c.after is not None}
    assert {p.after.id for p in found.changed} <= there
    for pair in found.changed:
        mended = pair.before
        for one in pair.differences:
            mended = one.field.having(mended, one.after)
        assert mended == pair.after


@given(data=st.data())
def test_differences_lead_from_one_state_to_the_other_and_back(data: st.DataObject) -> None:
    found = one_of_each().items.values()
    before = data.draw(st.sampled_from([*found]))
    after = data.draw(st.sampled_from([i for i in found if i.kind == before.kind]))
    after = replace(after, id=before.id)
    there, back = before, after
    for one in differences(before, after):
        there = one.field.having(there, one.after)
        back = one.field.having(back, one.before)
    assert (there, back) == (after, before)


@pytest.mark.parametrize("kind", kinds(), ids=lambda k: k.name)
def test_every_field_of_every_kind_has_a_title_and_is_read(kind: Any) -> None:
    item = plain(kind)
    for one in fields_of(kind):
        assert one.detail.about.title[0].isupper()
        assert one.having(item, one.value(item)) == item
    names = [f.detail.name for f in fields_of(kind) if f.of == DETAILS]
    assert names == [d.name for d in kind.entries()]


def test_a_move_is_told_in_metres_and_by_its_bearing() -> None:
    pair = changed(OAK, OAK.at(shapely.affinity.translate(OAK.shape, 3.0, -4.0)))
    assert fields(pair) == ["place"]
    moved = pair.moved
    assert moved is not None
    assert isclose(moved.distance_m, 5.0)
    assert isclose(moved.bearing_deg, 143.130102, abs_tol=1e-5)  # 180° - atan(3/4)
    assert (moved.turned_deg, moved.reshaped) == (0.0, False)


@pytest.mark.parametrize(("bearing", "turned"), [(10.0, 10.0), (350.0, -10.0), (180.0, -180.0)])
def test_a_turn_is_told_clockwise_within_half_a_turn(bearing: float, turned: float) -> None:
    assert GRAVE.rectangle is not None
    about = GRAVE.rectangle.centre
    after = GRAVE.on(GRAVE.rectangle.turned(bearing - GRAVE.rectangle.bearing_deg, about))
    before = GRAVE.on(GRAVE.rectangle.turned(-GRAVE.rectangle.bearing_deg, about))
    moved = changed(before, after).moved
    assert moved is not None
    assert isclose(moved.turned_deg, turned, abs_tol=1e-6)
    assert moved.distance_m < 0.001
    assert not moved.reshaped


def test_another_size_or_another_outline_is_told_as_another_shape() -> None:
    assert GRAVE.rectangle is not None
    wider = GRAVE.on(replace(GRAVE.rectangle, width=1.5))
    moved = changed(GRAVE, wider).moved
    assert moved is not None
    assert moved.reshaped
    line = plain(wall.KIND).at(LineString([(0, 0), (5, 0)]))
    bent = line.at(LineString([(0, 0), (2, 1), (5, 0)]))
    longer = changed(line, bent).moved
    assert longer is not None
    assert longer.reshaped


def test_a_place_that_was_given_or_taken_away_is_no_move() -> None:
    nowhere = replace(GRAVE, shape=None, rectangle=None)
    for one, other in ((nowhere, GRAVE), (GRAVE, nowhere)):
        pair = changed(one, other)
        assert fields(pair) == ["place"]
        assert pair.moved is None


def test_an_outline_that_begins_at_another_corner_is_the_same_place() -> None:
    corners = [(0, 0), (4, 0), (4, 3), (0, 3)]
    one = GRAVE.at(Polygon(corners))
    other = GRAVE.at(Polygon(corners[2:] + corners[:2]))
    assert one != other
    assert not compared(plan(one), plan(other)).differs


def test_a_line_that_leads_the_other_way_lies_otherwise() -> None:
    line = plain(wall.KIND).at(LineString([(0, 0), (5, 0)]))
    assert fields(changed(line, line.at(LineString([(5, 0), (0, 0)])))) == ["place"]


def test_words_numbers_status_and_basis_are_compared_field_by_field() -> None:
    after = replace(
        GRAVE,
        number="C 15",
        status=Status.TO_BE_REMOVED,
        details=replace(GRAVE.details, state=State.FREE, coffins=2),
        basis=Basis(method=Method.TAPED, sd_m=0.02),
    )
    pair = changed(GRAVE, after)
    assert fields(pair) == ["number", "state", "coffins", "status", "method", "sd_m"]
    assert pair.moved is None


def test_what_is_on_one_plan_alone_was_added_or_removed() -> None:
    found = compared(plan(GRAVE), plan(OAK))
    assert (found.added, found.removed) == ((OAK,), (GRAVE,))
    assert found.differs


def test_one_id_of_two_kinds_is_two_things() -> None:
    found = compared(plan(GRAVE), plan(called(OAK, GRAVE.id)))
    assert [i.kind for i in found.added] == [tree.KIND]
    assert [i.kind for i in found.removed] == [grave.KIND]


# two origins


def pairs(found: Comparison) -> list[tuple[str, str]]:
    return sorted((p.before.id, p.after.id) for p in found.alike)


def test_things_of_two_origins_seem_the_same_by_number() -> None:
    other = replace(called(GRAVE, "other"), number="c14")
    stone = replace(called(plain(tree.KIND, 3), "tree"), number="C14")
    found = compared(plan(GRAVE), plan(other, stone))
    assert pairs(found) == [(GRAVE.id, "other")]
    assert found.added == (stone,)
    assert found.removed == ()
    assert fields(found.alike[0]) == ["number"]


def test_a_number_borne_twice_tells_nothing_but_the_place_does() -> None:
    one = called(GRAVE, "one")
    other = called(GRAVE.on(Rectangle(east=50, north=0, width=1, length=2)), "other")
    found = compared(plan(GRAVE), plan(one, other))
    assert pairs(found) == [(GRAVE.id, "one")]
    assert found.added == (other,)


@pytest.mark.parametrize(("far", "alike"), [(0.49, 1), (0.51, 0)])
def test_things_of_a_kind_within_half_a_metre_seem_the_same(far: float, alike: int) -> None:
    near = called(OAK.at(Point(OAK.shape.x + far, OAK.shape.y)), "near")
    found = compared(plan(OAK), plan(near))
    assert len(found.alike) == alike
    assert found.differs


def test_each_is_paired_with_its_nearest_once() -> None:
    trees = [called(OAK.at(Point(x, 0)), f"old {n}") for n, x in enumerate((0.0, 0.3))]
    new = [called(OAK.at(Point(x, 0)), f"new {n}") for n, x in enumerate((0.1, 0.45))]
    assert pairs(compared(plan(*trees), plan(*new))) == [("old 0", "new 0"), ("old 1", "new 1")]
    assert pairs(compared(plan(*trees), plan(new[0]))) == [("old 0", "new 0")]


def test_what_lies_nowhere_is_paired_by_number_alone() -> None:
    entries = [called(plain(burial.KIND), name) for name in ("a", "b")]
    found = compared(plan(entries[0]), plan(entries[1]))
    assert not found.alike


# grids


def test_another_origin_of_the_same_system_changes_nothing() -> None:
    there = Grid(crs=SEA.crs, east=SEA.east - 100.0, north=SEA.north + 50.0)
    assert GRAVE.rectangle is not None
    moved = GRAVE.on(GRAVE.rectangle.moved(100.0, -50.0))
    oak = OAK.at(shapely.affinity.translate(OAK.shape, 100.0, -50.0))
    entry = plain(burial.KIND, 3)
    found = compared(plan(GRAVE, OAK, entry, grid=SEA), plan(moved, oak, entry, grid=there))
    assert not found.differs
    assert found.places
    further = moved.on(GRAVE.rectangle.moved(101.0, -50.0))
    (pair,) = compared(plan(GRAVE, grid=SEA), plan(further, grid=there)).changed
    assert pair.moved is not None
    assert isclose(pair.moved.distance_m, 1.0)


def test_another_origin_moves_no_grave_whose_outline_lies_on_half_a_millimetre() -> None:
    # the outline is rounded to whole millimetres, up about one origin and down about the other
    for n in range(40):
        held = Rectangle(east=161.6305 + n / 7, north=9.4, width=1, length=2, bearing_deg=174.0)
        held = replace(held, east=round(held.east, 3) + 0.0005)
        before = GRAVE.on(held)
        after = GRAVE.on(held.moved(99.877, 0.1))
        other = replace(SEA, east=SEA.east - 99.877, north=SEA.north - 0.1)
        found = compared(plan(before, grid=SEA), plan(after, grid=other))
        assert found.changed == ()
        shifted = GRAVE.on(held.moved(99.878, 0.1))
        assert compared(plan(before, grid=SEA), plan(shifted, grid=other)).changed


def test_places_are_compared_in_true_coordinates_of_another_system() -> None:
    # Irish Transverse Mercator of a place in the Irish Sea, from the British National Grid:
    # the way there is that of survey/grids, which is held against OSTN15's test points
    ireland = Grid(crs="EPSG:2157", east=818000.0, north=751000.0)
    sea = Grid(crs="EPSG:27700", east=220000.0, north=400000.0)
    one = OAK.at(Point(0, 0))
    found = compared(plan(one, GRAVE, grid=sea), plan(one, grid=ireland))
    (pair,) = found.changed
    there = pair.before.shape
    assert there is not None
    back = compared(plan(one.at(there), grid=ireland), plan(one, grid=sea))
    assert not back.differs
    assert found.removed[0].rectangle is None


def test_a_local_grid_is_tied_to_nothing_so_places_are_not_compared() -> None:
    found = compared(
        plan(GRAVE, OAK),
        plan(replace(GRAVE, number="X").at(Polygon([(9, 9), (9, 8), (8, 8)])), grid=SEA),
    )
    assert not found.places
    assert [fields(p) for p in found.changed] == [["number"]]
    assert found.changed[0].moved is None
    assert found.grids == (Grid(), SEA)
    assert not compared(plan(OAK), plan(called(OAK, "new"), grid=SEA)).alike
