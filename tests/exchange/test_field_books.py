"""Field books from files."""

import io

import openpyxl
import pytest

from plan_editor.errors import CannotRead
from plan_editor.exchange.field_books import read_field_book
from plan_editor.resources import resource
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import FieldBook, Sort


@pytest.fixture
def book(tmp_path):
    """Write text or bytes to a file and return the field book in it."""

    def read(content: str | bytes, name: str = "ties.csv", **more) -> FieldBook:
        path = tmp_path / name
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return read_field_book(path, **more)

    return read


def test_the_book_to_begin_with_is_a_book():
    found = read_field_book(resource("field_book.csv"))
    assert (found.name, found.date, found.observer) == (
        "Field book 1",
        "2026-05-16",
        "A. Churchwarden",
    )
    assert [line.sort for line in found.lines] == [
        *[Sort.TIE] * 3,
        Sort.OFFSET,
        *[Sort.LEG] * 2,
        Sort.CHECK,
    ]
    assert found.lines[1].distance == pytest.approx(23 * 0.3048 + 4.5 * 0.0254)
    assert found.notes == ()


def test_settings_stand_over_the_table_and_the_unit_counts_for_all_of_them(book):
    found = book(
        "mark A 10 20\nunit feet\n# a hot day\n\n"
        "type,from,to,distance,bearing\nleg,A,B,100,75\n"
    )
    assert found.lines[0].distance == 30.48
    assert found.marks[0].east == pytest.approx(3.048)
    assert (found.name, found.notes) == ("ties", ())


def test_a_title_and_a_setting_wrongly_written_are_noted(book):
    found = book("Survey of the north side\n# tape steal\nfrom,point,distance\nM1,P1,5\n")
    assert found.notes == (
        "Line 1 was taken for a remark: “Survey of the north side”.",
        "Line 2 was taken for a remark: “# tape steal”.",
    )


def test_remarks_may_stand_between_the_lines(book):
    found = book("from,point,distance\nM1,P1,5\n# lunch, in the porch\nM2,P1,6\n")
    assert [line.line for line in found.lines] == [2, 4]


def test_columns_may_stand_in_any_order_and_bear_other_names(book):
    found = book("Remark;Dist (m);Name;Mark\nold yew;7,24;P1;M1\n;8,5;P1;M2\n")
    assert [(x.start, x.point, x.distance, x.remarks) for x in found.lines] == [
        ("M1", "P1", 7.24, "old yew"),
        ("M2", "P1", 8.5, ""),
    ]


def test_a_unit_in_the_header_is_that_of_its_column(book):
    found = book("from,point,distance [ft],remarks\nM1,P1,10,\nM2,P1,10 m,\nM3,P1,3' 6\",\n")
    assert [line.distance for line in found.lines] == [3.048, 10.0, 1.0668]


def test_a_workbook_is_a_field_book_too(book):
    made = openpyxl.Workbook()
    made.active.append(["date", "2026-05-16"])
    made.active.append(["From", "To", "Point", "Distance", "Offset", "Side"])
    made.active.append(["M1", "M2", "P1", 4.5, 1.25, "left"])
    out = io.BytesIO()
    made.save(out)
    found = book(out.getvalue(), "book 7.xlsx", settings=BookSettings(observer="the sexton"))
    assert (found.name, found.date, found.observer) == ("book 7", "2026-05-16", "the sexton")
    assert (found.lines[0].distance, found.lines[0].aside) == (4.5, -1.25)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("from,point,distance\nM1,P1,x\n", "line 2, distance: “x” is not a length"),
        (
            "point,distance\nP1,5\n",
            "line 1: there is no column from; found are point, distance",
        ),
        ("1,2,3\n4,5,6\n", "no row names the columns"),
        ("from,point,distance\n", "there is no line below the header"),
        ("unit chains\nfrom,point,distance\nM1,P1,5\n", "line 1: “chains” is no unit here"),
        ("from,point,distance (chains)\nM1,P1,5\n", "line 1: “distance .chains.” is in a unit"),
        ("from,point,distance\nM1,P1,=1+1\n", "line 2, distance: “=1.1” is not a length"),
    ],
)
def test_a_book_that_makes_no_sense_is_told_and_nothing_of_it_is_used(book, content, said):
    with pytest.raises(CannotRead, match=said) as told:
        book(content)
    assert str(told.value).startswith("ties.csv")
    assert "Nothing was" in str(told.value)


def test_a_hostile_book_is_told_in_a_sentence(book):
    for content in (
        "from,point,distance\nM1,P1,5\0\n",
        "from,point,distance\nM1," + "P" * 10_000_000 + ",5\n",
        "from,point,distance\nM1,P1," + "9" * 100_000 + "\n",
    ):
        with pytest.raises(CannotRead) as told:
            book(content)
        assert len(str(told.value)) < 300
