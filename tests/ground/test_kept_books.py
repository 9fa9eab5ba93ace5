"""Field books on a plan, read as they were written."""

import shapely

from plan_editor.edits.field_books import TakeInFieldBook
from plan_editor.ground.kept_books import KeptBook, book_on, has_bearings, kept_books
from plan_editor.kinds import mark, observation
from plan_editor.kinds.observation import Measure, ObservationDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import FieldBook
from plan_editor.survey.books.whole_book import whole_book

ROWS = (
    {"type": "tie", "from": "M1", "point": "P1", "distance": "14.14", "side": "left"},
    {"type": "tie", "from": "M2", "point": "P1", "distance": "14.15"},
    {"type": "offset", "from": "M1", "to": "M2", "point": "P2", "distance": "4", "offset": "1"},
    {"type": "leg", "from": "M1", "to": "P3", "distance": "9.00", "bearing": "20"},
    {"type": "leg", "from": "P3", "to": "M2", "distance": "17", "angle": "100", "back": "M1"},
    {"type": "check", "from": "P1", "to": "P2", "distance": "12.53", "out": "yes"},
)


def _book() -> FieldBook:
    settings = BookSettings(name="Book 1", date="2026-04-25", observer="A. Warden")
    return whole_book(list(enumerate(ROWS, 2)), settings)


def _plan() -> Plan:
    places = {"M1": (0.0, 0.0), "M2": (20.0, 0.0)}
    return plan_of(
        new_item(mark.KIND, shapely.Point(at), number=n, basis=Basis(sd_m=0.01))
        for n, at in places.items()
    )


def test_a_book_comes_back_from_the_plan_as_it_was_written():
    document = Document(_plan())
    document.apply(TakeInFieldBook(book=_book()))
    assert kept_books(document.plan) == (KeptBook(name="Book 1", date="2026-04-25", lines=6),)
    assert book_on(document.plan, "book1") == FieldBook(
        name="book1", date="2026-04-25", observer="A. Warden", lines=_book().lines
    )


def test_a_line_without_a_number_is_counted():
    told = ObservationDetails(book="B", measure=Measure.CHECK, from_point="A", point="C")
    found = book_on(plan_of([new_item(observation.KIND, details=told)]), "B")
    assert [(x.line, x.start, x.end, x.point) for x in found.lines] == [(1, "A", "C", "")]
    assert (found.date, found.observer) == ("", "")


def test_bearings_from_grid_north_are_told_from_those_of_a_compass():
    for compass, told in ((False, True), (True, False)):
        details = ObservationDetails(book="B", bearing_deg=75.0, compass=compass)
        plan = plan_of([new_item(observation.KIND, details=details)])
        assert has_bearings(plan) is told
    assert not has_bearings(_plan())


def test_a_plan_without_field_books_has_none():
    assert kept_books(plan_of([])) == ()
