"""Things of a locked kind are neither chosen by the pointer nor changed."""

import pytest
from shapely import LineString
from strategies import kind_of, plain

from plan_editor.drafting.tool import Act, Pointer, tools
from plan_editor.edits.basic import Describe, Remove
from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.locks import heed_locks
from plan_editor.edits.places import Move
from plan_editor.errors import EditRefused
from plan_editor.plan.document import Document
from plan_editor.plan.plan import plan_of
from plan_editor.session import Session

WAY = plain(kind_of("path"), 1).at(LineString([(0, 0), (10, 0)]))
FENCE = plain(kind_of("fence"), 2).at(LineString([(0, 1), (10, 1)]))


def session() -> Session:
    return Session(Document(plan_of([WAY, FENCE])), first=tools()[0])


def test_neither_a_click_nor_a_box_chooses_what_is_locked() -> None:
    one = session()
    assert set(one.hits(5.0, 0.5, 2.0)) == {WAY.id, FENCE.id}
    one.choose((WAY.id, FENCE.id))
    told: list[frozenset[str]] = []
    one.locked_changed.connect(told.append)
    one.lock({"path"})
    one.lock({"path"})  # nothing new
    assert told == [frozenset({"path"})]
    assert one.chosen == (FENCE.id,)
    assert one.hits(5.0, 0.5, 2.0) == (FENCE.id,)
    for act, east, north in ((Act.PRESS, -2, -2), (Act.MOVE, 12, 3), (Act.RELEASE, 12, 3)):
        one.point(Pointer(act=act, east=east, north=north))
    assert one.chosen == (FENCE.id,)
    one.lock(())
    for act, east, north in ((Act.PRESS, -2, -2), (Act.MOVE, 12, 3), (Act.RELEASE, 12, 3)):
        one.point(Pointer(act=act, east=east, north=north))
    assert set(one.chosen) == {WAY.id, FENCE.id}


def test_an_edit_of_a_locked_kind_is_refused_whoever_asks_for_it() -> None:
    one = session()
    one.lock({"path"})
    with pytest.raises(EditRefused, match=r"Paths are locked\. Nothing was changed\."):
        one.apply(Remove(ids=(WAY.id,)))
    told: list[str] = []
    one.refused.connect(told.append)
    assert not one.try_apply(Move(ids=(WAY.id, FENCE.id), east=1.0, north=0.0))
    assert "Paths are locked" in told[0]
    assert one.try_apply(Move(ids=(FENCE.id,), east=1.0, north=0.0))
    assert one.document.plan.items[WAY.id] == WAY


def test_a_tool_says_why_and_stays_where_it_was() -> None:
    one = session()
    one.lock({"path"})
    move = next(t for t in tools() if t.name == "move")
    one.choose((WAY.id,))  # found by its name, not by the pointer
    one.take_up(move)
    one.point(Pointer(act=Act.PRESS, east=0.0, north=0.0))
    before = one.answer.tool
    one.point(Pointer(act=Act.PRESS, east=3.0, north=0.0))
    assert "Paths are locked" in one.answer.prompt
    assert one.answer.tool == before


def test_an_edit_that_changes_nothing_of_it_passes_and_so_does_a_move_of_the_whole_plan() -> (
    None
):
    plan = plan_of([WAY, FENCE])
    same = Describe(ids=(WAY.id,), details=(("name", WAY.details.name),))
    heed_locks(same, plan, {"path"})
    heed_locks(MoveToGrid(crs="EPSG:27700", marks=()), plan, {"path"})
    other = Describe(ids=(WAY.id,), details=(("name", "Old Way"),))
    heed_locks(other, plan, {"fence"})
    with pytest.raises(EditRefused):
        heed_locks(other, plan, {"path"})
