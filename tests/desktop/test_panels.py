"""The panels of the jobs: safety, survey, records, sheets, space."""

from pathlib import Path
from typing import Any

import pytest
import shapely
from ezdxf.filemanagement import new
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.kind import kind_named
from plan_editor.resources import sample

WAIT = 30_000


def _put(window: PlanWindow, kind: str, place: object, number: str = "") -> Item:
    found = kind_named(kind)
    assert found is not None
    item = new_item(found, place, number=number)  # type: ignore[arg-type]  # a shape
    window.session.apply(Add((item,)))
    return item


def _of(window: PlanWindow, kind: str) -> list[Item]:
    found = kind_named(kind)
    assert found is not None
    return list(window.session.document.plan.of(found))


def _base_plans(window: PlanWindow) -> Any:  # a section, whose parts are pressed
    assert window.body is not None
    return window.body.side.panels["survey"].sections["base_plans"]  # type: ignore[attr-defined]


def test_a_failed_inspection_makes_a_zone_to_keep_off(qtbot: QtBot, window: PlanWindow) -> None:
    stone = _put(
        window, "memorial", Rectangle(east=0, north=0, width=0.8, length=0.1), number="C 14"
    )
    window.go("safety")
    window.session.choose((stone.id,))
    assert window.body is not None
    panel = window.body.side.panels["safety"].sections["stones"]
    qtbot.mouseClick(panel.record, Qt.MouseButton.LeftButton)
    result = panel.form.rows["result"].editor
    result.setCurrentIndex(result.findData("immediate action"))
    qtbot.mouseClick(panel.form.record, Qt.MouseButton.LeftButton)
    (found,) = _of(window, "inspection")
    assert (found.details.target, found.details.result) == (stone.id, "immediate action")
    qtbot.waitUntil(lambda: len(window.body.ground._zones) == 1)
    assert panel.form.isHidden()
    assert window.session.document.undo_title == "Record an inspection of memorial C 14"


def test_an_inspection_without_a_date_is_not_recorded(window: PlanWindow) -> None:
    stone = _put(window, "memorial", Rectangle(east=0, north=0, width=0.8, length=0.1))
    window.go("safety")
    window.session.choose((stone.id,))
    assert window.body is not None
    form = window.body.side.panels["safety"].sections["stones"].form
    form.begin(stone.id, "")
    form.record.click()
    assert not _of(window, "inspection")
    assert form.isVisible()


def test_an_old_plan_is_laid_and_placed_by_two_points(
    qtbot: QtBot, window: PlanWindow, script: Script
) -> None:
    script.files.append(sample("harrowmere-1962.jpg"))
    window.commands.action("lay").trigger()
    qtbot.waitUntil(lambda: bool(_of(window, "base_plan")), timeout=WAIT)
    assert window.body is not None
    panel, canvas = _base_plans(window), window.body.ground.canvas
    qtbot.waitUntil(panel.place.isVisible)
    panel.place.click()
    qtbot.waitUntil(lambda: not window.background.title, timeout=WAIT)
    form = panel.form
    middle = canvas.viewport().rect().center()
    for x, east in ((-100, "553000"), (100, "553050")):
        at = middle + QPoint(x, 0)
        qtbot.mouseMove(canvas.viewport(), at)
        # Ctrl: where it is clicked, not on the inked line beside it
        free = Qt.KeyboardModifier.ControlModifier
        qtbot.mouseClick(canvas.viewport(), Qt.MouseButton.LeftButton, free, at)
        qtbot.keyClicks(form.fields.first, east)
        qtbot.keyClicks(form.fields.second, "421 000")
        qtbot.keyClick(form.fields.second, Qt.Key.Key_Return)
    qtbot.waitUntil(form.done.isEnabled, timeout=WAIT)
    form.done.click()
    (laid,) = _of(window, "base_plan")
    assert len(laid.details.control_points) == 2
    (x0, y0), (x1, y1) = ((c.x, c.y) for c in laid.details.control_points)
    # 50 m on the ground between two points of the scan that lie level
    assert laid.details.fit[0] == pytest.approx(50.0 / (x1 - x0), rel=1e-6)
    assert y0 == pytest.approx(y1, abs=0.01)
    assert laid.details.rmse_m == pytest.approx(0.0, abs=1e-3)
    assert form.isHidden()


