"""The answer to an application, printed by the command line."""

import json
import shlex

from plan_editor.edits.basic import Add
from plan_editor.kinds import application, grave
from plan_editor.kinds.application import ApplicationDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.storage.plan_file import PlanFile


def test_an_application_is_answered_by_the_number_of_its_grave(plan, said, tmp_path):
    with PlanFile.open(plan) as file:
        (space,) = file.plan.of(grave.KIND)
        asked = new_item(application.KIND, details=ApplicationDetails(grave=space.id))
        Document(file.plan, journal=file, author="a test").apply(Add((asked,)))
        file.save()
    out = tmp_path / "answer.pdf"
    code, told, _ = said("sheet", "memorial", plan, "a1", "-o", out, "--json")
    assert code == 0
    assert json.loads(told)["pages"] == 1
    assert out.read_bytes().startswith(b"%PDF")


def test_without_an_application_it_is_refused_in_a_sentence(plan, said, tmp_path):
    code, _, err = said("sheet", "memorial", plan, "-o", tmp_path / "answer.pdf")
    assert code == 2
    assert "there is none of its sort yet. Nothing was printed." in err
    code, _, err = said("sheet", "memorial", plan, "A 1", "-o", tmp_path / "answer.pdf")
    assert code == 2
    assert "There is no application “A 1” on the plan." in err


def test_without_a_thing_it_is_said_how_to_type_one(plan, said, tmp_path):
    out = tmp_path / "evidence.pdf"
    code, _, err = said("sheet", "evidence", plan, "-o", out)
    assert code == 2
    assert "it was not told which. Nothing was printed." in err
    shown = err.split("in quotes: plan-editor ")[1].strip()
    # what it says can be typed as it stands
    code, _, _ = said(*shlex.split(shown))
    assert code == 0
    assert out.read_bytes().startswith(b"%PDF")
