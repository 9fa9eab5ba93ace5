"""What was found at a thing is recorded, and that it was made safe."""

from dataclasses import replace

import pytest
from strategies import kind_of, plain

from plan_editor.edits.register import MakeSafe, RecordInspection
from plan_editor.errors import EditRefused
from plan_editor.kinds import cordon, inspection
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import plan_of

STONE = replace(plain(kind_of("memorial"), 1), number="31")
NOTE = plain(kind_of("note"), 2)
FOUND = InspectionDetails(date="2026-09-14", result=Result.IMMEDIATE)


def test_an_inspection_comes_with_its_memorial() -> None:
    document = Document(plan_of([STONE, NOTE]))
    edit = RecordInspection(target=STONE.id, details=FOUND, called="memorial 31")
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
        document.apply(RecordInspection(target=STONE.id, details=FOUND))
    assert document.plan.count(inspection.KIND) == 2


def test_a_note_is_not_inspected() -> None:
    plan = plan_of([STONE, NOTE])
    with pytest.raises(EditRefused, match="Note is nothing that is inspected"):
        RecordInspection(target=NOTE.id, details=FOUND).changes(plan)
    with pytest.raises(EditRefused, match="no longer on the plan"):
        RecordInspection(target=ItemId("f" * 32), details=FOUND).changes(plan)


YEW = replace(plain(kind_of("tree"), 3), number="T 1")
FENCE = plain(kind_of("cordon"), 4)
DONE = InspectionDetails(date="2026-09-20", inspector="A mason", action="Laid flat.")
SAFE = MakeSafe(target=STONE.id, details=DONE)


def failed(document: Document, target: ItemId = STONE.id) -> None:
    document.apply(RecordInspection(target=target, details=FOUND))


def test_a_tree_is_inspected_too() -> None:
    document = Document(plan_of([YEW]))
    failed(document, YEW.id)
    (made,) = document.plan.of(inspection.KIND)
    assert made.details.target == YEW.id


def test_making_safe_is_an_inspection_with_its_day_and_person_and_ends_the_cordon() -> None:
    document = Document(plan_of([STONE, FENCE]))
    failed(document)
    document.apply(replace(SAFE, cordon=FENCE.id, called="memorial 31"))
    (_, made) = document.plan.of(inspection.KIND)
    assert made.details.result is Result.MADE_SAFE
    assert (made.details.date, made.details.inspector) == ("2026-09-20", "A mason")
    assert made.details.action == "Laid flat."
    assert not document.plan.count(cordon.KIND)
    assert document.undo_title == "Record that memorial 31 was made safe"
    document.undo()
    assert document.plan.items[FENCE.id] == FENCE


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        (
            replace(SAFE, details=replace(DONE, date="2026-09-13")),
            "was not found unsafe by 2026-09-13",
        ),
        (replace(SAFE, details=replace(DONE, date="2026-09")), "Give the whole date"),
        (replace(SAFE, details=replace(DONE, inspector=" ")), "by whom"),
        (replace(SAFE, target=NOTE.id), "nothing that is inspected"),
        (replace(SAFE, cordon=NOTE.id), "Note is no cordon"),
        (replace(SAFE, cordon=ItemId("f" * 32)), "no longer on the plan"),
    ],
)
def test_only_what_was_found_unsafe_is_made_safe(edit: MakeSafe, says: str) -> None:
    document = Document(plan_of([STONE, NOTE]))
    failed(document)
    before = document.plan
    with pytest.raises(EditRefused, match=says):
        document.apply(edit)
    assert document.plan is before


def test_a_sound_stone_is_not_made_safe() -> None:
    sound = replace(FOUND, result=Result.SOUND)
    document = Document(plan_of([STONE]))
    document.apply(RecordInspection(target=STONE.id, details=sound))
    with pytest.raises(EditRefused, match="was not found unsafe"):
        document.apply(SAFE)
