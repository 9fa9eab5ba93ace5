"""The verb ``contacts forget``."""

import json

import pytest

from plan_editor.edits.basic import Add
from plan_editor.kinds import owner_contact
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
