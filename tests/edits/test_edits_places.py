"""The edits that change where things are."""

import math
from dataclasses import replace
from typing import Any

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, affinity, box
from strategies import kind_of, plain, plans

from plan_editor.edits.places import Align, Move, Reshape, Turn
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan, plan_of

GRAVE, PATH = kind_of("grave"), kind_of("path")
SPACE = Rectangle(east=10.0, north=20.0, width=1.22, length=2.74, bearing_deg=10.0)
C14 = replace(plain(GRAVE, 1).on(SPACE), number="C 14")
WAY = plain(PATH, 2).at(LineString([(0, 0), (10, 0), (10, 5)]))
SPOT = plain(kind_of("note"), 3).at(Point(1, 2))
LIES = plain(kind_of("burial"), 4)
SCAN = plain(kind_of("base_plan"), 5)
PLAN = plan_of([C14, WAY, SPOT, LIES, SCAN])
LOST = ItemId("f" * 32)


def after(edit: Edit, plan: Plan = PLAN) -> Plan:
    document = Document(plan)
    document.apply(edit)
    return document.plan


def refusal(edit: Edit, plan: Plan = PLAN) -> str:
    with pytest.raises(EditRefused) as caught:
        after(edit, plan)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


def movable(plan: Plan) -> list[Item[Any]]:
    return [i for i in plan.items.values() if i.shape is not None and not i.kind.pinned]


def test_things_move_together_and_a_rectangle_stays_one() -> None:
    told = after(Move(ids=(C14.id, WAY.id, SPOT.id), east=2.5, north=-1.0)).items
    assert told[SPOT.id].shape == Point(3.5, 1)
    assert told[WAY.id].shape == LineString([(2.5, -1), (12.5, -1), (12.5, 4)])
    assert told[C14.id].rectangle == replace(SPACE, east=12.5, north=19.0)
    assert told[C14.id].shape == replace(SPACE, east=12.5, north=19.0).outline()


def test_a_move_is_taken_to_the_millimetre_for_shapes_and_rectangles_alike() -> None:
    told = after(Move(ids=(C14.id, SPOT.id), east=0.0014, north=-0.0016)).items
    assert told[SPOT.id].shape == Point(1.001, 1.998)
    assert told[C14.id].rectangle == replace(SPACE, east=10.001, north=19.998)


@given(plans(), st.floats(-50, 50), st.floats(-50, 50))
def test_moved_there_and_back_the_plan_is_what_it_was(
    plan: Plan, east: float, north: float
) -> None:
    ids = tuple(i.id for i in movable(plan))
    document = Document(plan)
    document.apply(Move(ids=ids, east=east, north=north))
    document.apply(Move(ids=ids, east=-east, north=-north))
    assert dict(document.plan.items) == dict(plan.items)


def test_a_quarter_turn_is_clockwise() -> None:
    told = after(Turn(ids=(C14.id, WAY.id, SPOT.id), degrees=90.0, about=(0.0, 0.0))).items
    assert told[SPOT.id].shape == Point(2, -1)
    assert told[WAY.id].shape == LineString([(0, 0), (0, -10), (5, -10)])
    assert told[C14.id].rectangle == replace(SPACE, east=20.0, north=-10.0, bearing_deg=100.0)


@given(plans(), st.floats(-360, 360))
def test_things_turn_as_shapely_turns_them(plan: Plan, degrees: float) -> None:
    items = movable(plan)
    document = Document(plan)
    document.apply(Turn(ids=tuple(i.id for i in items), degrees=degrees, about=(3.0, 4.0)))
    for item in items:
        turned = document.plan.items[item.id].shape
        wanted = affinity.rotate(item.shape, -degrees, origin=(3.0, 4.0))
        assert turned is not None
        # each is to the whole millimetre, and the one shapely turned was rounded before
        assert turned.hausdorff_distance(wanted) < 0.0015


def test_turned_a_full_circle_in_degrees_a_grave_lies_where_it_lay() -> None:
    document = Document(PLAN)
    for _ in range(360):
        document.apply(Turn(ids=(C14.id,), degrees=1.0, about=(0.0, 0.0)))
    turned = document.plan.items[C14.id].rectangle
    assert turned is not None
    assert (turned.width, turned.length) == (1.22, 2.74)
    assert math.dist((turned.east, turned.north), (10.0, 20.0)) < 0.0001
    assert turned.bearing_deg == pytest.approx(10.0, abs=1e-6)


def test_a_thing_takes_another_shape_or_a_rectangle() -> None:
    assert after(Reshape(id=WAY.id, place=box(0, 0, 5, 5))).items[WAY.id].shape == box(
        0, 0, 5, 5
    )
    other = Rectangle(east=0.0, north=0.0, width=1.0, length=2.0)
    assert after(Reshape(id=C14.id, place=other)).items[C14.id] == C14.on(other)
    loose = after(Reshape(id=C14.id, place=box(0, 0, 2, 3))).items[C14.id]
    assert loose == C14.at(box(0, 0, 2, 3))


