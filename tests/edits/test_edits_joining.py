"""Joining as an edit: who stays, what leads to whom, and what is refused."""

from dataclasses import replace

import pytest
from shapely import LineString, Point, Polygon, box
from strategies import kind_of, plain

from plan_editor.edits.joining import Join
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds.burial import BurialDetails
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

GRAVE, ZONE, WALL = kind_of("grave"), kind_of("zone"), kind_of("wall")
SPACE = Rectangle(east=0.0, north=0.0, width=1.2, length=2.7)
ONE = replace(plain(GRAVE, 1).on(SPACE), number="C 14")
TWO = replace(plain(GRAVE, 2).on(SPACE.moved(0.0, 1.2)), number="C 15")
LIES = replace(plain(kind_of("burial"), 3), details=BurialDetails(grave=TWO.id))
STONE = replace(
    plain(kind_of("memorial"), 4).on(SPACE.moved(-0.5, 1.2)),
    details=MemorialDetails(grave=TWO.id),
)
WEST = plain(ZONE, 5).at(box(10, 0, 14, 4))
EAST = plain(ZONE, 6).at(box(17, 0, 20, 4))
SOUTH = plain(WALL, 7).at(LineString([(0, -9), (5, -9)]))
RISING = plain(WALL, 8).at(LineString([(9, -6), (5, -9)]))
TREE = plain(kind_of("tree"), 9).at(Point(40, 40))
GRID = Grid(crs="EPSG:27700", east=553_000.0, north=421_000.0)
PLAN = plan_of([ONE, TWO, LIES, STONE, WEST, EAST, SOUTH, RISING, TREE], grid=GRID)


def joined(*items, plan: Plan = PLAN) -> Plan:
    document = Document(plan)
    document.apply(Join(ids=tuple(i.id for i in items)))
    done = document.plan
    document.undo()
    assert dict(document.plan.items) == dict(plan.items)
    return done


def refusal(*items, plan: Plan = PLAN) -> str:
    with pytest.raises(EditRefused) as caught:
        joined(*items, plan=plan)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


def test_two_graves_become_one_rectangle_and_all_lies_in_the_first():
    told = joined(ONE, TWO)
    assert TWO.id not in told.items
    assert told.items[ONE.id].number == "C 14"
    assert told.items[ONE.id].rectangle == replace(SPACE, width=2.4)
    assert told.items[LIES.id].details.grave == ONE.id
    assert told.items[STONE.id].details.grave == ONE.id


def test_the_first_one_chosen_stays():
    told = joined(TWO, ONE)
    assert ONE.id not in told.items
    assert told.items[TWO.id].number == "C 15"
    assert told.items[LIES.id] == LIES


def test_graves_that_make_no_rectangle_become_an_outline():
    askew = replace(TWO, rectangle=None).at(box(0, 1.2, 2.0, 2.4))
    told = joined(ONE, askew, plan=plan_of([ONE, askew]))
    assert told.items[ONE.id].rectangle is None
    assert told.items[ONE.id].shape.area == pytest.approx(1.2 * 2.7 + 2.0 * 1.2)


def test_walls_are_joined_end_to_end():
    shape = joined(SOUTH, RISING).items[SOUTH.id].shape
    assert shape == LineString([(0, -9), (5, -9), (9, -6)])
    assert shape.length == 10.0


def test_what_does_not_touch_is_refused_with_how_far_apart_and_where():
    said = refusal(WEST, EAST)
    assert "edges lie 3.00 m apart" in said
    assert "E 553015.50" in said
    apart = RISING.at(LineString([(9, -6), (5, -8)]))
    said = refusal(SOUTH, apart, plan=plan_of([SOUTH, apart], grid=GRID))
    assert "ends lie 1.00 m apart at E 553005.00, N 420991.50" in said


def test_what_meets_in_a_corner_alone_is_refused_with_the_place():
    corner = EAST.at(box(14, 4, 18, 8))
    said = refusal(WEST, corner, plan=plan_of([WEST, corner], grid=GRID))
    assert "meet at E 553014.00, N 421004.00 only in a corner" in said


def test_one_alone_or_unlike_things_are_refused():
    assert "Choose two things or more" in refusal(WEST)
    assert "several kinds" in refusal(WEST, ONE)
    assert "neither a line nor an area" in refusal(TREE, WEST)
    path = kind_of("path")
    way = plain(path, 20).at(LineString([(0, 0), (9, 0)]))
    yard = plain(path, 21).at(Polygon([(0, 0), (9, 0), (9, 5)]))
    assert "Lines and areas cannot be joined" in refusal(way, yard, plan=plan_of([way, yard]))
    with pytest.raises(EditRefused):
        Document(PLAN).apply(Join(ids=(WEST.id, ItemId("f" * 32))))


def test_what_it_is_called_in_the_undo_menu():
    assert Join(ids=(ONE.id, TWO.id)).title == "Join 2 things"
    assert Join(ids=(ONE.id, TWO.id), called="2 graves").title == "Join 2 graves"
