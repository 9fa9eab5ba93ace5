"""What is shown where the program itself is at fault."""

from pathlib import Path

import pytest
import shapely
from PySide6.QtWidgets import QLabel
from pytestqt.exceptions import capture_exceptions
from scripted import Script
from strategies import kind_of

from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.plan.item import new_item


def test_the_crash_window_says_what_is_kept_and_where_the_report_lies(
    house: Application, window: PlanWindow, home: Path
) -> None:
    window.session.apply(Add((new_item(kind_of("tree"), shapely.Point(1, 1), number="T 1"),)))
    dialog = house.crash(ZeroDivisionError())
    words = " ".join(label.text() for label in dialog.findChildren(QLabel))
    assert "Every edit that was made is kept" in words
    assert "Add tree T 1" in words
    assert "Traceback" not in words
    (report,) = home.rglob("*.txt")
    assert str(report) in words
    assert "ZeroDivisionError" in report.read_text(encoding="utf-8")
    dialog.accept()


def test_ctrl_c_closes_the_windows(house: Application, window: PlanWindow) -> None:
    house.caught(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert not house.windows


def test_an_error_that_nobody_caught_is_shown_and_the_window_goes_on(
    house: Application, window: PlanWindow, capsys: pytest.CaptureFixture[str]
) -> None:
    house.caught(ValueError, ValueError("odd"), None)
    assert window.isVisible()
    assert capsys.readouterr().err == ""
    for dialog in window.findChildren(type(house.crash(ValueError("again")))):
        dialog.accept()


def test_a_fault_while_the_window_closes_keeps_it_open_and_the_program_alive(
    window: PlanWindow, script: Script
) -> None:
    window.session.apply(Add((new_item(kind_of("tree"), shapely.Point(1, 1)),)))
    with capture_exceptions() as caught:
        assert not window.close()  # the script has no answer: an error of our own
    assert [kind for kind, _, _ in caught] == [IndexError]
    assert window.isVisible()