def test_what_was_left_out_of_a_drawing_and_guessed_of_it_is_told(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    drawing = new("R2010", units=0)
    space = drawing.modelspace()
    space.add_line((553000, 421000), (553050, 421000))
    space.add_ray((553000, 421000), (1, 0))  # it has no end, so it cannot be drawn
    drawing.saveas(tmp_path / "survey.dxf")
    script.files.append(tmp_path / "survey.dxf")
    window.commands.action("lay").trigger()
    qtbot.waitUntil(lambda: bool(_of(window, "base_plan")), timeout=WAIT)
    assert "Taken for granted: " in window.notice.words
    assert "Left out: " in window.notice.words


def test_escape_gives_placing_up_and_leaves_nothing(
    qtbot: QtBot, window: PlanWindow, script: Script
) -> None:
    script.files.append(sample("harrowmere-1962.jpg"))
    window.commands.action("lay").trigger()
    qtbot.waitUntil(lambda: bool(_of(window, "base_plan")), timeout=WAIT)
    assert window.body is not None
    panel = _base_plans(window)
    qtbot.waitUntil(panel.place.isVisible)
    panel.place.click()
    assert panel.form.isVisible()
    qtbot.keyClick(window.body.ground.canvas, Qt.Key.Key_Escape)
    assert panel.form.isHidden()
    assert window.session.button.name == "select"
    assert _of(window, "base_plan")[0].shape is None


def test_escape_gives_placing_up_from_the_field_of_a_coordinate_too(
    qtbot: QtBot, window: PlanWindow, script: Script
) -> None:
    script.files.append(sample("harrowmere-1962.jpg"))
    window.commands.action("lay").trigger()
    qtbot.waitUntil(lambda: bool(_of(window, "base_plan")), timeout=WAIT)
    assert "Place by points" in window.notice.words
    assert window.body is not None
    panel, canvas = _base_plans(window), window.body.ground.canvas
    qtbot.waitUntil(panel.place.isVisible)
    panel.place.click()
    qtbot.waitUntil(lambda: not window.background.title, timeout=WAIT)
    at = canvas.viewport().rect().center()
    qtbot.mouseMove(canvas.viewport(), at)
    qtbot.mouseClick(canvas.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert panel.form._begun is not None
    qtbot.keyClick(panel.form.fields.first, Qt.Key.Key_Escape)
    assert panel.form._begun is None  # the point that was begun is given up first
    qtbot.keyClick(panel.form.fields.first, Qt.Key.Key_Escape)
    assert panel.form.isHidden()
    assert _of(window, "base_plan")[0].shape is None


def test_escape_leaves_an_inspection_unrecorded(window: PlanWindow, qtbot: QtBot) -> None:
    stone = _put(window, "memorial", Rectangle(east=0, north=0, width=0.8, length=0.1))
    window.go("safety")
    window.session.choose((stone.id,))
    assert window.body is not None
    panel = window.body.side.panels["safety"].sections["stones"]
    panel.record.click()
    assert panel.form.isVisible()
    qtbot.keyClick(panel.form.rows["date"].editor, Qt.Key.Key_Escape)
    assert panel.form.isHidden()
    assert not _of(window, "inspection")


def test_an_entry_of_the_register_is_added_and_shown_on_the_card(window: PlanWindow) -> None:
    window.go("records")
    assert window.body is not None
    panel = window.body.side.panels["records"].sections["entries"]
    panel.show_kind("burial")
    panel.add.click()
    (burial,) = _of(window, "burial")
    assert window.session.chosen == (burial.id,)
    assert window.session.document.undo_title == "Add a burial"


def test_a_reference_is_typed_by_its_number_and_a_wrong_one_is_said(
    qtbot: QtBot, window: PlanWindow
) -> None:
    grave = _put(window, "grave", Rectangle(east=0, north=0, width=0.9, length=2), number="B 2")
    window.go("records")
    assert window.body is not None
    window.body.side.panels["records"].sections["entries"].show_kind("burial")
    window.body.side.panels["records"].sections["entries"].add.click()
    row = window.body.side.card.rows["grave"]
    for typed, said in (("Z 99", True), ("b2", False)):
        row.editor.setText("")
        qtbot.keyClicks(row.editor, typed)
        qtbot.keyClick(row.editor, Qt.Key.Key_Return)
        assert bool(row.sentence) is said
    assert _of(window, "burial")[0].details.grave == grave.id


def test_a_sheet_is_drawn_small_and_printed(
    qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    _put(window, "boundary", shapely.box(0, 0, 60, 40))
    window.print_sheet("mowing")
    assert window.body is not None
    panel = window.body.side.panels["sheets"]
    qtbot.waitUntil(lambda: not panel.picture.pixmap().isNull(), timeout=WAIT)
    target = tmp_path / "mowing.pdf"
    script.files.append(target)
    panel.print.click()
    qtbot.waitUntil(lambda: bool(script.told), timeout=WAIT)
    assert target.read_bytes().startswith(b"%PDF")
    assert script.told[0].startswith("mowing.pdf is written, ")


def test_a_scale_that_does_not_fit_is_said_and_cannot_be_printed(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _put(window, "boundary", shapely.box(0, 0, 600, 400))
    window.print_sheet("mowing")
    assert window.body is not None
    panel = window.body.side.panels["sheets"]
    panel.paper.setCurrentText("A4")
    panel.scale.setCurrentText("1:100")
    panel.scale.lineEdit().editingFinished.emit()
    qtbot.waitUntil(lambda: not panel.print.isEnabled(), timeout=WAIT)
    assert "would" in panel._sentence.text() or "fit" in panel._sentence.text()


def test_spaces_are_counted_by_state(qtbot: QtBot, window: PlanWindow) -> None:
    for n in range(3):
        _put(window, "grave", Rectangle(east=2 * n, north=0, width=1, length=2))
    window.go("space")
    assert window.body is not None
    panel = window.body.side.panels["space"]
    qtbot.waitUntil(lambda: panel._figures._grid.count() == 6)
    words = [
        panel._figures._grid.itemAt(i).widget().text()
        for i in range(panel._figures._grid.count())
    ]
    assert words[3:] == ["Graves, unknown", "3", "6.00 m²"]
