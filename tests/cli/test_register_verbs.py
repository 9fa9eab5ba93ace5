"""``plan-editor register import`` and ``register write``."""

import hashlib
import json
from pathlib import Path

import pytest

from plan_editor.cli import taken_in
from plan_editor.kinds import burial, correction
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile

TABLE = (
    "No.,Surname,Forenames,Buried,Age,Hat\n"
    "1,Holt,Mary,14 March 1871,82,\n"
    "2,Oakes,John,bef. 1850,,\n"
    ",,,,3,\n"
)


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "register.csv"
    path.write_text(TABLE, "utf-8")
    return path


def test_register_is_taken_in_as_one_edit_and_again_changes_nothing(plan, table, said) -> None:
    code, out, _ = said("register", "import", plan, table, "--json")
    told = json.loads(out)
    assert code == 0
    assert (told["read"], told["new"], told["updated"]) == (3, 2, 0)
    assert told["doubtful"] == [
        {"row": 3, "column": "Buried", "why": "it is written as before that date"}
    ]
    assert told["rejected"] == [{"row": 4, "why": "neither a name nor a number stands here"}]
    with PlanFile.open(plan, read_only=True) as file:
        assert file.entries()[-1].title == "Take in 2 entries of the register register.csv"
    before = hashlib.sha256(plan.read_bytes()).digest()
    code, out, _ = said("register", "import", plan, table, "--json")
    told = json.loads(out)
    assert (code, told["new"], told["updated"]) == (0, 0, 0)
    assert hashlib.sha256(plan.read_bytes()).digest() == before


def test_table_that_says_something_else_updates_and_keeps_the_old_reading(
    plan, table, said
) -> None:
    said("register", "import", plan, table)
    table.write_text(TABLE.replace("82", "28"), "utf-8")
    code, out, _ = said("register", "import", plan, table)
    assert code == 0
    assert out.startswith("3 rows read: 0 new, 1 updated, 1 not taken; 1 cell doubtful.\n")
    assert "Line 4 was not taken: neither a name" in out
    assert "Columns that are not taken: “Hat”." in out
    (kept,) = read_plan(plan).of(correction.KIND)
    assert (kept.details.was, kept.details.now) == ("82", "28")


def test_dry_run_says_the_same_and_changes_nothing(plan, table, said, monkeypatch) -> None:
    monkeypatch.setattr(taken_in, "SHOWN", 0)
    before = plan.read_bytes()
    code, out, _ = said("register", "import", plan, table, "--dry-run")
    assert code == 0
    assert "and 1 more" in out
    assert out.endswith("Nothing was changed: this was a dry run.\n")
    assert plan.read_bytes() == before


def test_columns_may_be_given(plan, table, said, tmp_path) -> None:
    chosen = tmp_path / "map.toml"
    chosen.write_text('abode = "Hat"\n', "utf-8")
    table.write_text(TABLE.replace("82,", "82,Mill Lane"), "utf-8")
    assert said("register", "import", plan, table, "--columns", chosen)[0] == 0
    assert "Mill Lane" in {b.details.abode for b in read_plan(plan).of(burial.KIND)}


def test_bad_input_is_one_sentence_and_the_plan_stays(plan, table, said, tmp_path) -> None:
    before = plan.read_bytes()
    chosen = tmp_path / "map.toml"
    chosen.write_text('surname = "Coat"\n', "utf-8")
    web = tmp_path / "web.csv"
    web.write_text("<html></html>", "utf-8")
    for words in ((table, "--columns", chosen), (web,), (tmp_path / "nowhere.csv",)):
        code, _, err = said("register", "import", plan, *words)
        assert code == 2
        assert err.startswith("plan-editor: ")
        assert "Nothing was read" in err
        assert err.count("\n") == 1
    assert plan.read_bytes() == before


@pytest.mark.parametrize("suffix", ["csv", "xlsx"])
def test_register_written_and_taken_in_again_changes_nothing(
    plan, table, said, tmp_path, suffix
) -> None:
    said("register", "import", plan, table)
    before = plan.read_bytes()
    out = tmp_path / f"out.{suffix}"
    code, told, _ = said("register", "write", plan, "-o", out)
    assert (code, told) == (0, f"{out}: 2 entries.\n")
    code, told, _ = said("register", "import", plan, out, "--json")
    assert code == 0
    assert json.loads(told) | {"dry_run": False} == {
        "read": 2,
        "new": 0,
        "updated": 0,
        "doubtful": [],
        "rejected": [],
        "columns_left": [],
        "dry_run": False,
    }
    assert plan.read_bytes() == before


def test_register_is_not_written_over_a_plan_or_as_something_else(plan, said, tmp_path) -> None:
    for out in (plan, tmp_path / "out.pdf"):
        code, _, err = said("register", "write", plan, "-o", out)
        assert code == 2
        assert "Nothing was written" in err
