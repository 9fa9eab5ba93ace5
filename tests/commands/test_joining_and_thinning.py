"""Join and Simplify as the Edit menu has them: when they can be taken up, and what they do."""

import pytest
import shapely
from asked import Asked
from shapely import LineString, Point

from plan_editor.commands.command import beside_pointer
from plan_editor.commands.joining import join, joinable, simplify, thinnable
from plan_editor.drafting.tool import tools
from plan_editor.errors import EditRefused
from plan_editor.kinds import burial, grass, hedge, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.session import Session
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import LOCAL, Grid

WEST = new_item(grass.KIND, shapely.box(0, 0, 10, 10))
EAST = new_item(grass.KIND, shapely.box(10, 0, 14, 10))
HEDGE = new_item(hedge.KIND, LineString([(0, 20), (5, 20.02), (10, 20)]))
STRAIGHT = new_item(hedge.KIND, LineString([(10, 20), (20, 20)]))
YEW = new_item(tree.KIND, Point(3, 3))
ENTRY = new_item(burial.KIND)


@pytest.fixture
def session(tmp_path):
    with PlanFile.create(tmp_path / "yard.gpkg", name="", grid=Grid(crs=LOCAL)) as file:
        document = Document(plan_of([WEST, EAST, HEDGE, STRAIGHT, YEW, ENTRY]))
        select = next(b for b in tools() if b.name == "select")
        yield Session(document, first=select, file=file)


@pytest.mark.parametrize(
    ("chosen", "can_join", "can_thin"),
    [
        ([WEST, EAST], True, True),
        ([HEDGE, STRAIGHT], True, True),
        ([STRAIGHT], False, False),
        ([WEST, HEDGE], False, True),
        ([WEST, YEW], False, False),
        ([YEW], False, False),
        ([ENTRY], False, False),
        ([], False, False),
    ],
)
def test_they_can_be_taken_up_where_they_make_sense(session, chosen, can_join, can_thin):
    session.choose(i.id for i in chosen)
    assert (joinable(session), thinnable(session)) == (can_join, can_thin)


def test_the_first_chosen_has_it_all_and_stays_chosen(session):
    session.choose([EAST.id, WEST.id])
    join(session, Asked())
    assert session.chosen == (EAST.id,)
    assert session.document.plan.items[EAST.id].shape.area == 140.0
    session.document.undo()
    assert session.document.plan.items[WEST.id] == WEST


def test_what_is_left_out_is_told(session):
    ask = Asked()
    ask.number = lambda *_: 5
    session.choose([HEDGE.id])
    simplify(session, ask)
    assert ask.told == ["1 of 3 corners were left out."]
    assert list(session.document.plan.items[HEDGE.id].shape.coords) == [(0, 20), (10, 20)]


def test_never_mind_simplifies_nothing(session):
    session.choose([HEDGE.id])
    simplify(session, Asked())
    assert session.document.undo_title is None


def test_where_no_corner_can_go_the_reason_is_said(session):
    ask = Asked()
    ask.number = lambda *_: 1
    session.choose([WEST.id, HEDGE.id])
    with pytest.raises(EditRefused, match="No corner can be left out"):
        simplify(session, ask)


def test_both_stand_in_the_menu_at_the_pointer():
    assert {"join", "simplify"} <= {c.name for c in beside_pointer()}
