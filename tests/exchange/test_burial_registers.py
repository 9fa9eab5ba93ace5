"""Registers as tables of other programs: what is taken, what is doubtful, what is refused."""

import csv
import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from plan_editor.commands.register_files import look_at_register, ready_register
from plan_editor.edits.burial_register import TakeInRegister
from plan_editor.edits.entries_compared import compared
from plan_editor.errors import CannotRead, CannotUse
from plan_editor.exchange import registers
from plan_editor.exchange.register_cells import taken
from plan_editor.exchange.register_columns import (
    COLUMNS,
    layout_of,
    missing,
    read_columns,
)
from plan_editor.exchange.register_rows import register_table
from plan_editor.exchange.registers import (
    WrittenRegister,
    read_register_table,
    register_of,
)
from plan_editor.exchange.tables_out import write_csv, write_workbook
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave
from plan_editor.kinds.burial import BurialDetails, BurialSort
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of


@pytest.fixture
def read(tmp_path: Path) -> Callable[..., WrittenRegister]:
    def call(text: str | bytes, name: str = "register.csv") -> WrittenRegister:
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        table = read_register_table(path)
        return register_of(table, layout_of(table))

    return call


def details(found: WrittenRegister, at: int = 0) -> BurialDetails:
    return BurialDetails(**dict(found.entries[at].details))


def whys(found: WrittenRegister) -> list[tuple[int, str]]:
    return [(d.row, d.column) for d in found.doubtful]


FORM = """No.,Name,Abode,When buried,Age,By whom the ceremony was performed
1,Mary Holt,Mill Lane,14 March 1871,82,J. Ash
"""


def test_register_with_the_columns_of_the_act_is_read(read) -> None:
    """The columns are those of 1813. Source: Parochial Registers Act 1812, schedule C.

    52 Geo. III c. 146; from memory.
    """
    found = read(FORM)
    assert found.entries[0].number == "1"
    assert details(found) == BurialDetails(
        surname="Holt",
        forenames="Mary",
        abode="Mill Lane",
        buried="1871-03-14",
        age="82",
        minister="J. Ash",
    )
    assert (found.read, found.doubtful, found.rejected) == (1, (), ())


def test_every_doubtful_cell_is_told_with_its_row_and_column(read) -> None:
    found = read(
        "Surname,Forenames,Buried,Type,Depth,Age\n"
        "Holt,Mary,bef. 1850,coffin,1.5 m,82\n"
        "Oakes,John,1851,sack,9,190\n"
        "Elm,=1+1,#REF!,c.r.,deep,\n"
    )
    assert whys(found) == [
        (2, "buried"),
        (3, "sort"),
        (3, "depth_m"),
        (3, "age"),
        (4, "forenames"),
        (4, "buried"),
        (4, "depth_m"),
    ]
    first = details(found)
    assert (first.buried, first.depth_m) == ("1850", 1.5)
    assert first.remarks == "Buried as written: bef. 1850"
    assert details(found, 2).sort is BurialSort.ASHES
    assert "Depth of the lid as written: deep" in details(found, 2).remarks


def test_month_first_somewhere_makes_the_other_figures_doubtful(read) -> None:
    found = read("Name,Buried\nMary Holt,3/14/1871\nJohn Oakes,3/4/1871\nAnn Elm,4/4/1871\n")
    assert whys(found) == [(2, "buried"), (3, "buried")]
    assert whys(read("Name,Buried\nJohn Oakes,3/4/1871\n")) == []


def test_row_without_name_is_taken_with_a_number_and_rejected_without(read) -> None:
    found = read("No.,Surname,Abode\n1,,Mill Lane\n,,Mill Lane\n,Elm,\nNo.,Surname,Abode\n")
    assert whys(found) == [(2, "surname"), (4, "number")]
    assert [(r.row, r.why[:19]) for r in found.rejected] == [
        (3, "neither a name nor "),
        (5, "the names of the co"),
    ]


