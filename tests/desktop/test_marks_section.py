"""The section of the survey panel that holds the marks and what can be set out from them."""

import pytest
import shapely
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from plan_editor.desktop.sections.marks import Marks
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add, SetBasis
from plan_editor.kinds import boundary, mark, observation, wall
from plan_editor.plan.item import Basis, Item, Method, new_item

WAIT = 30_000


@pytest.fixture
def section(window: PlanWindow) -> Marks:
    window.go("survey")
    assert window.body is not None
    panel = window.body.side.panels["survey"]
    panel.open("marks")
    found = panel.sections["marks"]
    assert isinstance(found, Marks)
    return found


def _marks(window: PlanWindow) -> list[Item]:
    return list(window.session.document.plan.of(mark.KIND))


def _put_marks(window: PlanWindow, *places: tuple[float, float]) -> list[Item]:
    items = [
        new_item(mark.KIND, shapely.Point(at), number=f"M{n}", basis=Basis(sd_m=0.02))
        for n, at in enumerate(places, 1)
    ]
    window.session.apply(Add(tuple(items)))
    return items


def _type(qtbot: QtBot, section: Marks, **words: str) -> None:
    for name, typed in words.items():
        editor = section.form.rows[name].editor
        editor.clear()
        qtbot.keyClicks(editor, typed)


def _words(section: Marks) -> str:
    return "\n".join(label.text() for label in section.findChildren(QLabel))


def test_a_mark_is_added_by_its_coordinates(
    qtbot: QtBot, window: PlanWindow, section: Marks
) -> None:
    section.new.click()
    assert section.form.rows["number"].text == "M1"
    _type(
        qtbot,
        section,
        east="553112.484",
        north="421 087,15",
        description="NE buttress, top of plinth",
        sd_m="0.012",
    )
    method = section.form.rows["method"].editor
    method.setCurrentIndex(method.findData("instrument"))
    section.form.done.click()
    (item,) = _marks(window)
    assert item.shape == shapely.Point(112.484, 87.15)
    assert (item.basis.method, item.basis.sd_m) == (Method.INSTRUMENT, 0.012)
    assert item.details.description == "NE buttress, top of plinth"
    assert section.form.isHidden()
    assert window.session.chosen == (item.id,)
    assert window.session.document.undo_title == "Add mark M1"
    qtbot.waitUntil(lambda: section.table.table.items == (item.id,))
    cells = [section.table.table.data(section.table.table.index(0, c)) for c in range(4)]
    assert cells == ["M1", "NE buttress, top of plinth", "yes", "± 12 mm"]


def test_a_mark_is_added_by_a_click_on_the_ground(
    qtbot: QtBot, window: PlanWindow, section: Marks
) -> None:
    assert window.body is not None
    ground = window.body.ground.canvas.viewport()
    section.new.click()
    for _ in range(2):  # a second click takes another place
        qtbot.mouseMove(ground, ground.rect().center())
        qtbot.mouseClick(ground, Qt.MouseButton.LeftButton, pos=ground.rect().center())
    assert section.form.rows["east"].text.startswith("55")
    section.form.done.click()
    (item,) = _marks(window)
    assert item.basis == Basis()


def test_what_is_amiss_is_said_and_nothing_is_added(
    qtbot: QtBot, window: PlanWindow, section: Marks
) -> None:
    section.new.click()
    section.form.done.click()
    assert "easting is not a number" in section.form.foot.sentence
    _type(qtbot, section, east="553112", north="421087", sd_m="a hand")
    section.form.done.click()
    assert "wants a number" in section.form.rows["sd_m"].sentence
    _type(qtbot, section, sd_m="", number="")
    section.form.done.click()
    assert "short name" in section.form.foot.sentence
    assert not _marks(window)
    qtbot.keyClick(section.form.rows["number"].editor, Qt.Key.Key_Escape)
    qtbot.keyClick(section.form.rows["number"].editor, Qt.Key.Key_Escape)
    assert section.form.isHidden()


def test_another_tool_puts_the_form_away(window: PlanWindow, section: Marks) -> None:
    section.new.click()
    window.session.put_down()
    assert section.form.isHidden()
    window.session.put_down()