def test_what_must_have_a_place_keeps_it() -> None:
    assert refusal(Reshape(id=WAY.id, place=None)).startswith("Path needs a place on the plan.")


@pytest.mark.parametrize(
    ("place", "said"),
    [
        (
            Polygon([(0, 0), (1, 1), (1, 0), (0, 1)]),
            "Path cannot lie like that: the outline crosses",
        ),
        (Polygon(), "Path cannot lie like that: there is no corner"),
        (LineString([(0, 0), (0.0001, 0)]), "Path cannot lie like that: it is thinner"),
        (LineString([(0, 0), (2e5, 0)]), "Path cannot lie like that: a corner lies more"),
        (Point(0, 0), "Path cannot have a shape of that form"),
        (shapely.MultiPoint([(0, 0)]), "Path cannot lie like that: a plan keeps points"),
    ],
)
def test_a_shape_that_cannot_be_kept_is_refused(place: Any, said: str) -> None:
    assert refusal(Reshape(id=WAY.id, place=place)).startswith(said)


def test_nothing_goes_farther_than_a_hundred_kilometres() -> None:
    said = "lies more than 100 km from the plan's origin"
    for item in (C14, WAY, SPOT):
        assert said in refusal(Move(ids=(item.id,), east=150_000.0, north=0.0))


def test_what_would_vanish_when_turned_is_refused() -> None:
    # a line a millimetre long, turned so that both its ends round to one place
    short = plain(PATH, 6).at(LineString([(0.0, 0.0), (0.001, 0.0)]))
    said = refusal(
        Turn(ids=(short.id,), degrees=45.0, about=(0.0002475, 0.0005975)), plan_of([short])
    )
    assert said.startswith("Path cannot lie like that: the shape is thinner")


@pytest.mark.parametrize(
    "edit",
    [
        Move(ids=(LIES.id,), east=1.0, north=1.0),
        Turn(ids=(LIES.id,), degrees=1.0, about=(0.0, 0.0)),
    ],
)
def test_what_has_no_place_cannot_be_moved(edit: Edit) -> None:
    assert refusal(edit).startswith("Burial has no place on the plan.")


@pytest.mark.parametrize(
    "edit",
    [
        Move(ids=(SPOT.id, SCAN.id), east=1.0, north=1.0),
        Turn(ids=(SCAN.id,), degrees=1.0, about=(0.0, 0.0)),
        Reshape(id=SCAN.id, place=box(0, 0, 5, 5)),
    ],
)
def test_a_base_plan_lies_where_its_points_put_it(edit: Edit) -> None:
    assert refusal(edit).startswith("Base plan lies where it was placed.")


@pytest.mark.parametrize(
    ("edit", "title"),
    [
        (Move(ids=(LOST,), east=1.0, north=1.0), "Move 1 thing"),
        (Turn(ids=(LOST, C14.id), degrees=1.0, about=(0.0, 0.0)), "Turn 2 things"),
        (Turn(ids=(LOST,), degrees=1.0, about=(0.0, 0.0), called="tree 3"), "Turn tree 3"),
        (Reshape(id=LOST, place=None), "Reshape 1 thing"),
    ],
)
def test_what_is_gone_is_refused_and_the_title_says_what(edit: Edit, title: str) -> None:
    assert edit.title == title
    assert "no longer on the plan" in refusal(edit)


def test_moving_nothing_leaves_nothing_to_undo() -> None:
    document = Document(PLAN)
    assert document.apply(Move(ids=(), east=1.0, north=1.0)) is None
    assert document.apply(Move(ids=(C14.id, WAY.id), east=0.0001, north=0.0)) is None
    assert document.undo_title is None


def test_what_faces_somewhere_is_turned_with_its_place_and_comes_back() -> None:
    gate = kind_of("gate")
    facing = replace(plain(gate, 7), details=gate.details(facing_deg=350.0))
    plan = plan_of([facing, SPOT])
    turn = Turn(ids=(facing.id, SPOT.id), degrees=30.0, about=(0.0, 0.0))
    assert after(turn, plan).items[facing.id].details.facing_deg == 20.0
    one = Turn(ids=(facing.id,), degrees=1.0, about=(0.0, 0.0))
    document = Document(plan)
    for _ in range(360):
        document.apply(one)
    assert document.plan.items[facing.id].details == facing.details


def test_the_words_of_a_note_run_another_way_when_it_is_turned() -> None:
    words = kind_of("note")
    level = plain(words, 8).at(Point(3, 4))
    told = after(Turn(ids=(level.id,), degrees=15.0, about=None), plan_of([level])).items
    assert told[level.id].details.bearing_deg == 105.0
    assert told[level.id].shape == level.shape
    # 97 is square to 7: the least turn of words that run along 90 is by 7
    aligned = after(Align(ids=(level.id,), bearing_deg=7.0), plan_of([level])).items
    assert aligned[level.id].details.bearing_deg == 97.0