@pytest.mark.parametrize(
    ("text", "surname", "forenames"),
    [
        ("Holt, Mary Ann", "Holt", "Mary Ann"),
        ("Mary Ann Holt", "Holt", "Mary Ann"),
        ("Holt", "Holt", ""),
        ("Holt,", "Holt", ""),
    ],
)
def test_whole_name_is_taken_apart(text: str, surname: str, forenames: str) -> None:
    told = dict(taken("name", text).columns)
    assert told["surname"] == surname
    assert told.get("forenames", "") == forenames
    assert bool(taken("name", text).doubt) == (not forenames)


@pytest.mark.parametrize(
    ("name", "cell", "why"),
    [
        ("abode", "x" * 1_001, "longer than 1,000"),
        ("abode", "<script>x</script>", "web page"),
        ("abode", "Caf\u00c3\u00a9", "UTF-8"),
        ("abode", "\ufffdlvaston", "UTF-8"),
        ("abode", "@SUM(A1)", "formula"),
        ("belief", "maybe", "neither certain"),
        ("buried", "45123", "spreadsheet"),
    ],
)
def test_odd_cell_is_doubtful(name: str, cell: str, why: str) -> None:
    assert why in taken(name, cell).doubt


def test_words_with_accents_and_dashes_are_not_odd() -> None:
    for text in ("Ŵyn – Llŷn", "3 < 4 weeks", "Ângela", "Âge 3", "-", "'=1", "A & B"):
        assert "read wrongly" not in taken("abode", text).doubt
        assert "web page" not in taken("abode", text).doubt
    assert taken("abode", "-").columns == ()
    assert taken("belief", "Certain").columns == (("belief", burial.Belief.CERTAIN),)


def test_columns_that_are_given_come_before_those_that_are_guessed(tmp_path: Path) -> None:
    path = tmp_path / "register.csv"
    path.write_text("Surname,Was called,Born as,Given\nx,Holt,y,Mary\n", "utf-8")
    chosen = tmp_path / "map.toml"
    chosen.write_text('[columns]\nsurname = "Was called"\nforenames = "GIVEN"\n', "utf-8")
    table = read_register_table(path)
    layout = layout_of(table, read_columns(chosen))
    assert layout.names == ("", "surname", "", "forenames")
    assert layout.left == ("Surname", "Born as")
    assert layout.key == "surname|wascalled|bornas|given"
    assert details(register_of(table, layout)).surname == "Holt"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ('hat = "Hat"', "no column hat"),
        ("surname = 3", "not a text"),
        ("", "names no columns"),
        ("surname =", "cannot be read"),
        ("#" * 100_001, "too large"),
    ],
)
def test_list_of_columns_that_makes_no_sense_is_refused(
    tmp_path: Path, text: str, why: str
) -> None:
    path = tmp_path / "map.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(CannotUse, match=why):
        read_columns(path)


def test_column_that_is_given_and_not_there_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "register.csv"
    path.write_text(FORM, "utf-8")
    with pytest.raises(CannotUse, match="no column “Hat” for surname"):
        layout_of(read_register_table(path), {"surname": "Hat"})


def test_columns_chosen_by_hand_are_looked_at() -> None:
    assert missing(("number", "surname")) == ""
    assert "Two columns" in missing(("surname", "surname"))
    assert "Whole name" in missing(("number", "age"))


def test_column_called_grave_holds_words_and_lies_in_a_grave(read) -> None:
    found = read("No.,Surname,Grave,Lies in\n1,Holt,by the yew,C 14\n")
    assert details(found).place_written == "by the yew"
    assert found.entries[0].lies_in == "C 14"


def test_head_of_a_column_is_told_as_the_table_has_it(tmp_path: Path) -> None:
    path = tmp_path / "register.csv"
    path.write_text("Entry,Deceased,When buried,Cost\n1,x,1851,2\n", "utf-8")
    layout = layout_of(read_register_table(path))
    assert layout.head("buried") == "When buried"
    assert layout.head("surname") == "Deceased"
    assert layout.head("age") == "Age"


# there and back


