"""A job in sections: one open at a time, remembered, and each sketches for itself."""

from typing import Any

from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from plan_editor.desktop.app import Application
from plan_editor.desktop.section import sections
from plan_editor.desktop.window import PlanWindow
from plan_editor.drawing.sketch import Sketch, SketchDot

LEFT = Qt.MouseButton.LeftButton


def _panel(window: PlanWindow) -> Any:
    assert window.body is not None
    window.go("survey")
    return window.body.side.panels["survey"]


def _seen(window: PlanWindow) -> list[str]:
    assert window.body is not None
    return [dot.text for dot in window.body.ground.canvas._layers._sketch._dots]


def test_one_section_is_open_at_a_time_by_click_and_by_key(
    qtbot: QtBot, window: PlanWindow
) -> None:
    panel = _panel(window)
    names = [s.name for s in sections("survey")]
    assert panel.opened == ("base_plans",)
    marks = panel.folds["marks"]
    qtbot.mouseClick(marks.title, LEFT)
    assert panel.opened == ("marks",)
    assert panel.sections["marks"].isVisible()
    assert not panel.sections["base_plans"].isVisible()
    qtbot.keyClick(panel.folds["base_plans"].title, Qt.Key.Key_Space)
    assert panel.opened == ("base_plans",)
    qtbot.keyClick(panel.folds["base_plans"].title, Qt.Key.Key_Space)
    assert panel.opened == ()
    assert list(panel.folds) == names


def test_every_title_says_what_it_holds(window: PlanWindow) -> None:
    panel = _panel(window)
    for section in sections("survey"):
        title = panel.folds[section.name].title
        assert title.accessibleName() == title.text() == section.title
        assert title.accessibleDescription() == title.toolTip() == section.help
        assert title.focusPolicy() & Qt.FocusPolicy.TabFocus


def test_the_section_that_was_opened_last_is_open_in_the_next_window(
    qtbot: QtBot, window: PlanWindow, house: Application
) -> None:
    qtbot.mouseClick(_panel(window).folds["marks"].title, LEFT)
    assert house.preferences.sections == ("marks",)
    path = window.session.file.path if window.session.file else None
    assert path is not None
    window.close()
    house.open_plan(path)
    assert _panel(house.windows[-1]).opened == ("marks",)


def test_what_a_section_sketches_is_seen_while_it_is_open(
    qtbot: QtBot, window: PlanWindow
) -> None:
    panel = _panel(window)
    ground = panel._grounds["marks"]
    ground.show_sketch(Sketch(dots=(SketchDot(east=0, north=0, text="a peg"),)))
    assert not _seen(window)  # it was sketched while another section is open
    qtbot.mouseClick(panel.folds["marks"].title, LEFT)
    assert _seen(window) == ["a peg"]
    window.go("trace")
    assert not _seen(window)
    window.go("survey")
    assert _seen(window) == ["a peg"]
    qtbot.mouseClick(panel.folds["base_plans"].title, LEFT)
    assert not _seen(window)


def test_a_section_opened_by_its_title_is_seen_from_its_top(
    qtbot: QtBot, window: PlanWindow
) -> None:
    window.resize(1100, 700)
    window.go("trace")
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    area = window.body.side._areas["trace"]
    panel.open("drawing")
    for name in ("history", "another_day"):
        qtbot.mouseClick(panel.folds[name].title, LEFT)
        top = panel.folds[name].mapTo(area.viewport(), QPoint()).y()
        assert 0 <= top < area.viewport().height() / 2
        assert panel.sections[name].isVisible()
