"""The verb schedule: what it writes, what it refuses."""

import csv
import io
import json

import openpyxl
import pypdfium2
import pytest

from plan_editor.resources import sample


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def harrowmere():
    return sample("harrowmere.gpkg")


def test_the_schedules_are_listed_without_a_plan(said):
    code, out, _ = said("schedule", "--list", "--json")
    assert code == 0
    names = {s["name"] for s in json.loads(out)["schedules"]}
    wanted = {"unsafe", "inspections_due", "reservations", "graves_by_row", "burials", "trees"}
    assert wanted | {"works", "boundaries", "dues"} <= names
    assert "Unsafe memorials" in said("schedule", "--list")[1]


def test_one_schedule_is_the_same_in_all_three_sorts_of_file(harrowmere, tmp_path, said):
    on = ("--on", "2026-11-25")
    for suffix in ("pdf", "xlsx", "csv"):
        out = tmp_path / f"trees.{suffix}"
        code, told, _ = said("schedule", "trees", harrowmere, "-o", out, *on, "--json")
        assert code == 0
        assert json.loads(told)["lines"] > 20
    text = (tmp_path / "trees.csv").read_text("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text, newline="")))
    sheet = openpyxl.load_workbook(tmp_path / "trees.xlsx").worksheets[0]
    assert [[str(c.value or "") for c in row][:2] for row in sheet.rows] == [
        row[:2] for row in rows
    ]
    with pypdfium2.PdfDocument(tmp_path / "trees.pdf") as found:
        page = found[0].get_textpage().get_text_range()
    for row in rows[1:]:
        assert row[0] in page
        assert row[1] in page


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("trees",), "Write which schedule"),
        (("trees", "PLAN"), "Write which schedule"),
        (("tree", "PLAN", "-o", "x.pdf"), "There is no schedule “tree”"),
        (("trees", "PLAN", "-o", "x.doc"), "by how the file's name ends"),
        (("trees", "PLAN", "-o", "x.pdf", "--on", "May"), "is no date"),
        (("trees", "none.gpkg", "-o", "x.pdf"), "none.gpkg"),
        (("trees", "PLAN", "-o", "no/such/x.csv"), "x.csv cannot be written"),
    ],
)
def test_what_cannot_be_written_is_refused_in_one_sentence(words, says, harrowmere, here, said):
    code, _, err = said("schedule", *(harrowmere if w == "PLAN" else w for w in words))
    assert code == 2
    assert says in err
    assert list(here.glob("x.*")) == []


def test_lines_and_pages_are_counted_in_words(harrowmere, tmp_path, said):
    _, out, _ = said("schedule", "reservations", harrowmere, "-o", tmp_path / "r.pdf")
    assert "r.pdf: Reservations expiring, 4 lines, 1 page A4." in out
