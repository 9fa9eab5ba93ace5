"""Tables for other programs; read back by openpyxl, by the csv module and as bare XML."""

import csv
import io
import zipfile
from pathlib import Path

import openpyxl
import pyogrio.raw
import pytest
from defusedxml import ElementTree

from plan_editor.errors import NotAllowed
from plan_editor.exchange.tables_out import TableOut, write_csv, write_workbook

# common examples of what is slipped into tables, and of what only looks like it
NASTY = (
    '=HYPERLINK("http://example.invalid","x")',
    "+1+1",
    "-2+3",
    "@SUM(A1:A2)",
    "\t=1+1",
    "  =1+1",
    "=cmd|' /C calc'!A0",
)
PLAIN = ("12 – 14", "1931-02-03", "C 14", "O'Hara, “Kit”", 'He said "no"', "línea\ntwo", "")

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


def table(*texts: str, figures: bool = False) -> TableOut:
    return TableOut(
        title="Burials: by [name]",
        heads=("Text",),
        figures=(figures,),
        rows=tuple((t,) for t in texts),
    )


def test_csv_is_utf_8_with_its_mark_and_reads_back_line_for_line(tmp_path: Path):
    out = tmp_path / "a.csv"
    write_csv(table(*PLAIN), out)
    content = out.read_bytes()
    # source: RFC 4180, section 2: lines end in CRLF; the mark is U+FEFF in UTF-8
    assert content.startswith(b"\xef\xbb\xbfText\r\n")
    rows = list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))
    assert rows == [["Text"], *([t] if t else [""] for t in PLAIN)]


@pytest.mark.parametrize("text", NASTY)
def test_what_might_be_a_formula_is_text_in_csv(text: str, tmp_path: Path):
    out = tmp_path / "a.csv"
    write_csv(table(text), out)
    (_, (cell,)) = csv.reader(io.StringIO(out.read_text("utf-8-sig"), newline=""))
    assert cell == f"'{text}"


@pytest.mark.parametrize("text", [*NASTY, *PLAIN[:-1], "1" * 40_000, "nul\x00and\x1fbell\x07"])
@pytest.mark.parametrize("figures", [False, True])
def test_every_text_of_a_workbook_is_kept_as_a_text(text, figures, tmp_path):
    out = tmp_path / "a.xlsx"
    write_workbook(table(text, figures=figures), out)
    cell = openpyxl.load_workbook(out).worksheets[0]["A2"]
    assert cell.data_type == "s"
    wanted = text.translate(dict.fromkeys((0, 0x1F, 7), " "))
    assert cell.value == (wanted if len(text) < 32_768 else f"{text[:32_766]}…")
    assert bool(cell.quotePrefix) == (text in NASTY)
    with zipfile.ZipFile(out) as archive:
        for name in archive.namelist():
            if name.startswith("xl/worksheets/"):
                assert ElementTree.fromstring(archive.read(name)).find(f".//{MAIN}f") is None


def test_another_reader_finds_the_same_texts_and_figures(tmp_path: Path):
    """GDAL reads workbooks with a parser of its own."""
    out = tmp_path / "a.xlsx"
    texts = [*NASTY, *PLAIN[:-1]]
    rows = [(text, f"{n}.50") for n, text in enumerate(texts)]
    write_workbook(
        TableOut(title="All", heads=("Text", "Figure"), figures=(False, True), rows=rows), out
    )
    about, _, _, (told, figures) = pyogrio.raw.read(out, layer="All")
    assert list(about["fields"]) == ["Text", "Figure"]
    assert list(told) == texts
    assert list(figures) == [n + 0.5 for n in range(len(texts))]


def test_figures_are_numbers_with_their_places(tmp_path: Path):
    out = tmp_path / "a.xlsx"
    write_workbook(table("1250.00", "7", "1200, 310", "", figures=True), out)
    sheet = openpyxl.load_workbook(out).worksheets[0]
    cells = [sheet.cell(n, 1) for n in range(2, 6)]
    assert [c.value for c in cells] == [1250.0, 7, "1200, 310", None]
    assert [c.number_format for c in cells[:2]] == ["0.00", "0"]


def test_a_workbook_names_its_sheet_and_keeps_notes_apart(tmp_path: Path):
    out = tmp_path / "a.xlsx"
    noted = TableOut(
        title="[]", heads=("A", "B"), figures=(False, True), rows=(), notes=("=x", "Mind.")
    )
    write_workbook(noted, out)
    book = openpyxl.load_workbook(out)
    assert [s.title for s in book.worksheets] == ["  ", "Notes"]
    assert [c.value for c in book["Notes"]["A"]] == ["=x", "Mind."]
    assert book.worksheets[0].freeze_panes == "A2"


def test_what_cannot_be_written_leaves_nothing_behind(tmp_path: Path):
    with pytest.raises(NotAllowed):
        write_csv(table("a"), tmp_path / "none" / "a.csv")
    with pytest.raises(NotAllowed):
        write_workbook(table("a"), tmp_path / "none" / "a.xlsx")
    assert list(tmp_path.iterdir()) == []
