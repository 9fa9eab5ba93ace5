"""A table of inspections finds its things, and is not taken in twice."""

import pytest

from plan_editor.edits.inspections_in import TakeInInspections, WrittenInspection, compared
from plan_editor.kinds import grave, inspection, memorial, tree
from plan_editor.kinds.inspection import Result
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of

GRAVE = new_item(grave.KIND, number="G 7")
STONE = new_item(memorial.KIND, number="M 1", details=memorial.MemorialDetails(grave=GRAVE.id))
OTHER = new_item(memorial.KIND, number="12")
YEW = new_item(tree.KIND, number="12")
PLAN = plan_of([GRAVE, STONE, OTHER, YEW])


def row(number, kind="", date="2026-03-14", result=Result.SOUND, line=2):
    return WrittenInspection(row=line, number=number, kind=kind, date=date, result=result)


@pytest.mark.parametrize(
    ("number", "kind", "thing", "doubt"),
    [
        ("m1", "", STONE, ""),
        ("Memorial M 1", "", STONE, ""),
        ("M 1", "Headstone", STONE, ""),
        ("12", "tree", YEW, ""),
        ("12", "", OTHER, "taken as Memorial 12"),
        ("G 7", "", STONE, "the stone on that grave"),
        ("G 7", "grave", STONE, "the stone on that grave"),
        (YEW.id, "", YEW, ""),
    ],
    ids=["close", "called", "sort", "tree", "doubt", "grave", "said", "id"],
)
def test_a_thing_is_found_as_people_write_it(number, kind, thing, doubt):
    found = compared(PLAN, (row(number, kind),))
    (made,) = found.new
    assert made.details.target == thing.id
    assert [d.why for d in found.doubtful] == ([] if not doubt else [found.doubtful[0].why])
    assert not doubt or doubt in found.doubtful[0].why


@pytest.mark.parametrize(("number", "kind"), [("99", ""), ("G 7", "wall"), ("M 1", "tree")])
def test_what_is_not_on_the_plan_is_not_taken(number, kind):
    found = compared(PLAN, (row(number, kind),))
    assert not found.new
    assert "there is nothing called" in found.rejected[0].why


def test_two_stones_on_one_grave_are_not_guessed_between():
    second = new_item(memorial.KIND, details=memorial.MemorialDetails(grave=GRAVE.id))
    found = compared(plan_of([GRAVE, STONE, second]), (row("G 7"),))
    assert not found.new
    assert "may be one of 2 things" in found.rejected[0].why


def test_the_same_row_counts_once_and_the_same_table_changes_nothing():
    edit = TakeInInspections(found=(row("M 1"), row("M 1", line=3)), source="round.csv")
    document = Document(PLAN)
    document.apply(edit)
    assert document.undo_title == "Take in 2 inspections round.csv"
    assert document.plan.count(inspection.KIND) == 1
    assert document.apply(edit) is None
    assert compared(document.plan, edit.found).known == 2
    assert TakeInInspections(found=edit.found[:1]).title == "Take in 1 inspection"


def test_another_result_of_the_same_day_is_kept_and_told():
    rows = (row("M 1"), row("M 1", result=Result.IMMEDIATE, line=3))
    found = compared(PLAN, rows)
    assert len(found.new) == 2
    assert [(d.row, d.column) for d in found.doubtful] == [(3, "result")]
