"""A table of inspections finds its things, and is not taken in twice."""

import pytest

from plan_editor.edits.inspections_in import TakeInInspections, WrittenInspection, compared
from plan_editor.kinds import grave, inspection, memorial, tree
from plan_editor.kinds.inspection import Result
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.safety import unsafe

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


def found_unsafe(date="2026-03-01"):
    told = inspection.InspectionDetails(target=STONE.id, date=date, result=Result.IMMEDIATE)
    return new_item(inspection.KIND, details=told)


def bare(result=Result.SOUND, date="2026-03-14", line=2):
    """Return a row of which the result only follows: “low risk”, or a bare 3."""
    return WrittenInspection(row=line, number="M 1", date=date, result=result, taken_as=True)


@pytest.mark.parametrize("result", [Result.SOUND, Result.MINOR, Result.MADE_SAFE])
@pytest.mark.parametrize("date", ["2026-03-01", "2026-03-14", "2026"])
def test_a_danger_does_not_end_by_a_word_that_does_not_say_so(result, date):
    plan = plan_of([STONE, found_unsafe()])
    found = compared(plan, (bare(result, date),))
    assert not found.new
    (why,) = found.rejected
    assert why.row == 2
    assert why.why.startswith("Memorial M 1 is unsafe")
    assert f"write the plain word “{result}”" in why.why
    document = Document(plan)
    assert document.apply(TakeInInspections(found=(bare(result, date),))) is None
    assert list(unsafe(document.plan)) == [STONE.id]


def test_the_plain_word_ends_a_danger():
    found = compared(plan_of([STONE, found_unsafe()]), (row("M 1"),))
    assert len(found.new) == 1


def test_a_danger_within_the_table_does_not_end_so_either():
    failed = row("M 1", date="2026-03-01", result=Result.IMMEDIATE, line=3)
    found = compared(PLAN, (bare(), failed))
    assert [i.details.result for i in found.new] == [Result.IMMEDIATE]
    assert [r.row for r in found.rejected] == [2]


def test_what_only_follows_is_taken_where_nothing_is_unsafe():
    assert len(compared(PLAN, (bare(),)).new) == 1
    later = plan_of([STONE, found_unsafe("2026-06-01")])
    assert len(compared(later, (bare(),)).new) == 1
    over = compared(plan_of([STONE, found_unsafe()]), (row("M 1", date="2026-03-02"), bare()))
    assert len(over.new) == 2
    worse = compared(plan_of([STONE, found_unsafe()]), (bare(Result.IMMEDIATE),))
    assert len(worse.new) == 1


def test_what_was_taken_in_before_is_known_however_it_was_written():
    plan = plan_of([STONE, found_unsafe(), *compared(PLAN, (bare(),)).new])
    assert compared(plan, (bare(),)).known == 1
