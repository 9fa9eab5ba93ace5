"""The verb ``contacts forget``."""

import json

import pytest

from plan_editor.edits.basic import Add
from plan_editor.kinds import inspection, owner_contact
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify

JANE = new_item(
    owner_contact.KIND, details=owner_contact.OwnerContactDetails(name="Jane Example")
)


@pytest.fixture
def with_jane(plan):
    with PlanFile.open(plan) as file:
        Document(file.plan, journal=file).apply(Add((JANE,)))
        file.save()
        file.save()  # so that the previous version has her too
    return plan


@pytest.mark.parametrize("called", ["jane example", JANE.id], ids=["name", "id"])
def test_a_person_is_forgotten_by_name_or_id(with_jane, said, called):
    code, out, err = said("contacts", "forget", with_jane, called, "--json")
    assert (code, err) == (0, "")
    facts = json.loads(out)
    assert facts["cleared"] == [f"{with_jane}.bak"]
    assert (facts["papers"], facts["things"], facts["not_cleared"]) == (0, 0, [])
    assert JANE.id not in read_plan(with_jane).items
    assert b"Jane Example" not in with_jane.read_bytes()
    assert verify(with_jane).findings == ()


LOOKED = new_item(
    inspection.KIND, details=inspection.InspectionDetails(inspector="Jane Example")
)


@pytest.fixture
def named_elsewhere(with_jane):
    with PlanFile.open(with_jane) as file:
        Document(file.plan, journal=file).apply(Add((LOOKED,)))
        file.save()
    return with_jane


def test_other_words_that_name_the_person_are_told_first_and_nothing_is_done(
    named_elsewhere, said
):
    before = named_elsewhere.read_bytes()
    code, out, err = said("contacts", "forget", named_elsewhere, "Jane Example")
    assert (code, err) == (1, "")
    assert "Inspection, “Inspected by”: may name the person, and stays." in out
    assert "Nobody was forgotten, and nothing was changed." in out
    assert named_elsewhere.read_bytes() == before
    code, out, _ = said("contacts", "forget", named_elsewhere, "Jane Example", "--json")
    facts = json.loads(out)
    assert (code, facts["forgotten"], len(facts["correct_first"])) == (1, False, 1)


def test_with_anyway_the_person_is_forgotten_and_other_words_stay(named_elsewhere, said):
    code, out, _ = said(
        "contacts", "forget", named_elsewhere, "Jane Example", "--anyway", "--json"
    )
    facts = json.loads(out)
    assert (code, facts["forgotten"], facts["look_at"]) == (0, True, ["Inspection"])
    left = read_plan(named_elsewhere).items
    assert JANE.id not in left
    assert left[LOOKED.id].details.inspector == "Jane Example"


def test_nobody_of_that_name_is_told_in_one_sentence(with_jane, said):
    before = with_jane.read_bytes()
    code, out, err = said("contacts", "forget", with_jane, "John")
    assert (code, out) == (2, "")
    assert "There is no owner of that name" in err
    assert with_jane.read_bytes() == before


def test_a_copy_that_cannot_be_cleared_makes_it_one(with_jane, said):
    with_jane.with_name(f"{with_jane.name}.bak").write_bytes(b"SQLite format 3\0" + b"\0" * 200)
    code, out, _ = said("contacts", "forget", with_jane, "Jane Example")
    assert code == 1
    assert f"Not cleared: {with_jane}.bak" in out
    assert "Jane" not in out
