"""The window by real clicks and keys, on real files."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QApplication,
    QDialog,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.app import Application
from plan_editor.desktop.jobs import jobs
from plan_editor.desktop.window import PlanWindow
from plan_editor.drafting.tool import tools
from plan_editor.plan.item import Item
from plan_editor.plan.kind import kind_named
from plan_editor.plan.plan import Plan
from plan_editor.storage.loading import read_plan


def _click(qtbot: QtBot, window: PlanWindow, x: int, y: int) -> None:
    assert window.body is not None
    ground = window.body.ground.canvas.viewport()
    qtbot.mouseMove(ground, QPoint(x, y))
    qtbot.mouseClick(ground, Qt.MouseButton.LeftButton, pos=QPoint(x, y))


def _draw(qtbot: QtBot, window: PlanWindow, title: str) -> None:
    assert window.body is not None
    listed = window.body.side.panels["trace"].sections["drawing"].kinds
    item = listed.findItems(title, Qt.MatchFlag.MatchExactly)[0]
    spot = listed.visualItemRect(item).center()
    qtbot.mouseClick(listed.viewport(), Qt.MouseButton.LeftButton, pos=spot)


def _one(plan: Plan, kind: str) -> Item:
    found = kind_named(kind)
    assert found is not None
    (item,) = plan.of(found)
    return item


def test_a_path_is_drawn_by_clicks_and_is_in_the_working_copy_at_once(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Path")
    for x in (200, 400, 600):
        _click(qtbot, window, x, 300)
    assert window.body is not None
    qtbot.keyClick(window.body.ground.canvas, Qt.Key.Key_Return)
    assert window.session.file is not None
    kept = read_plan(window.session.file.working_copy)
    assert len(_one(kept, "path").shape.coords) == 3
    assert window.top.state == "edits kept, not saved yet"


def test_a_length_typed_on_the_ground_is_the_length_that_is_drawn(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Wall")
    _click(qtbot, window, 300, 400)
    assert window.body is not None
    canvas, typed = window.body.ground.canvas, window.body.ground.ways.typed
    qtbot.keyClick(canvas, Qt.Key.Key_4)
    qtbot.keyClicks(typed.length, "0")
    typed.bearing.setFocus()
    qtbot.keyClicks(typed.bearing, "90")
    qtbot.keyClick(typed.bearing, Qt.Key.Key_Return)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    wall = _one(window.session.document.plan, "wall").shape
    (e0, n0), (e1, n1) = wall.coords
    assert (e1 - e0, n1 - n0) == pytest.approx((40.0, 0.0), abs=0.001)


def test_what_was_typed_amiss_is_said_until_something_is_drawn_and_never_used_again(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Wall")
    _click(qtbot, window, 300, 400)
    assert window.body is not None
    canvas, typed = window.body.ground.canvas, window.body.ground.ways.typed
    typed.bearing.setText("north or so")
    typed.length.setText("4")
    qtbot.keyClick(typed.length, Qt.Key.Key_Return)
    assert "is not a bearing" in window.notice.words
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert (typed.length.text(), typed.bearing.text()) == ("", "")
    for x in (300, 500):
        _click(qtbot, window, x, 400)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    assert window.notice.words == ""


def test_a_field_is_one_edit_when_it_is_left_and_undo_takes_it_back(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Tree")
    _click(qtbot, window, 500, 400)
    assert window.body is not None
    card = window.body.side.card
    species = card.rows["species"].editor
    species.setFocus()
    qtbot.keyClicks(species, "Taxus baccata")
    assert _one(window.session.document.plan, "tree").details.species == ""
    qtbot.keyClick(species, Qt.Key.Key_Return)
    assert _one(window.session.document.plan, "tree").details.species == "Taxus baccata"
    window.commands.action("undo").trigger()
    assert _one(window.session.document.plan, "tree").details.species == ""
    assert species.text() == ""


def test_what_stands_typed_in_a_field_is_saved_with_the_rest(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Tree")
    _click(qtbot, window, 500, 400)
    assert window.body is not None
    assert window.session.file is not None
    rows = window.body.side.card.rows
    for name, words in (("species", "Taxus baccata"), ("remarks", "leans east")):
        rows[name].editor.setFocus()
        qtbot.keyClicks(rows[name].editor, words)
    window.commands.action("save").trigger()
    qtbot.waitUntil(lambda: window.top.state.startswith("saved"))
    tree = _one(read_plan(window.session.file.path), "tree").details
    assert (tree.species, tree.remarks) == ("Taxus baccata", "leans east")


def test_a_window_stays_open_where_a_field_holds_what_cannot_be_taken(
    qtbot: QtBot, window: PlanWindow, script: Script
) -> None:
    _draw(qtbot, window, "Path")
    for x in (200, 400):
        _click(qtbot, window, x, 300)
    assert window.body is not None
    qtbot.keyClick(window.body.ground.canvas, Qt.Key.Key_Return)
    row = window.body.side.card.rows["width_m"]
    row.editor.selectAll()
    qtbot.keyClicks(row.editor, "wide")
    assert not window.close()
    assert "wants a number" in window.notice.words
    assert row.text == "wide"
    assert not script.asked
    script.answers.append(None)
    assert not window.close()
    assert "not saved" in script.asked[0]


def test_what_will_not_do_in_one_field_outlasts_an_edit_of_another(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Tree")
    _click(qtbot, window, 500, 400)
    assert window.body is not None
    rows = window.body.side.card.rows
    for name, typed in (("height_m", "tall"), ("species", "Ilex")):
        rows[name].editor.setFocus()
        qtbot.keyClicks(rows[name].editor, typed)
        qtbot.keyClick(rows[name].editor, Qt.Key.Key_Return)
    assert rows["height_m"].text == "tall"
    assert "wants a number" in rows["height_m"].sentence
    assert _one(window.session.document.plan, "tree").details.species == "Ilex"
    rows["height_m"].editor.setText("")
    qtbot.keyClicks(rows["height_m"].editor, "7,50")
    qtbot.keyClick(rows["height_m"].editor, Qt.Key.Key_Return)
    assert (rows["height_m"].text, rows["height_m"].sentence) == ("7.5", "")


def test_a_value_out_of_range_is_said_under_the_field_and_not_taken(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Path")
    for x in (200, 400):
        _click(qtbot, window, x, 300)
    assert window.body is not None
    qtbot.keyClick(window.body.ground.canvas, Qt.Key.Key_Return)
    row = window.body.side.card.rows["width_m"]
    row.editor.selectAll()
    qtbot.keyClicks(row.editor, "250")
    qtbot.keyClick(row.editor, Qt.Key.Key_Return)
    assert row.sentence == "“Width” is at most 20 m."
    assert _one(window.session.document.plan, "path").details.width_m == 1.5


def test_delete_removes_what_is_chosen_and_escape_puts_the_tool_down(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Tree")
    _click(qtbot, window, 500, 400)
    assert window.body is not None
    canvas = window.body.ground.canvas
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert window.session.button.name == "select"
    window.commands.action("remove").trigger()
    assert not window.session.document.plan.items


def test_saving_writes_the_file_and_says_when(qtbot: QtBot, window: PlanWindow) -> None:
    _draw(qtbot, window, "Tree")
    _click(qtbot, window, 500, 400)
    window.commands.action("save").trigger()
    qtbot.waitUntil(lambda: window.top.state.startswith("saved"))
    assert window.session.file is not None
    assert _one(read_plan(window.session.file.path), "tree")


def test_what_is_found_by_its_number_is_chosen_and_shown(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Tree")
    _click(qtbot, window, 500, 400)
    assert window.body is not None
    number = window.body.side.card.rows["number"].editor
    qtbot.keyClicks(number, "T 7")
    qtbot.keyClick(number, Qt.Key.Key_Return)
    window.session.choose(())
    qtbot.keyClicks(window.top.field, "t7")
    qtbot.keyClick(window.top.field, Qt.Key.Key_Return)
    assert window.body.side.card.title == "Tree T 7"


def test_a_command_is_found_by_its_title_and_run(qtbot: QtBot, window: PlanWindow) -> None:
    qtbot.keyClicks(window.top.field, "safety")
    qtbot.keyClick(window.top.field, Qt.Key.Key_Return)
    assert window.body is not None
    assert window.body.strip.buttons["safety"].isChecked()


def test_every_control_that_takes_the_keys_has_a_name(window: PlanWindow) -> None:
    assert window.body is not None
    nameless = []
    for job in jobs():
        window.go(job.name)
        QApplication.processEvents()
        nameless += [repr(w) for w in _reachable(window) if not w.accessibleName()]
    assert nameless == []


def _reachable(window: PlanWindow) -> list[QWidget]:
    return [
        w
        for w in window.findChildren(QWidget)
        if w.isVisible()
        and w.focusPolicy() & Qt.FocusPolicy.TabFocus
        and w.objectName() != "qt_scrollarea_viewport"
        and not isinstance(w.parent(), QAbstractScrollArea)
        and not (isinstance(w, QLineEdit) and not isinstance(w.parent(), QWidget))
    ]


def test_unsaved_work_is_asked_about_before_the_window_closes(
    qtbot: QtBot, window: PlanWindow, house: Application, script: Script
) -> None:
    _draw(qtbot, window, "Tree")
    _click(qtbot, window, 500, 400)
    script.answers.append(None)
    assert not window.close()
    script.answers.append(0)
    assert window.close()
    assert window.session.file is not None
    assert _one(read_plan(window.session.file.path), "tree")
    assert script.asked == ["elfric.gpkg has edits that are not saved."] * 2


def test_several_of_a_kind_are_described_at_once_and_say_what_they_share(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Tree")
    for x in (300, 500, 700):
        _click(qtbot, window, x, 400)
    assert window.body is not None
    card = window.body.side.card
    window.session.choose(window.session.document.plan.items)
    assert card.title == "3 chosen"
    assert not card.rows["number"].editor.isEnabled()
    species = card.rows["species"].editor
    qtbot.keyClicks(species, "Tilia")
    qtbot.keyClick(species, Qt.Key.Key_Return)
    assert [i.details.species for i in window.session.document.plan.items.values()] == [
        "Tilia"
    ] * 3
    assert window.session.document.undo_title == "Describe 3 trees"
    first, *_ = window.session.chosen
    window.session.choose((first,))
    qtbot.keyClicks(card.rows["species"].editor, " cordata")
    qtbot.keyClick(card.rows["species"].editor, Qt.Key.Key_Return)
    window.session.choose(window.session.document.plan.items)
    assert species.text() == ""
    assert species.placeholderText() == "various"


def test_the_colours_can_be_changed_while_the_window_is_open(window: PlanWindow) -> None:
    for colours, dark in (("dark", True), ("light", False)):
        window.commands.action(colours).trigger()
        assert window.house.palette.dark is dark
        assert window.house.preferences.colours == colours


def test_a_page_of_help_lists_the_keys(qtbot: QtBot, window: PlanWindow) -> None:
    window.commands.action("help_keys").trigger()
    (page,) = window.findChildren(QDialog)
    assert "Ctrl+Z\tUndo" in page.findChildren(QPlainTextEdit)[0].toPlainText()
    page.accept()


def test_every_menu_opens_by_a_letter_of_its_own(window: PlanWindow) -> None:
    letters = [a.text().partition("&")[2][:1] for a in window.menuBar().actions()]
    assert len(letters) == len(set(letters)) == 8
    assert len(set(letters) - {""}) == len(letters)


def test_keys_go_to_card_panel_and_ground(window: PlanWindow) -> None:
    assert window.body is not None
    window.activateWindow()
    window.commands.action("to_panel").trigger()
    assert window.body.side.isAncestorOf(QApplication.focusWidget())
    window.commands.action("to_ground").trigger()
    assert QApplication.focusWidget() is window.body.ground.canvas
    window.commands.action("find").trigger()
    assert QApplication.focusWidget() is window.top.field


def test_what_is_typed_goes_to_what_was_chosen_then_and_not_to_what_is_chosen_next(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _draw(qtbot, window, "Tree")
    for x in (300, 600):
        _click(qtbot, window, x, 400)
    first, second = window.session.document.plan.items
    window.session.choose((first,))
    assert window.body is not None
    species = window.body.side.card.rows["species"].editor
    species.setFocus()
    qtbot.keyClicks(species, "Ilex")
    window.session.choose((second,))
    items = window.session.document.plan.items
    assert (items[first].details.species, items[second].details.species) == ("Ilex", "")
    assert species.text() == ""
    height = window.body.side.card.rows["height_m"].editor
    height.setFocus()
    qtbot.keyClicks(height, "tall")
    window.session.choose(())
    assert window.notice.words.endswith("Tree is as it was.")


def test_a_tool_in_hand_stands_above_the_ground_in_a_job_that_does_not_bring_it(
    window: PlanWindow,
) -> None:
    assert window.body is not None
    window.go("trace")
    window.session.take_up(next(t for t in tools() if t.name == "row"))
    window.go("records")
    buttons = window.body.ground.tools.buttons
    assert buttons["row"].isChecked()
    window.session.put_down()
    buttons = window.body.ground.tools.buttons
    assert "row" not in buttons
    assert buttons["select"].isChecked()


def test_a_key_of_what_cannot_be_done_now_says_so(qtbot: QtBot, window: PlanWindow) -> None:
    assert window.body is not None
    told: list[str] = []
    window.ask.tell = told.append  # type: ignore[method-assign]  # the script's own ear
    window.body.ground.canvas.setFocus()
    qtbot.keyClick(window.body.ground.canvas, Qt.Key.Key_Delete)
    assert told == ["“Remove what is chosen” is not possible now."]
    qtbot.keyClick(window.body.ground.canvas, Qt.Key.Key_F12)
    assert len(told) == 1
