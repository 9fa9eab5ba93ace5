"""A point file in the window: looked at first, then put on the plan by one press."""

from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.dialogs.points import PointsDialog
from plan_editor.desktop.window import PlanWindow
from plan_editor.plan.kind import kind_named

WAIT = 30_000
LINES = "".join(f"T{n},{553010 + n},421020,0.02,TREE\n" for n in range(3))
GOOD = f"point,E,N,sd,code\n{LINES}"


def _section(window: PlanWindow) -> Any:  # a section, whose parts are pressed
    assert window.body is not None
    panel: Any = window.body.side.panels["survey"]
    window.go("survey")
    panel.open("points")
    return panel.sections["points"]


@pytest.fixture
def looked(qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path) -> Any:
    def call(text: str, name: str = "points.csv") -> PointsDialog:
        file = tmp_path / name
        file.write_text(text, "utf-8")
        script.files.append(file)
        section = _section(window)
        qtbot.waitUntil(section.read.isEnabled)
        qtbot.mouseClick(section.read, Qt.MouseButton.LeftButton)
        qtbot.waitUntil(lambda: section.dialog is not None, timeout=WAIT)
        dialog: PointsDialog = section.dialog
        return dialog

    return call


def _trees(window: PlanWindow) -> int:
    kind = kind_named("tree")
    assert kind is not None
    return len(list(window.session.document.plan.of(kind)))


def test_what_would_come_is_shown_and_one_press_puts_it_there(
    qtbot: QtBot, window: PlanWindow, looked: Any
) -> None:
    dialog = looked(GOOD)
    qtbot.waitUntil(dialog.put.isEnabled, timeout=WAIT)
    assert dialog.put.text() == "Put 3 things on the plan"
    assert dialog.comes.text() == "3 trees would come on the plan."
    assert dialog.way.text() == "The file is in EPSG:27700, as the plan is."
    assert _trees(window) == 0
    qtbot.mouseClick(dialog.put, Qt.MouseButton.LeftButton)
    assert _trees(window) == 3
    assert window.session.document.undo_title == "Put 3 trees from points.csv on the plan"
    assert len(window.session.chosen) == 3


def test_the_columns_can_be_put_right(qtbot: QtBot, looked: Any) -> None:
    dialog = looked("a,421020,553010\nb,421021,553011\n")
    qtbot.waitUntil(lambda: "exchanged" in dialog.fault.text(), timeout=WAIT)
    assert not dialog.put.isEnabled()
    first, east, north = dialog.table.choices
    assert [c.currentText() for c in (first, east, north)] == ["point", "east", "north"]
    _choose(east, "north")
    assert north.currentText() == "not used"  # no two columns hold one thing
    assert "Wanted are two columns" in dialog.fault.text()
    _choose(north, "east")
    qtbot.waitUntil(dialog.put.isEnabled, timeout=WAIT)
    assert dialog.fault.text() == ""


def _choose(choice: Any, words: str) -> None:
    choice.setCurrentText(words)
    choice.activated.emit(choice.currentIndex())


def test_latitude_and_longitude_ask_for_their_system(qtbot: QtBot, looked: Any) -> None:
    dialog = looked("name,lat,lon\nP1,53.662,0.3145\n")
    qtbot.waitUntil(lambda: "nothing says" in dialog.fault.text(), timeout=WAIT)
    assert dialog.crs.currentText() == "Choose the coordinate system"
    dialog.crs.setCurrentIndex(2)
    qtbot.waitUntil(dialog.put.isEnabled, timeout=WAIT)
    assert "known to 1 m at the worst" in dialog.way.text()
    dialog.crs.setCurrentIndex(1)
    qtbot.waitUntil(lambda: "nothing is lost" in dialog.way.text(), timeout=WAIT)
    dialog.crs.setEditText("EPSG:99999")
    qtbot.waitUntil(lambda: "EPSG:99999" in dialog.fault.text(), timeout=WAIT)


def test_a_table_of_codes_of_ones_own(
    qtbot: QtBot, looked: Any, script: Script, tmp_path: Path
) -> None:
    dialog = looked(GOOD)
    qtbot.waitUntil(dialog.put.isEnabled, timeout=WAIT)
    mine = tmp_path / "mine.toml"
    mine.write_text("code = 1", "utf-8")
    dialog.use_codes(mine)
    assert "mine.toml holds no [[code]]" in dialog.fault.text()
    mine.write_text('[[code]]\ncode = "TREE"\nkind = "bench"\n', "utf-8")
    script.files.append(mine)
    dialog.choose_codes.click()
    qtbot.waitUntil(lambda: dialog.comes.text().startswith("3 benches"), timeout=WAIT)
    assert dialog.codes.text() == "Codes: mine.toml"


def test_a_gpx_file_has_no_columns_to_choose(qtbot: QtBot, looked: Any) -> None:
    text = '<gpx><wpt lat="53.662" lon="0.3145"><name>P1</name></wpt></gpx>'
    dialog = looked(text, "walk.gpx")
    qtbot.waitUntil(dialog.put.isEnabled, timeout=WAIT)
    assert dialog.table.choices == []
    assert dialog.table.item(0, 0).text() == "P1"
    assert "5 m is taken" in dialog.warnings.text()


def test_closing_it_changes_nothing(qtbot: QtBot, window: PlanWindow, looked: Any) -> None:
    dialog = looked(GOOD)
    dialog.reject()  # while it is still being worked out
    qtbot.waitUntil(lambda: _section(window).dialog is None)
    qtbot.waitUntil(lambda: not window.background._going, timeout=WAIT)
    assert _trees(window) == 0


def test_a_file_that_cannot_be_read_is_a_sentence(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    script.files.append(tmp_path / "none.csv")
    section = _section(window)
    qtbot.waitUntil(section.read.isEnabled)
    section.read.click()
    qtbot.waitUntil(lambda: any("There is no file" in t for t in script.told), timeout=WAIT)
    script.files.append(None)
    section.read.click()
    assert section.dialog is None
