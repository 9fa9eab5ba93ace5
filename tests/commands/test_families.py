"""The list of stones whose families are looked for."""

from plan_editor.commands.families import (
    family_lines,
    next_told,
    record_step,
    step_fields,
    steps_told,
    usual_values,
    word_yourself,
    words_in_use,
)
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import inspection, memorial, owner_contact, tracing
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.tracing import Step, TracingDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.wordings import wordings


def stone(number):
    return new_item(
        memorial.KIND, Rectangle(east=0, north=0, width=0.8, length=0.2), number=number
    )


def failed(of):
    told = InspectionDetails(target=of.id, date="2020-02-01", result=Result.IMMEDIATE)
    return new_item(inspection.KIND, details=told)


FIRST, SECOND, SOUND = stone("C 9"), stone("C 10"), stone("C 11")
NOTICE = new_item(
    tracing.KIND,
    details=TracingDetails(
        target=FIRST.id, step=Step.NOTICE_ON_STONE, date="2020-03-01", days=28
    ),
)
OWNER = new_item(
    owner_contact.KIND,
    details=OwnerContactDetails(name="Mrs A. Fenwright", memorial=SECOND.id),
)
PLAN = plan_of([SECOND, SOUND, FIRST, failed(FIRST), failed(SECOND), NOTICE, OWNER])


def test_unsafe_stones_are_listed_by_number_with_what_comes_next():
    first, second = family_lines(PLAN)
    assert (first.number, first.family, first.ends) == ("C 9", "not known", "")
    assert (second.number, second.family) == ("C 10", "known")
    assert steps_told(first) == "1 March 2020: notice fixed to the stone, until 29 March 2020"
    assert next_told(first).startswith("Next: give notice in public")
    assert next_told(second) == "Next: write to the family."


def test_a_step_is_recorded_without_naming_anybody_in_the_log():
    document = Document(PLAN)
    values = {**usual_values(PLAN, SECOND.id), "contact": OWNER.id}
    edit = record_step(document, SECOND.id, values)
    assert edit.title == "Record “letter sent” of memorial C 10"
    document.apply(edit)
    (line,) = (x for x in family_lines(document.plan) if x.item == SECOND.id)
    assert next_told(line).startswith("Next: wait for an answer until ")


def test_a_stone_that_is_not_listed_is_offered_only_the_day():
    assert set(usual_values(PLAN, SOUND.id)) == {"date"}


def test_what_is_asked_of_a_step_leaves_out_what_the_choice_tells():
    assert [d.name for d in step_fields()][:3] == ["step", "date", "days"]


def test_a_step_without_a_day_is_told():
    bare = new_item(tracing.KIND, details=TracingDetails(target=FIRST.id))
    document = Document(PLAN)
    document.apply(Add((bare,)))
    assert steps_told(family_lines(document.plan)[0]).startswith("no day: letter sent\n")


def test_the_shipped_words_are_kept_with_the_plan_once_to_be_changed():
    document = Document(PLAN)
    edit = word_yourself(document.plan)
    assert edit is not None
    document.apply(edit)
    assert len(words_in_use(document.plan)) == 3
    assert all(w.own for w in wordings(document.plan))
    assert word_yourself(document.plan) is None
