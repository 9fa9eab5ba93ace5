"""The register in the window: looked at first, taken in by one press, corrected by hand."""

from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.app import Application
from plan_editor.desktop.dialogs.register import RegisterDialog
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, correction, grave, removal
from plan_editor.plan.item import new_item

WAIT = 30_000
TITLE = "Take in 2 entries of the register register.csv"
TABLE = (
    "No.,Surname,Forenames,When,Hat\n"
    "1,Holt,Mary,14 March 1871,\n"
    "2,Oakes,John,bef. 1850,x\n"
    ",,,,y\n"
)


def _section(window: PlanWindow) -> Any:  # a section, whose parts are pressed
    assert window.body is not None
    panel: Any = window.body.side.panels["records"]
    window.go("records")
    panel.open("register")
    return panel.sections["register"]


@pytest.fixture
def looked(qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path) -> Any:
    def call(text: str) -> RegisterDialog:
        file = tmp_path / "register.csv"
        file.write_text(text, "utf-8")
        script.files.append(file)
        section = _section(window)
        qtbot.waitUntil(section.read.isEnabled)
        qtbot.mouseClick(section.read, Qt.MouseButton.LeftButton)
        qtbot.waitUntil(lambda: section.dialog is not None, timeout=WAIT)
        dialog: RegisterDialog = section.dialog
        return dialog

    return call


def _burials(window: PlanWindow) -> list[Any]:
    return list(window.session.document.plan.of(burial.KIND))


def _words(dialog: RegisterDialog) -> list[list[str]]:
    table = dialog.table
    rows = range(1, table.rowCount())
    return [
        [item.text() if (item := table.item(r, c)) else "" for c in range(table.columnCount())]
        for r in rows
    ]


def test_doubtful_cells_are_marked_and_nothing_is_written_until_it_is_accepted(
    qtbot: QtBot, window: PlanWindow, looked: Any
) -> None:
    dialog = looked(TABLE)
    qtbot.waitUntil(dialog.take.isEnabled, timeout=WAIT)
    assert _burials(window) == []
    told = "3 rows read: 2 new, 0 updated, 1 not taken; 0 cells doubtful."
    assert dialog.comes.text() == told
    _choose(dialog.table.choices[3], "Buried")
    qtbot.waitUntil(lambda: "1 cell doubtful" in dialog.comes.text(), timeout=WAIT)
    first, second, third = _words(dialog)
    assert first[:2] == ["3", "When: it is written as before that date"]
    assert first[5] == "? bef. 1850"
    assert second[1] == "not taken: neither a name nor a number stands here"
    assert third[1] == ""
    assert dialog.doubt.text() == "Line 3: When: it is written as before that date."
    dialog.table.setCurrentCell(2, 1)
    assert dialog.doubt.text().startswith("Line 4: not taken: neither a name")
    dialog.table.setCurrentCell(3, 1)
    assert dialog.doubt.text() == ""
    assert dialog.left.text() == "Columns that are not taken: “Hat”."
    qtbot.mouseClick(dialog.take, Qt.MouseButton.LeftButton)
    assert sorted(b.details.buried for b in _burials(window)) == ["1850", "1871-03-14"]
    assert window.session.document.undo_title == TITLE


def _choose(choice: Any, words: str) -> None:
    choice.setCurrentText(words)
    choice.activated.emit(choice.currentIndex())


def test_columns_are_remembered_for_tables_with_the_same_names(
    qtbot: QtBot, window: PlanWindow, looked: Any, house: Application
) -> None:
    dialog = looked(TABLE)
    _choose(dialog.table.choices[3], "Died")
    _choose(dialog.table.choices[4], "Died")  # no two columns hold one thing
    assert dialog.table.choices[3].currentText() == "not taken"
    qtbot.waitUntil(dialog.take.isEnabled, timeout=WAIT)
    qtbot.mouseClick(dialog.take, Qt.MouseButton.LeftButton)
    heads = "no|surname|forenames|when|hat"
    names = ("number", "surname", "forenames", "", "died")
    assert house.preferences.columns_of(heads) == names
    section = _section(window)
    qtbot.waitUntil(lambda: section.dialog is None)
    again = looked(TABLE)
    assert again.table.layout_now.names == names
    assert "the last time" in again.about.text()
    qtbot.waitUntil(lambda: "all of it already" in again.comes.text(), timeout=WAIT)
    assert not again.take.isEnabled()
    again.reject()


def test_table_without_names_cannot_be_taken_in(qtbot: QtBot, looked: Any) -> None:
    dialog = looked(TABLE)
    for choice in dialog.table.choices[1:3]:
        _choose(choice, "not taken")
    assert "Wanted is a column with names" in dialog.fault.text()
    assert not dialog.take.isEnabled()
    dialog.reject()


