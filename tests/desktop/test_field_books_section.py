"""Field books in the window: written line by line, adjusted meanwhile, put on the plan."""

import pytest
import shapely
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.sections.field_books import FieldBooks
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.edits.marks import PlaceMark
from plan_editor.kinds import mark, observation
from plan_editor.plan.item import Basis, new_item
from plan_editor.resources import sample
from plan_editor.survey.books.field_book import Sort

WAIT = 30_000
MARKS = {"M1": (0.0, 0.0), "M2": (20.0, 0.0), "M3": (10.0, 24.0)}


@pytest.fixture
def section(window: PlanWindow) -> FieldBooks:
    window.session.apply(
        Add(
            tuple(
                new_item(mark.KIND, shapely.Point(at), number=n, basis=Basis(sd_m=0.01))
                for n, at in MARKS.items()
            )
        )
    )
    window.go("survey")
    assert window.body is not None
    panel = window.body.side.panels["survey"]
    panel.open("field_books")
    found = panel.sections["field_books"]
    assert isinstance(found, FieldBooks)
    return found


def _write(qtbot: QtBot, section: FieldBooks, **texts: str) -> None:
    """Type a line of the book and press Enter; wait until it was adjusted."""
    form = section.form
    before = form.book
    field = form.entry.fields["from"]
    for name, words in texts.items():
        field = form.entry.fields[name]
        field.clear()
        qtbot.keyClicks(field, words)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    if form.book != before:
        qtbot.waitUntil(
            lambda: form.outcome is not None and form.outcome.book == form.book, timeout=WAIT
        )


def _words(widget: QWidget) -> str:
    return "\n".join(label.text() for label in widget.findChildren(QLabel))


def _press(widget: QWidget, words: str) -> None:
    next(b for b in widget.findChildren(QPushButton) if b.text() == words).click()


def _two_ties(qtbot: QtBot, section: FieldBooks) -> None:
    section.new.click()
    _write(qtbot, section, **{"from": "M1", "point": "P1", "distance": "14.142"})
    _write(qtbot, section, **{"from": "M2", "point": "P1", "distance": "46' 4¾\""})


def _place(window: PlanWindow, number: str) -> tuple[float, float]:
    found = next(i for i in window.session.document.plan.of(mark.KIND) if i.number == number)
    assert found.shape is not None
    east, north = found.shape.coords[0]
    return east, north


def test_a_point_with_two_ties_is_asked_about_and_never_guessed(
    qtbot: QtBot, window: PlanWindow, section: FieldBooks
) -> None:
    _two_ties(qtbot, section)
    assert "Stand at M1 and look to M2" in _words(section.form.verdict)
    assert section.form.put.text() == "Keep the lines"
    _press(section.form.verdict, "P1 is on the left")
    qtbot.waitUntil(lambda: section.form.put.text() == "Put 1 point on the plan", timeout=WAIT)
    section.form.put.click()
    # 10 m east, 10 m north of M1: 14.142 m from both
    assert _place(window, "P1") == pytest.approx((10.0, 10.0), abs=0.01)
    assert window.session.document.plan.count(observation.KIND) == 2
    window.session.document.undo()
    assert window.session.document.plan.count(observation.KIND) == 0


def test_a_wrong_entry_is_one_sentence_and_what_was_typed_stays(
    qtbot: QtBot, section: FieldBooks
) -> None:
    section.new.click()
    _write(qtbot, section, **{"from": "M1", "point": "P1", "distance": "fourteen"})
    assert section.form.book is not None
    assert section.form.book.lines == ()
    assert "Distance" in _words(section.form)
    assert section.form.entry.fields["distance"].text() == "fourteen"
    assert section.window().focusWidget() is section.form.entry.fields["distance"]


def test_a_line_is_changed_left_out_and_struck_out(qtbot: QtBot, section: FieldBooks) -> None:
    _two_ties(qtbot, section)
    form = section.form
    form.table.selectRow(0)
    assert form.entry.fields["distance"].text() == "14.142 m"
    _write(qtbot, section, distance="14.2")
    assert form.book is not None
    assert form.book.lines[0].distance == pytest.approx(14.2)
    form.table.selectRow(1)
    qtbot.keyClick(form.table, Qt.Key.Key_Space)
    assert form.book.lines[1].left_out
    qtbot.keyClick(form.table, Qt.Key.Key_Delete)
    assert len(form.book.lines) == 1
    form.table.selectRow(0)
    form.drop.click()
    assert form.book.lines == ()


