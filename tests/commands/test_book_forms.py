"""A field book while it is written, in words and as a sketch."""

import numpy as np
import pytest
import shapely

from plan_editor.commands.book_doubt import headline, without_first
from plan_editor.commands.book_drafts import (
    faults_in_words,
    new_book,
    renamed,
    sided,
    suggested,
    used,
    written,
)
from plan_editor.commands.book_sketch import book_sketch, factor, factor_words
from plan_editor.commands.book_words import agreement, question, rows
from plan_editor.commands.field_books import outcome, suspicion
from plan_editor.drawing.sketch import Tone
from plan_editor.errors import CannotUse
from plan_editor.kinds import mark
from plan_editor.plan.item import Basis, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import FieldBook

MARKS = {"M1": (0.0, 0.0), "M2": (20.0, 0.0), "M3": (0.0, 20.0), "M4": (20.0, 20.0)}
SETTINGS = BookSettings()


def _plan() -> Plan:
    return plan_of(
        new_item(mark.KIND, shapely.Point(at), number=n, basis=Basis(sd_m=0.005))
        for n, at in MARKS.items()
    )


def _book(*ties: tuple[str, str]) -> FieldBook:
    book = new_book(_plan(), "2026-05-16")
    for start, metres in ties:
        texts = {"type": "tie", "from": start, "point": "P1", "distance": metres}
        more = written(book, texts, None, SETTINGS)
        assert isinstance(more, FieldBook)
        book = more
    return book


# P1 at 8 east, 6 north: 10 m, √180, √260 and √340 m from the marks
CLEAN = (("M1", "10.00"), ("M2", "13.416"), ("M3", "16.125"), ("M4", "18.439"))


def test_a_tape_misread_by_a_metre_is_named_with_how_much_it_is_off():
    told = outcome(_plan(), _book(*CLEAN[:3], ("M4", "19.44")))
    assert agreement(told).startswith("The tapes agree worse than they should")
    worst = told.suspects[0]
    assert worst.reading.line.start == "M4"
    assert "1.0" in suspicion(worst)
    assert suspicion(worst).endswith("m too long.")
    assert any(row.suspect == 1 and row.what == "M4 – P1" for row in rows(told.book, told))
    red = [x for x in book_sketch(told).lines if x.tone is Tone.DANGER]
    assert len(red) == 1


def test_what_the_others_say_without_the_line_in_doubt_is_what_they_say_once_it_is_left_out():
    wrong = (*CLEAN[:3], ("M4", "19.44"))
    told = outcome(_plan(), _book(*wrong))
    assert headline(told).endswith("Look at line 4.")
    assert without_first(told) == "Without it the others agree as well as they should."
    left = outcome(_plan(), used(told.book, 3, use=False))
    assert headline(left) == agreement(left)
    assert agreement(left).startswith("The tapes agree as well as they should")
    assert without_first(left) == ""


def test_two_misread_tapes_leave_the_others_worse_than_they_should_be_without_one():
    nails = {**MARKS, "M5": (10.0, 30.0), "M6": (30.0, 10.0)}
    plan = plan_of(
        new_item(mark.KIND, shapely.Point(at), number=n, basis=Basis(sd_m=0.005))
        for n, at in nails.items()
    )
    # M5 and M6 lie √580 and √500 m from P1; two of the six tapes were read a metre wrong
    book = _book(*CLEAN[:3], ("M4", "19.44"), ("M5", "24.083"), ("M6", "23.36"))
    told = outcome(plan, book)
    assert without_first(told) == "Without it the others still agree worse than they should."


def test_all_that_is_wrong_with_a_line_is_one_sentence_and_names_the_fields():
    wrong = written(_book(), {"type": "tie", "from": "M1", "distance": "far"}, None, SETTINGS)
    assert isinstance(wrong, tuple)
    assert {f.column for f in wrong} == {"distance", "point"}
    assert faults_in_words(wrong).startswith("Distance: “far” is not a length.")


def test_tapes_that_agree_are_said_to_do_so():
    told = outcome(_plan(), _book(*CLEAN))
    assert agreement(told).startswith("The tapes agree as well as they should")
    assert "2 tapes more than needed" in agreement(told)
    assert not told.suspects


def test_nothing_is_said_to_agree_where_nothing_checks():
    book = sided(_book(*CLEAN[:2]), "P1", right=False)
    assert agreement(outcome(_plan(), book)).startswith("Nothing checks these tapes yet")


def test_the_side_is_asked_about_two_marks_and_answered():
    book = _book(*CLEAN[:2])
    told = outcome(_plan(), book)
    (point,) = told.unplaced
    assert "Stand at M1 and look to M2" in question(told, point)
    for right, north in ((False, 6.0), (True, -6.0)):
        (found,) = outcome(_plan(), sided(book, "P1", right=right)).points
        assert (found.east, found.north) == pytest.approx((8.0, north), abs=0.02)


def test_an_ellipse_is_drawn_with_its_axes_the_way_they_lie():
    told = outcome(_plan(), _book(*CLEAN))
    (point,) = told.points
    assert point.ellipse is not None
    sketch = book_sketch(told)
    (outline,) = (x.points for x in sketch.lines if len(x.points) > 2)
    arms = (outline - (point.east, point.north)) / factor(told)
    lengths = np.hypot(*arms.T)
    assert lengths.max() == pytest.approx(point.ellipse.a)
    assert lengths.min() == pytest.approx(point.ellipse.b, rel=1e-2)
    east, north = arms[lengths.argmax()]
    bearing = np.degrees(np.arctan2(east, north)) % 180.0
    assert bearing == pytest.approx(point.ellipse.bearing_deg % 180.0, abs=1e-6)
    assert f"{factor(told)} times too large" in factor_words(told)


def test_a_line_left_out_stays_in_the_book():
    book = used(_book(*CLEAN), 1, use=False)
    told = outcome(_plan(), book)
    assert len(book.lines) == 4
    assert told.worked.adjusted.dof == 1
    assert [row.used for row in rows(book, told)] == [True, False, True, True]


def test_a_name_or_a_date_that_is_none_is_refused():
    book = _book()
    with pytest.raises(CannotUse, match="needs a name"):
        renamed(book, name="  ", date="", observer="")
    with pytest.raises(CannotUse, match="no date"):
        renamed(book, name="A", date="yesterday", observer="")
    assert renamed(book, name=" A  b ", date="2026", observer="").name == "A b"


def test_marks_of_the_plan_and_points_of_the_book_are_suggested():
    assert suggested(_plan(), _book(*CLEAN)) == (*MARKS, "P1")
