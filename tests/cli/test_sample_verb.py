import json
from pathlib import Path

import pypdfium2
import pytest
import shapely

from plan_editor.edits.basic import Add
from plan_editor.kinds import note
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile


@pytest.fixture
def made(tmp_path, said, monkeypatch):
    monkeypatch.setattr("sys.argv", [".venv/bin/plan-editor"])
    code, out, err = said("sample", tmp_path / "demo", "--json")
    assert (code, err) == (0, "")
    return tmp_path / "demo", json.loads(out)


def test_the_sample_is_copied_and_its_sheets_and_drawing_are_made(made):
    folder, facts = made
    assert read_plan(folder / "harrowmere.gpkg").items
    assert (folder / "harrowmere-1962.jpg").read_bytes() == sample(
        "harrowmere-1962.jpg"
    ).read_bytes()
    for beside in ("points", "field_book", "register"):
        copied = Path(facts[beside])
        assert copied.read_bytes() == sample(copied.name).read_bytes()
    assert (folder / "harrowmere.dxf").stat().st_size > 100_000
    for sheet in facts["sheets"]:
        document = pypdfium2.PdfDocument(sheet["file"])
        assert len(document) == sheet["pages"]
        document.close()


def test_the_mowing_map_is_one_sheet_that_is_held_in_the_hand(made):
    (mowing,) = (s for s in made[1]["sheets"] if s["file"].endswith("mowing.pdf"))
    assert (mowing["paper"], mowing["pages"]) == ("A4", 1)
    assert mowing["scale"] <= 500


def test_it_says_how_to_open_the_window_as_the_program_was_called(made):
    folder, facts = made
    assert facts["window"] == f".venv/bin/plan-editor {folder / 'harrowmere.gpkg'}"


def test_a_folder_that_cannot_be_made_is_said(tmp_path, said):
    (tmp_path / "taken").write_text("a file", "utf-8")
    code, _, err = said("sample", tmp_path / "taken")
    assert code == 2
    assert "Choose another folder" in err


def test_a_sample_that_was_worked_on_is_not_replaced(made, said):
    folder, _ = made
    with PlanFile.open(folder / "harrowmere.gpkg") as file:
        edit = Add((new_item(note.KIND, shapely.Point(1, 2)),))
        Document(file.plan, journal=file).apply(edit)
        file.save()
    before = (folder / "harrowmere.gpkg").read_bytes()
    code, _, err = said("sample", folder)
    assert code == 2
    assert "not the sample as it comes" in err
    assert (folder / "harrowmere.gpkg").read_bytes() == before