def test_a_mark_is_given_other_coordinates_and_what_hangs_on_it_is_told(
    qtbot: QtBot, window: PlanWindow, section: Marks
) -> None:
    first, _ = _put_marks(window, (0, 0), (9, 0))
    told = observation.ObservationDetails(from_mark=first.id, distance_m=3.0)
    window.session.apply(Add((new_item(observation.KIND, details=told),)))
    qtbot.waitUntil(lambda: len(section.table.table.items) == 2)
    section.table.selectRow(0)
    assert window.session.chosen == (first.id,)
    section.again.click()
    assert "Other coordinates for mark M1" in _words(section)
    assert section.form.rows["number"].isHidden()
    _type(qtbot, section, east="553001.5", north="421000.25", sd_m="0.01")
    section.form.done.click()
    moved = window.session.document.plan.items[first.id]
    assert (moved.shape, moved.basis.sd_m) == (shapely.Point(1.5, 0.25), 0.01)
    assert "1 line of the field book hangs on mark M1" in _words(section)
    section.again.click()
    assert section._said.isHidden()


def test_the_map_is_shown_follows_the_plan_and_is_hidden(
    qtbot: QtBot, window: PlanWindow, section: Marks
) -> None:
    assert window.body is not None
    canvas = window.body.ground
    low = wall.WallDetails(height_m=1.0)
    line = new_item(wall.KIND, shapely.LineString([(5, 25), (35, 25)]), details=low)
    ground = new_item(boundary.KIND, shapely.box(0, 0, 40, 30))
    window.session.apply(Add((ground, line)))
    first, *_ = _put_marks(window, (3, 3), (25, 3))
    shown: list[object] = []
    show = canvas.show_sketch
    canvas.show_sketch = lambda sketch: (shown.append(sketch), show(sketch))  # type: ignore[method-assign]
    qtbot.waitUntil(section.map.isVisible)
    section.map.show_or_hide.click()
    qtbot.waitUntil(lambda: bool(shown), timeout=WAIT)
    assert section.map.key.isVisible()
    words = _words(section)
    assert "New marks that would help most" in words
    assert "1. A mark at the" in words
    assert "by its best two or three ties" in words
    window.session.apply(SetBasis(ids=(first.id,), basis=(("sd_m", 0.5),)))
    qtbot.waitUntil(lambda: len(shown) == 2, timeout=WAIT)
    section.map.show_or_hide.click()
    assert shown[-1] is None
    assert section.map.key.isHidden() or not section.map.key.isVisible()


def test_a_mark_that_has_just_come_is_seen_in_the_list(
    qtbot: QtBot, window: PlanWindow, section: Marks
) -> None:
    _put_marks(window, *((n, n) for n in range(14)))
    qtbot.waitUntil(lambda: len(section.table.table.items) == 14)
    section.new.click()
    _type(qtbot, section, east="553010", north="421010")
    section.form.done.click()
    qtbot.waitUntil(lambda: len(section.table.table.items) == 15)
    last = section.table.visualRect(section.table.table.index(14, 0))
    assert section.table.viewport().rect().contains(last)


def test_without_a_boundary_or_a_tape_the_map_says_why(
    qtbot: QtBot, window: PlanWindow, section: Marks
) -> None:
    _put_marks(window, (3, 3), (25, 3))
    qtbot.waitUntil(section.map.isVisible)
    section.map.show_or_hide.click()
    qtbot.waitUntil(lambda: "Draw the boundary" in section.map.sentence.text(), timeout=WAIT)
    section.map.tape.clear()
    qtbot.keyClicks(section.map.tape, "long")
    qtbot.keyClick(section.map.tape, Qt.Key.Key_Return)
    assert "no length of a tape" in section.map.sentence.text()


def test_other_colours_reach_the_key(window: PlanWindow, section: Marks) -> None:
    section.map._found.show()
    light = section.map.key.grab().toImage()
    window.house.dress("dark")
    assert section.map.key.grab().toImage() != light
    window.house.dress("light")