TEXTS = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs", "Cc", "Zl", "Zp"]), max_size=12
) | st.sampled_from(["=1+1", "'=1", "''+1", "  =1", "-", "-5", "@x", "+44", "<b>", "#N/A"])


@st.composite
def _register(draw: st.DrawFn) -> Plan:
    spaces = [
        new_item(grave.KIND, Rectangle(east=0, north=0, width=1, length=2), number=n)
        for n in ("C 14", "=2", "")
    ]
    entries = []
    for n in range(draw(st.integers(1, 4))):
        told = BurialDetails(
            surname=draw(TEXTS) if n else "Holt",
            forenames=draw(TEXTS) if n else "-",
            abode=draw(TEXTS),
            sort=draw(st.sampled_from(BurialSort)),
            buried=draw(st.sampled_from(["", "1720-02-02", "1871-03", "1752-09-05", "1902"])),
            age=draw(TEXTS),
            grave=draw(st.none() | st.sampled_from([s.id for s in spaces])),
            belief=draw(st.none() | st.sampled_from(burial.Belief)),
            depth_m=draw(st.none() | st.integers(0, 5_000).map(lambda mm: mm / 1000)),
            remarks=draw(TEXTS) + "\n" + draw(TEXTS),
        )
        entries.append(new_item(burial.KIND, details=told, number=f"{n}" if n else ""))
    return plan_of([*spaces, *entries])


@pytest.mark.parametrize(("suffix", "write"), [(".csv", write_csv), (".xlsx", write_workbook)])
@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture],
    max_examples=20,
    deadline=None,
)
@given(plan=_register())
def test_register_that_is_written_and_read_again_changes_nothing(
    plan: Plan, suffix: str, write: Callable[..., None], tmp_path: Path
) -> None:
    path = tmp_path / f"out{suffix}"
    write(register_table(plan), path)
    table = read_register_table(path)
    found = register_of(table, layout_of(table))
    entries = found.entries
    assert TakeInRegister(entries=entries).changes(plan) == ()
    assert compared(plan, entries).new == ()


def test_no_cell_that_is_written_begins_like_a_formula(tmp_path: Path) -> None:
    told = BurialDetails(surname="=1+1", abode="@x", age="-5", forenames="+1", book="\t=1")
    plan = plan_of([new_item(burial.KIND, details=told)])
    write_csv(register_table(plan), tmp_path / "out.csv")
    rows = csv.reader(io.StringIO((tmp_path / "out.csv").read_text("utf-8-sig"), newline=""))
    cells = [c for row in rows for c in row if c]
    assert len(cells) == len(COLUMNS) - 1 + 5
    assert not [c for c in cells if c.startswith(("=", "+", "-", "@", "\t", "\r"))]


def test_dates_are_written_as_iso_texts(tmp_path: Path) -> None:
    told = BurialDetails(surname="Holt", buried="1871-03-14", died="1871")
    write_workbook(
        register_table(plan_of([new_item(burial.KIND, details=told)])), tmp_path / "o"
    )
    (tmp_path / "o").rename(tmp_path / "o.xlsx")
    sheet = openpyxl.load_workbook(tmp_path / "o.xlsx").worksheets[0]
    row = {h.value: c for h, c in zip(*sheet.iter_rows(min_row=1, max_row=2), strict=True)}
    assert (row["Buried"].value, row["Buried"].data_type) == ("1871-03-14", "s")
    assert (row["Died"].value, row["Died"].data_type) == ("1871", "s")


# tables made to do harm, or merely broken


