"""Tables of other people: every way in which a spreadsheet or a text editor may save them."""

import io
import zipfile
from datetime import date, datetime
from itertools import pairwise
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.errors import CannotRead
from plan_editor.exchange import tables, text_tables, workbooks
from plan_editor.exchange.tables import Column, columns, number, read_table

WANTED = (
    Column(name="point", synonyms=("name", "point no."), needed=True),
    Column(name="east", synonyms=("E", "easting"), needed=True),
    Column(name="north", synonyms=("N", "northing"), needed=True),
    Column(name="code"),
)


@pytest.fixture
def cells(tmp_path):
    """Write bytes or text to a file and return its rows."""

    def read(content: str | bytes, name: str = "t.csv") -> list[tuple[str, ...]]:
        path = tmp_path / name
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return [row.cells for row in read_table(path).rows]

    return read


def workbook(rows, title="Sheet1") -> bytes:
    book = openpyxl.Workbook()
    book.active.title = title
    for row in rows:
        book.active.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


ROWS = [("point", "E", "N"), ("P1", "553100.123", "421000.5"), ("P2", "553101.5", "421002.25")]


@pytest.mark.parametrize("separator", [",", ";", "\t", " ", "   "])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_table_reads_alike_however_it_was_saved(cells, separator, encoding, end):
    text = end.join(separator.join(row) for row in ROWS)
    assert cells(text.encode(encoding)) == ROWS


@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
def test_utf_16_is_known_without_a_mark_at_its_start(cells, encoding):
    assert cells("a,b\nc,1".encode(encoding)) == [("a", "b"), ("c", "1")]


def test_letters_of_windows_and_of_unicode_are_read(cells):
    assert cells("name,m\nPère’s,1".encode("cp1252"))[1] == ("Père’s", "1")
    assert cells("name,m\nŁódź,1")[1] == ("Łódź", "1")


@pytest.mark.parametrize("separator", [";", "\t", " "])
def test_a_decimal_comma_is_a_point_where_commas_part_nothing(cells, separator):
    rows = ["point E N", "P1 553100,12 -4,5", "P2 553101,125 421002,25"]
    found = cells("\n".join(rows).replace(" ", separator))
    assert found[1:] == [("P1", "553100.12", "-4.5"), ("P2", "553101.125", "421002.25")]


def test_a_comma_beside_points_is_left_as_it_is(cells):
    assert cells("a;b\n1,234;5.5\n2,345;6.5")[1] == ("1,234", "5.5")


def test_feet_and_inches_need_no_quotation_marks(cells):
    rows = cells('from,distance,side\nM1,23\' 4½",left\nM2,"9\' 6""",right\n')
    assert rows[1:] == [("M1", "23' 4½\"", "left"), ("M2", "9' 6\"", "right")]


def test_one_column_is_a_table_too(cells):
    assert cells("number\nC 14\nC 15 a\nD 1") == [("number",), ("C 14",), ("C 15 a",), ("D 1",)]


def test_remarks_with_commas_do_not_hide_the_semicolons(cells):
    rows = cells("a;b;remarks\n1;2;large, old, leaning\n3;4;\n5;6;good, sound")
    assert rows[1] == ("1", "2", "large, old, leaning")


def test_lines_of_settings_do_not_hide_the_separator(cells):
    rows = cells("# book of 1962\n# tape sd 0.01\nfrom,to,distance\nM1,P1,4.5\nM2,P1,5.5")
    assert rows[2] == ("from", "to", "distance")


def test_lines_are_counted_as_an_editor_counts_them(tmp_path):
    path = tmp_path / "t.csv"
    path.write_text('\n\na,b\n\n"x\ny",2\n3,4\n', "utf-8")
    rows = read_table(path).rows
    assert [(r.line, r.cells) for r in rows] == [
        (3, ("a", "b")),
        (5, ("x y", "2")),
        (7, ("3", "4")),
    ]
    assert rows[1].text == "x y 2"


@given(
    st.lists(
        st.lists(
            st.text(st.characters(codec="utf-8", categories=["L", "N", "P"]), min_size=1),
            min_size=3,
            max_size=3,
        ),
        min_size=1,
        max_size=6,
    )
)
def test_text_that_a_csv_writer_wrote_never_ends_in_a_traceback(rows):
    text = "\n".join(",".join(row) for row in rows)
    said = read_or_said(text.encode())
    assert said.startswith("t.csv") or said.endswith(" rows")


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused_in_a_sentence(content):
    said = read_or_said(content)
    assert "Nothing was read." in said or said.endswith(" rows")


