"""Dialogs, answered by clicks: questions, files, the start page, sentences in place."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox, QPushButton
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow


@pytest.fixture
def real(qapp: QApplication, plan_path: Path) -> Iterator[PlanWindow]:
    """Return a window whose questions are real dialogs."""
    house = Application(qapp)
    house.start([str(plan_path)])
    yield house.windows[0]
    house.quit()
    house.deleteLater()


def _press(words: str) -> None:
    box = next(w for w in QApplication.topLevelWidgets() if isinstance(w, QMessageBox))
    next(b for b in box.findChildren(QPushButton) if b.text() == words).click()


@pytest.mark.parametrize(("words", "number"), [("One", 0), ("Two", 1), ("Cancel", None)])
def test_a_question_has_worded_answers(
    real: PlanWindow, words: str, number: int | None
) -> None:
    QTimer.singleShot(0, lambda: _press(words))
    assert real.ask.which("One or two?", ("One", "Two")) == number


def test_a_file_to_be_written_is_given_its_suffix(
    real: PlanWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chosen = [str(tmp_path / "plan"), str(tmp_path / "plan.GPKG"), ""]
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (chosen.pop(0), ""))
    wanted = [real.ask.file_to_write("Save as", ".gpkg", "plan.gpkg") for _ in range(3)]
    assert wanted == [tmp_path / "plan.gpkg", tmp_path / "plan.GPKG", None]


def test_a_file_to_be_opened_is_a_path_or_never_mind(
    real: PlanWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chosen = [str(tmp_path / "plan.gpkg"), ""]
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (chosen.pop(0), ""))
    assert real.ask.file_to_open("Open", (".gpkg",)) == tmp_path / "plan.gpkg"
    assert real.ask.file_to_open("Open", (".gpkg",)) is None


def test_a_sentence_stays_in_place_until_it_is_closed(qtbot: QtBot, real: PlanWindow) -> None:
    done: list[bool] = []
    real.notice.say("Something went wrong.", "Mend it", lambda: done.append(True))
    assert real.notice.isVisible()
    buttons = {b.text(): b for b in real.notice.findChildren(QPushButton)}
    qtbot.mouseClick(buttons["Mend it"], Qt.MouseButton.LeftButton)
    assert done == [True]
    qtbot.mouseClick(buttons["Close"], Qt.MouseButton.LeftButton)
    assert real.notice.isHidden()
    assert real.notice.words == ""


def test_the_start_page_opens_the_sample_and_offers_it_the_next_time(
    qtbot: QtBot, house: Application
) -> None:
    house.start([])
    _click_button(qtbot, house.windows[0], "Open the sample")
    (window,) = house.windows
    assert window.session.document.plan.name == "St Elfric, Harrowmere"
    window.close()
    page = house.show(None)
    _click_button(qtbot, page, "harrowmere.gpkg")
    assert house.windows[-1].session.is_open


def _click_button(qtbot: QtBot, window: PlanWindow, words: str) -> None:
    found = next(b for b in window.findChildren(QPushButton) if b.text() == words)
    qtbot.mouseClick(found, Qt.MouseButton.LeftButton)


def test_recent_plans_stand_in_the_menu(window: PlanWindow) -> None:
    window._recent.aboutToShow.emit()
    assert [a.text() for a in window._recent.actions()] == ["elfric.gpkg"]
    window._recent.actions()[0].trigger()
    assert window.house.windows == [window]  # type: ignore[attr-defined]  # the real application


def test_a_copy_is_written_and_the_plan_goes_on_under_its_own_name(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    script.files.append(tmp_path / "copy.gpkg")
    window.commands.action("save_copy").trigger()
    qtbot.waitUntil((tmp_path / "copy.gpkg").exists)
    qtbot.waitUntil(lambda: not window.background.title)
    assert window.session.file is not None
    assert window.session.file.path.name == "elfric.gpkg"


def test_a_drawing_is_written_beside_the_window(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    script.files.append(tmp_path / "elfric.dxf")
    window.commands.action("write_dxf").trigger()
    qtbot.waitUntil(lambda: bool(script.told), timeout=30_000)
    assert script.told[0].startswith("elfric.dxf is written")


def test_a_file_that_cannot_lie_under_the_ground_is_said(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    odd = tmp_path / "torn.png"
    odd.write_bytes(b"\x89PNG\r\n\x1a\n torn")
    script.files.append(odd)
    window.commands.action("lay").trigger()
    qtbot.waitUntil(lambda: bool(script.told), timeout=10_000)
    assert not window.session.document.plan.items


def test_dated_copies_go_to_the_folder_that_was_chosen(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    folder = tmp_path / "copies"
    folder.mkdir()
    script.answers.extend([0, 1])
    script.files.append(folder)
    window.commands.action("dated_copies").trigger()
    qtbot.waitUntil(lambda: len(list(folder.glob("*.gpkg"))) == 1)
    qtbot.waitUntil(lambda: not window.background.title)
    assert window.session.file is not None
    assert window.session.file.copies_folder == str(folder)
    window.commands.action("dated_copies").trigger()
    qtbot.waitUntil(lambda: not window.background.title)
    assert window.session.file.copies_folder == ""
    assert str(folder) in script.asked[-1]