def test_merged_cells_leave_rows_without_name_that_are_told(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    for row in (("No.", "Surname", "Buried"), ("1", "Holt", "1871"), ("2", "Holt", "1872")):
        sheet.append(row)
    sheet.merge_cells("B2:B3")
    book.save(tmp_path / "merged.xlsx")
    table = read_register_table(tmp_path / "merged.xlsx")
    found = register_of(table, layout_of(table))
    assert [(d.row, d.column) for d in found.doubtful] == [(3, "surname")]
    assert "merged" in found.doubtful[0].why


def test_dates_of_a_workbook_before_1900_are_read(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.append(("Surname", "Buried", "Died"))
    sheet.append(("Holt", -10576, -10577))
    sheet["B2"].number_format = "yyyy-mm-dd"
    book.save(tmp_path / "old.xlsx")
    table = read_register_table(tmp_path / "old.xlsx")
    found = register_of(table, layout_of(table))
    assert (details(found).buried, details(found).died) == ("1871-01-15", "1871-01-14")
    assert [(d.row, d.column) for d in found.doubtful] == [(2, "died")]


@pytest.mark.parametrize(
    "content",
    [
        b"<html><body><table><tr><td>Surname</td></tr></table></body></html>",
        b"Surname,Buried\nHolt\x00,1871\n",
        b"\xff\xfe\x00\xd8\x00\xd8",
        b"PK\x03\x04 and then nothing of an archive",
        b"No.,Age\n1,82\n",
        b"one line without a table",
        b"",
    ],
)
def test_what_is_no_register_is_refused_with_its_name(content: bytes, read) -> None:
    with pytest.raises(CannotRead, match=r"^register\.csv.* Nothing was read"):
        read(content)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"])
def test_letters_are_read_in_any_usual_encoding(encoding: str, read) -> None:
    found = read("Surname,Abode\nHölt,Café Lane\n".encode(encoding))
    assert (details(found).surname, details(found).abode) == ("Hölt", "Café Lane")
    assert found.doubtful == ()


def test_table_of_more_rows_than_any_churchyard_has_is_refused(read, monkeypatch) -> None:
    monkeypatch.setattr(registers, "MOST_ENTRIES", 100)
    with pytest.raises(CannotRead, match="101 rows"):
        read("Surname,Buried\n" + "Holt,1871\n" * 100)


def test_large_table_is_read_in_a_process_of_its_own(read, monkeypatch) -> None:
    monkeypatch.setattr(registers, "LARGE_BYTES", 10)
    assert details(read(FORM)).surname == "Holt"
    with pytest.raises(CannotRead, match="Nothing was read"):
        read(b"\x00" * 100)


def test_text_without_end_is_refused_before_it_is_taken_apart(read, monkeypatch) -> None:
    monkeypatch.setattr(registers, "LARGE_BYTES", 10)
    monkeypatch.setattr(registers, "MOST_LINES", 100)
    with pytest.raises(CannotRead, match="101 lines and 0 MB"):
        read("Surname,Buried\n" + "Holt,1871\n" * 100)


def test_archive_that_unpacks_to_gigabytes_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "bomb.xlsx"
    with (
        zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive,
        archive.open("xl/workbook.xml", "w", force_zip64=True) as member,
    ):
        for _ in range(410):
            member.write(b" " * 1_000_000)
    with pytest.raises(CannotRead, match="unpack to more than 400 MB"):
        read_register_table(path)


def test_what_is_only_called_an_archive_is_refused(tmp_path: Path) -> None:
    whole = io.BytesIO()
    openpyxl.Workbook().save(whole)
    path = tmp_path / "cut.xlsx"
    path.write_bytes(whole.getvalue()[:300] + whole.getvalue()[-400:])
    with pytest.raises(CannotRead, match="Nothing was read"):
        read_register_table(path)


def test_looking_at_a_folder_or_nothing_says_so(tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "nowhere.csv"):
        with pytest.raises(Exception, match="Nothing was read"):
            look_at_register(path)


def test_file_taken_in_as_chosen_tells_what_becomes_of_it(tmp_path: Path) -> None:
    path = tmp_path / "register.csv"
    path.write_text(FORM, "utf-8")
    looked = look_at_register(path)
    plan = plan_of([])
    found = ready_register(plan, looked, on="2026-05-01")
    assert (found.read, found.new, found.updated) == (1, 1, 0)
    assert found.edit is not None
    assert found.edit.date == "2026-05-01"
    made = plan_of([c.after for c in found.edit.changes(plan) if c.after])
    assert ready_register(made, looked).edit is None