def test_each_sort_of_line_asks_for_its_own_fields(qtbot: QtBot, section: FieldBooks) -> None:
    section.new.click()
    entry = section.form.entry
    shown = {}
    for place, sort in enumerate(Sort):
        entry.sort.setCurrentIndex(place)
        entry.sort.activated.emit(place)
        shown[sort] = {n for n, f in entry.fields.items() if not f.isHidden()}
    assert shown[Sort.TIE] == {"from", "point", "distance", "to"}
    assert shown[Sort.LEG] == {"from", "to", "distance", "bearing", "angle", "back"}
    entry.more.click()
    assert not entry.fields["rise"].isHidden()


def test_escape_lets_the_line_go_and_the_book_closes_without_a_trace(
    qtbot: QtBot, window: PlanWindow, section: FieldBooks
) -> None:
    _two_ties(qtbot, section)
    section.form.table.selectRow(0)
    qtbot.keyClick(section.form.entry.fields["from"], Qt.Key.Key_Escape)
    assert section.form.drop.isHidden()
    section.form.cancel.click()
    assert section.form.isHidden()
    assert window.session.document.plan.count(observation.KIND) == 0


def test_a_traverse_says_how_it_closes(qtbot: QtBot, section: FieldBooks) -> None:
    section.new.click()
    entry = section.form.entry
    entry.sort.setCurrentIndex(list(Sort).index(Sort.LEG))
    entry.sort.activated.emit(2)
    legs = (("M1", "M2", "20.00", "90"), ("M2", "M3", "26.00", "337.38"))
    for start, end, metres, bearing in (*legs, ("M3", "M1", "26.05", "202.62")):
        _write(
            qtbot, section, **{"from": start, "to": end, "distance": metres, "bearing": bearing}
        )
    assert "misses its end by 0.0" in _words(section.form.verdict)


def test_the_file_beside_the_sample_tells_its_blunder_and_is_put_on_the_plan(
    qtbot: QtBot, house, script: Script, tmp_path
) -> None:
    path = tmp_path / "harrowmere.gpkg"
    path.write_bytes(sample("harrowmere.gpkg").read_bytes())
    house.open_plan(path)
    window = house.windows[-1]
    window.go("survey")
    assert window.body is not None
    panel = window.body.side.panels["survey"]
    panel.open("field_books")
    section = panel.sections["field_books"]
    assert section.table.table.rowCount() == 1
    script.files.append(sample("harrowmere-ties.csv"))
    section.read.click()
    form = section.form
    qtbot.waitUntil(lambda: form.outcome is not None, timeout=WAIT)
    assert "M4 to Q1: its distance, 17.40 m, seems 0.9" in _words(form.verdict)
    assert "Look at line 10." in _words(form.headline)
    assert "Without it the others agree as well" in _words(form.verdict)
    number = form.outcome.suspects[0].reading.line.line
    _press(form.verdict, f"Leave line {number} out")
    qtbot.waitUntil(lambda: not form.outcome.suspects, timeout=WAIT)
    assert "as well as they should" in _words(form.headline)
    form.put.click()
    assert section.table.table.rowCount() == 2
    window.session.document.undo()
    qtbot.waitUntil(lambda: section.table.table.rowCount() == 1, timeout=WAIT)


def test_a_book_on_the_plan_is_opened_again_as_it_was_written(
    qtbot: QtBot, window: PlanWindow, section: FieldBooks
) -> None:
    _two_ties(qtbot, section)
    _press(section.form.verdict, "P1 is on the left")
    qtbot.waitUntil(lambda: section.form.put.text() == "Put 1 point on the plan", timeout=WAIT)
    kept = section.form.book
    assert kept is not None
    section.form.put.click()
    section.table.selectRow(0)
    assert section.form.book is not None
    assert section.form.book.lines == kept.lines


def test_after_a_mark_moved_the_books_are_adjusted_again_on_request(
    qtbot: QtBot, window: PlanWindow, section: FieldBooks
) -> None:
    _two_ties(qtbot, section)
    _write(qtbot, section, **{"from": "M3", "point": "P1", "distance": "14.00"})
    qtbot.waitUntil(lambda: section.form.put.text() == "Put 1 point on the plan", timeout=WAIT)
    section.form.put.click()
    for number, (east, north) in MARKS.items():
        item = next(i for i in window.session.document.plan.of(mark.KIND) if i.number == number)
        window.session.apply(
            PlaceMark(id=item.id, east=east + 1.0, north=north, basis=Basis(sd_m=0.01))
        )
    section.again.click()
    qtbot.waitUntil(lambda: not section.move_them.isHidden(), timeout=WAIT)
    assert "1 thing moves, by up to 1.00 m: Mark P1." in section.told.text()
    section.move_them.click()
    assert _place(window, "P1") == pytest.approx((11.0, 10.0), abs=0.02)