def read_or_said(content: bytes) -> str:
    try:
        return f"{len(text_tables.text_lines(content, 't.csv'))} rows"
    except CannotRead as fault:
        return str(fault)


def test_a_workbook_keeps_digits_and_tells_dates_as_iso(cells):
    rows = [
        ("point", "E", "when", "dug", "n"),
        ("007", 553100.123, date(2025, 9, 6), True, 12.0),
        (None, 421000.123456789, datetime(2025, 9, 6, 10, 30), False, 10**15),  # noqa: DTZ001
    ]
    assert cells(workbook(rows))[1:] == [
        ("007", "553100.123", "2025-09-06", "yes", "12"),
        ("", "421000.123456789", "2025-09-06T10:30:00", "no", "1000000000000000"),
    ]


def test_a_sheet_is_chosen_by_its_name(tmp_path):
    book = openpyxl.Workbook()
    book.active.append(["first"])
    book.create_sheet("Ties").append(["second"])
    path = tmp_path / "b.xlsx"
    book.save(path)
    assert read_table(path).rows[0].cells == ("first",)
    assert read_table(path, "ties").rows[0].cells == ("second",)
    with pytest.raises(CannotRead, match="no sheet “Nine”; there are Sheet, Ties"):
        read_table(path, "Nine")


def test_a_formula_without_its_result_is_told_with_its_cell(cells):
    with pytest.raises(CannotRead, match="cell B2: a formula is there without its result"):
        cells(workbook([("a", "b"), (1, "=A2*2")]))


def test_a_formula_with_its_result_is_its_result(cells):
    plain = workbook([("a", "b"), (1, 12345)])
    assert cells(in_sheet(plain, b"<v>12345</v>", b"<f>A2*2</f><v>2</v>"))[1] == ("1", "2")


def in_sheet(content: bytes, old: bytes, new: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as was, zipfile.ZipFile(out, "w") as now:
        for member in was.namelist():
            part = was.read(member)
            if "sheet1" in member:
                assert old in part
                part = part.replace(old, new)
            now.writestr(member, part)
    return out.getvalue()


def test_merged_cells_hold_their_text_once(tmp_path):
    book = openpyxl.Workbook()
    for row in (("Field book",), ("point", "E", "N"), ("P1", 1, 2)):
        book.active.append(row)
    book.active.merge_cells("A1:C1")
    book.save(tmp_path / "b.xlsx")
    found = columns(read_table(tmp_path / "b.xlsx"), WANTED)
    assert found.header.line == 2
    assert [found.named(r) for r in found.rows] == [{"point": "P1", "east": "1", "north": "2"}]


def entities_of_entities() -> bytes:
    """Return a workbook.xml of some hundred bytes that would unfold to 30 GB."""
    names = "abcdefghij"
    declared = "".join(
        f'<!ENTITY {inner} "{f"&{outer};" * 10}">' for outer, inner in pairwise(names)
    )
    return f'<!DOCTYPE w [<!ENTITY a "aaa">{declared}]><workbook>&j;</workbook>'.encode()


def zipped(**members: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(name, content)
    return out.getvalue()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is empty"),
        (b" \n\n", "is empty"),
        (b",,,\n,,", "nothing in it"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "not a table in text"),
        (b"point,E\n1,2\0\n", "not a table in text"),
        (b"\x81\x8d\x8f,\xff", "not a table in text"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 99, "workbook of an old sort"),
        (
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"),
            "locked with a password",
        ),
        (b"PK\x03\x04 and no more", "damaged workbook"),
        (zipped(mimetype=b"text"), "no workbook that can be read"),
        (zipped(**{"xl/workbook.xml": b"<not xml"}), "damaged workbook"),
        (
            zipped(
                **{
                    "[Content_Types].xml": b'<Types xmlns="http://schemas.openxmlformats.org/package'
                    b'/2006/content-types"><Override PartName="/xl/workbook.xml" ContentType='
                    b'"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
                    b"</Types>",
                    "xl/workbook.xml": entities_of_entities(),
                }
            ),
            "damaged workbook",
        ),
        (b'a,b\n"' + b"x" * 200_000 + b"\n1,2", "line 2: a cell is too long"),
        (b'a,b\n"x,' + b"1,2\n" * 50, "line 2: a quotation mark is opened"),
        (b'a,b\n1,"x\n2,3\n', "line 2: a quotation mark is opened"),
    ],
)
def test_what_is_no_table_is_refused_in_a_sentence(cells, content, said):
    with pytest.raises(CannotRead, match=said):
        cells(content)


