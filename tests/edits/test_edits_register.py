"""What was found at a memorial is recorded."""

from dataclasses import replace

import pytest
from strategies import kind_of, plain

from plan_editor.edits.register import RecordInspection
from plan_editor.errors import EditRefused
from plan_editor.kinds import inspection
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import plan_of

STONE = replace(plain(kind_of("memorial"), 1), number="31")
NOTE = plain(kind_of("note"), 2)
FOUND = InspectionDetails(date="2026-09-14", result=Result.IMMEDIATE)


def test_an_inspection_comes_with_its_memorial() -> None:
    document = Document(plan_of([STONE, NOTE]))
    edit = RecordInspection(memorial=STONE.id, details=FOUND, called="memorial 31")
    document.apply(edit)
    (made,) = document.plan.of(inspection.KIND)
    assert made.id == edit.id
    assert made.details == replace(FOUND, target=STONE.id)
    assert document.undo_title == "Record an inspection of memorial 31"
    document.undo()
    document.redo()
    assert list(document.plan.of(inspection.KIND)) == [made]


def test_two_inspections_are_two_items() -> None:
    document = Document(plan_of([STONE]))
    for _ in range(2):
        document.apply(RecordInspection(memorial=STONE.id, details=FOUND))
    assert document.plan.count(inspection.KIND) == 2


def test_only_a_memorial_is_inspected() -> None:
    plan = plan_of([STONE, NOTE])
    with pytest.raises(EditRefused, match="Note is not a memorial"):
        RecordInspection(memorial=NOTE.id, details=FOUND).changes(plan)
    with pytest.raises(EditRefused, match="no longer on the plan"):
        RecordInspection(memorial=ItemId("f" * 32), details=FOUND).changes(plan)