def test_file_that_is_no_register_is_told(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    file = tmp_path / "register.csv"
    file.write_text("<html></html>", "utf-8")
    script.files += [None, file]
    section = _section(window)
    qtbot.mouseClick(section.read, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(section.read, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bool(script.told), timeout=WAIT)
    assert "no row names the columns of a register" in script.told[0]


def test_register_is_written_from_the_window(
    qtbot: QtBot, window: PlanWindow, looked: Any, script: Script, tmp_path: Path
) -> None:
    section = _section(window)
    assert not section.write.isEnabled()
    dialog = looked(TABLE)
    qtbot.waitUntil(dialog.take.isEnabled, timeout=WAIT)
    qtbot.mouseClick(dialog.take, Qt.MouseButton.LeftButton)
    out = tmp_path / "out.csv"
    script.files += [None, out]
    qtbot.waitUntil(section.write.isEnabled)
    qtbot.mouseClick(section.write, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(section.write, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bool(script.told), timeout=WAIT)
    assert script.told[0].startswith("out.csv is written: 2 entries.")
    assert "Oakes" in out.read_text("utf-8-sig")


def test_entry_is_corrected_and_its_old_reading_kept(
    qtbot: QtBot, window: PlanWindow, looked: Any
) -> None:
    dialog = looked(TABLE)
    qtbot.waitUntil(dialog.take.isEnabled, timeout=WAIT)
    qtbot.mouseClick(dialog.take, Qt.MouseButton.LeftButton)
    form = _section(window).form
    assert form.title.text().startswith("Choose an entry")
    entry = next(b for b in _burials(window) if b.number == "1")
    window.session.choose((entry.id,))
    assert form.title.text() == "Correct burial 1"
    _pick(form, "Surname")
    assert form.old.text() == "Holt"
    form.new.setText("Hoult")
    form.by.setText("Churchwarden")
    form.why.setText("As on the stone.")
    qtbot.mouseClick(form.correct, Qt.MouseButton.LeftButton)
    assert form.old.text() == "Hoult"
    (kept,) = window.session.document.plan.of(correction.KIND)
    told = kept.details
    assert (told.was, told.now, told.by, told.why) == (
        "Holt",
        "Hoult",
        "Churchwarden",
        "As on the stone.",
    )
    form.new.setText("Hoult")
    qtbot.mouseClick(form.correct, Qt.MouseButton.LeftButton)
    assert "says so already" in form.fault.text()
    _pick(form, "Died")
    assert form.old.text() == "nothing"
    form.new.setText("last year")
    qtbot.mouseClick(form.correct, Qt.MouseButton.LeftButton)
    assert "Write a date as" in form.fault.text()
    _pick(form, "No. of the entry")
    form.new.setText(" 1 a ")
    qtbot.mouseClick(form.correct, Qt.MouseButton.LeftButton)
    assert form.fault.text() == ""
    assert form.title.text() == "Correct burial 1 a"


def test_remains_that_were_moved_are_recorded_by_hand(qtbot: QtBot, window: PlanWindow) -> None:
    spaces = [
        new_item(grave.KIND, Rectangle(east=e, north=0, width=1, length=2), number=n)
        for e, n in ((0, "C 14"), (5, "C 15"))
    ]
    told = burial.BurialDetails(surname="Holt", grave=spaces[0].id)
    entry = new_item(burial.KIND, details=told, number="1")
    window.session.apply(Add((*spaces, entry)))
    form = _section(window).removal
    assert not form.begin.isVisible()
    window.session.choose((entry.id,))
    qtbot.mouseClick(form.begin, Qt.MouseButton.LeftButton)
    assert form.title.text() == "Remains of burial 1"
    form.rows["moved_to"].show_text("Grave C 15")
    form.rows["date"].show_text("1931-06")
    qtbot.mouseClick(form.record, Qt.MouseButton.LeftButton)
    assert "faculty or licence" in form.fault.text()
    form.rows["faculty"].show_text("12/1931")
    qtbot.mouseClick(form.record, Qt.MouseButton.LeftButton)
    assert form.fault.text() == ""
    (event,) = window.session.document.plan.of(removal.KIND)
    assert (event.details.lay_in, event.details.moved_to) == (spaces[0].id, spaces[1].id)
    assert [b.details.grave for b in _burials(window)] == [spaces[1].id]
    qtbot.mouseClick(form.begin, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(form.cancel, Qt.MouseButton.LeftButton)
    assert not form.form.isVisible()


def _pick(form: Any, words: str) -> None:
    form.column.setCurrentText(words)