def test_a_locked_archive_is_told(cells):
    content = bytearray(workbook([("a", "b")]))
    at = content.index(b"PK\x01\x02")
    content[at + 8] |= 1
    with pytest.raises(CannotRead, match="locked with a password"):
        cells(bytes(content))


def test_a_workbook_is_refused_before_it_unpacks_to_too_much(cells, monkeypatch):
    monkeypatch.setattr(workbooks, "MOST_UNPACKED", 1_000)
    with pytest.raises(CannotRead, match="would unpack to more than"):
        cells(workbook([("a", "b")]))


@pytest.mark.parametrize("content", [b"a,b,c\n" * 9, workbook([("a", "b", "c")] * 9)])
def test_too_many_cells_are_refused(cells, content, monkeypatch):
    monkeypatch.setattr(text_tables, "MOST_CELLS", 20)
    monkeypatch.setattr(workbooks, "MOST_CELLS", 20)
    with pytest.raises(CannotRead, match="million cells"):
        cells(content)


def test_a_row_said_to_be_far_below_ends_the_reading(cells):
    far = in_sheet(workbook([("a", "b"), (1, 2)]), b'r="2"', b'r="99999999999"')
    with pytest.raises(CannotRead):
        cells(far)


def test_a_sheet_that_speaks_of_entities_is_refused(cells):
    bomb = b'<!DOCTYPE w [<!ENTITY a "aaaa">]><worksheet'
    with pytest.raises(CannotRead, match="damaged workbook"):
        cells(in_sheet(workbook([("a", "b")]), b"<worksheet", bomb))


def test_what_is_not_there_or_no_file_is_said(tmp_path):
    with pytest.raises(CannotRead, match="There is no file"):
        read_table(tmp_path / "none.csv")
    with pytest.raises(CannotRead, match="is a folder"):
        read_table(tmp_path)
    with pytest.raises(CannotRead, match="is a device"):
        read_table(Path("/dev/null"))
    with pytest.raises(CannotRead, match="Nothing was read"):
        read_table(tmp_path / ("x" * 300))


def test_a_file_that_is_too_large_is_refused_unread(cells, monkeypatch):
    monkeypatch.setattr(tables, "MOST_BYTES", 4)
    with pytest.raises(CannotRead, match="is larger than"):
        cells("a,b,c")


def test_columns_are_found_in_any_order_and_by_other_names(cells, tmp_path):
    cells("Survey of 2025\n\nN (m),Remarks,Point No,E [m]\n2,good,P1,1\n")
    found = columns(read_table(tmp_path / "t.csv"), WANTED)
    (row,) = found.rows
    assert [found.cell(row, c.name) for c in WANTED] == ["P1", "1", "2", ""]
    assert (found.has("point"), found.has("code")) == (True, False)
    assert [r.text for r in found.above] == ["Survey of 2025"]


def test_a_missing_column_is_named_with_what_was_found(cells, tmp_path):
    cells("point,easting,height\nP1,1,2")
    with pytest.raises(CannotRead, match=r"line 1: there is no column north; found are point"):
        columns(read_table(tmp_path / "t.csv"), WANTED)


def test_a_table_without_a_header_is_said(cells, tmp_path):
    cells("P1,1,2\nP2,3,4")
    with pytest.raises(CannotRead, match="no row names the columns; wanted is one with point"):
        columns(read_table(tmp_path / "t.csv"), WANTED)


def test_one_column_named_twice_is_said(cells, tmp_path):
    cells("point,E,Easting,N\nP1,1,2,3")
    with pytest.raises(CannotRead, match="“E” and “Easting” both name the column east"):
        columns(read_table(tmp_path / "t.csv"), WANTED)


@pytest.mark.parametrize(
    ("text", "value"), [("12.5", 12.5), ("-.5", -0.5), ("+3", 3.0), ("1e3", 1000.0)]
)
def test_a_number_is_read(text, value):
    assert number(text) == value


@pytest.mark.parametrize("text", ["", "nan", "inf", "1e999", "1_0", "1,5", "x" * 99, "٣"])
def test_what_is_no_number_is_refused(text):
    with pytest.raises(ValueError, match="is not a number"):
        number(text)
