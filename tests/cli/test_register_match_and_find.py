"""The verbs ``register match`` and ``register find``."""

import json
from pathlib import Path

import pytest

from plan_editor.edits.basic import Add
from plan_editor.kinds import burial, grave
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile


@pytest.fixture
def registered(plan: Path) -> Path:
    """The plan with two entries: the place of one is written, of the other nothing is known."""
    known = BurialDetails(surname="Ibbotson", forenames="Jno", place_written="row A no 1")
    lost = BurialDetails(surname="Lumb", buried="1911")
    entries = tuple(new_item(burial.KIND, details=d) for d in (known, lost))
    with PlanFile.open(plan) as file:
        Document(file.plan, journal=file).apply(Add(entries))
        file.save()
    return plan


def test_it_says_which_grave_is_likely_and_changes_nothing(said, registered: Path) -> None:
    before = registered.read_bytes()
    code, out, _ = said("register", "match", registered)
    assert code == 1
    assert "Entry, Jno Ibbotson" in out
    assert "Grave A 1" in out
    assert "The register writes “row A no 1”." in out
    assert out.splitlines()[-1] == "To be looked into: 2 (entry without a grave: 2)."
    assert registered.read_bytes() == before


def test_what_is_likely_enough_is_matched_in_one_step(said, registered: Path) -> None:
    code, out, _ = said("register", "match", registered, "--accept", "0.3", "--json")
    told = json.loads(out)
    assert (code, told["matched"], told["proposals"]) == (1, 1, [])
    assert [w["sort"] for w in told["work"]] == ["entry without a grave"]
    plan = read_plan(registered)
    (lies_in,) = plan.of(grave.KIND)
    matched, lost = sorted(plan.of(burial.KIND), key=lambda b: b.details.surname)
    assert matched.details.grave == lies_in.id
    assert lost.details.grave is None
    assert plan.revision == 3


def test_where_nothing_is_likely_enough_the_file_stays_as_it_is(said, registered: Path) -> None:
    before = registered.read_bytes()
    code, out, _ = said("register", "match", registered, "--accept", "1", "--json")
    told = json.loads(out)
    assert (code, told["matched"]) == (1, 0)
    assert told["proposals"][0]["grave"]["number"] == "A 1"
    assert set(told["proposals"][0]) == {"entry", "grave", "score", "reasons"}
    assert registered.read_bytes() == before


def test_a_plan_without_a_register_agrees(said, plan: Path) -> None:
    code, out, _ = said("register", "match", plan)
    assert (code, out.strip()) == (0, "Register and ground agree.")


@pytest.mark.parametrize("score", ["0", "2", "nan", "high"])
def test_what_is_no_score_is_refused_in_one_sentence(
    said, registered: Path, score: str
) -> None:
    code, out, err = said("register", "match", registered, "--accept", score)
    assert (code, out) == (2, "")
    assert "is no score; nothing was changed" in err


def test_a_grave_is_found_however_the_name_is_spelt(said, registered: Path) -> None:
    code, out, _ = said("register", "find", registered, "ibetson")
    assert (code, out.strip()) == (0, "Entry, Jno Ibbotson")
    code, out, _ = said("register", "find", registered, "john ibbo", "--json")
    (found,) = json.loads(out)["found"]
    assert found["item"]["kind"] == "burial"
    assert found["grave"] is None


def test_what_is_not_there_is_said(said, registered: Path) -> None:
    code, out, _ = said("register", "find", registered, "Nobody")
    assert (code, out.strip()) == (1, "Nothing on the plan fits “Nobody”.")
