"""All lines of a field book together."""

import pytest

from plan_editor.errors import CannotUse
from plan_editor.survey.books import whole_book as module
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import FieldBook
from plan_editor.survey.books.whole_book import whole_book


def book(*rows: dict[str, str]) -> FieldBook:
    return whole_book(list(enumerate(rows, 2)), BookSettings(name="B"), ["noted"])


def leg(start: str, end: str, **more: str) -> dict[str, str]:
    return {"type": "leg", "from": start, "to": end, "distance": "10", **more}


def test_a_point_is_spelt_as_it_is_spelt_first():
    found = book(
        {"from": "M 1", "point": "P1", "distance": "5"},
        {"from": "m1", "point": "p 1", "distance": "6"},
    )
    assert [(line.start, line.point) for line in found.lines] == [("M 1", "P1")] * 2
    assert (found.name, found.notes) == ("B", ("noted",))


def test_the_back_sight_is_the_start_of_the_leg_that_came_there():
    found = book(
        leg("A", "B", bearing="75"), leg("B", "C", angle="90"), leg("C", "A", angle="80")
    )
    assert [line.back for line in found.lines] == ["", "A", "B"]


def test_the_first_angle_of_a_closed_traverse_is_from_the_leg_that_closes_it():
    found = book(
        leg("A", "B", bearing="75", angle="60"), leg("B", "C", angle="90"), leg("C", "A")
    )
    assert found.lines[0].back == "C"


def test_an_angle_without_a_back_sight_is_told():
    with pytest.raises(CannotUse, match=r"line 2, back: no leg ends where this angle"):
        book(leg("A", "B", angle="90"))
    with pytest.raises(CannotUse, match=r"line 3, back"):
        book(leg("B", "A", bearing="5"), leg("A", "B", angle="90"))


def test_the_same_line_twice_is_noted_unless_it_is_left_out():
    tie = {"from": "M1", "point": "P1", "distance": "5"}
    assert "Lines 2 and 3 say the same" in book(tie, {**tie, "remarks": "again"}).notes[1]
    assert book(tie, {**tie, "out": "yes"}).notes == ("noted",)


def test_all_faults_are_told_the_first_ten_in_full():
    with pytest.raises(CannotUse) as told:
        book(*[{"from": "M1", "point": "P1", "distance": "far"}] * 12)
    assert str(told.value).count("is not a length") == 10
    assert str(told.value).endswith("; and 2 more")


def test_an_empty_book_and_one_without_end_are_refused(monkeypatch):
    with pytest.raises(CannotUse, match="no line below the header"):
        book()
    monkeypatch.setattr(module, "MOST_LINES", 1)
    with pytest.raises(CannotUse, match="more than 1 lines"):
        book(leg("A", "B"), leg("B", "C"))
