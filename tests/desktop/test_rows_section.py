"""The section about the row in hand, by its fields and buttons."""

from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.edits.numbering import Gaps
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import Axis, at_pitch, head_of
from plan_editor.ground.rows import rows
from plan_editor.kinds import grave
from plan_editor.plan.item import Item, new_item

NORTH = Axis(start=(0.0, 0.0), bearing_deg=0.0)
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def row(window: PlanWindow) -> list[Item]:
    places = at_pitch(NORTH, (1.2, 2.4), 5, 1.5, right=True)
    items = [new_item(grave.KIND, p, number=f"A {n}") for n, p in enumerate(places, 1)]
    window.session.apply(Add(tuple(items)))
    return items


@pytest.fixture
def section(window: PlanWindow, row: list[Item]) -> Any:
    window.go("trace")
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    panel.open("rows")
    window.session.choose((row[2].id,))
    return panel.sections["rows"]


def _numbers(window: PlanWindow) -> list[str]:
    return [i.number for i in window.session.document.plan.of(grave.KIND)]


def test_the_row_of_the_one_chosen_is_in_hand(section: Any, window: PlanWindow) -> None:
    assert len(section.row.ids) == 5
    assert section.first.text() == "A 1"
    assert not section.number.isEnabled()
    window.session.choose(())
    assert section.row is None
    assert section._empty.isVisible()


def test_the_row_is_not_looked_for_while_the_section_is_closed(
    qtbot: QtBot, section: Any, window: PlanWindow, row: list[Item]
) -> None:
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    with qtbot.waitExposed(window):
        window.show()
    panel.open("drawing")
    before = section.row
    window.session.choose(())
    assert section.row is before
    panel.open("rows")
    assert section.row is None


def test_a_row_is_numbered_anew_as_the_preview_shows(
    qtbot: QtBot, section: Any, window: PlanWindow
) -> None:
    section.first.setText("C 10")
    section.from_end.setChecked(True)
    shown = [section.preview.item(n, 1).text() for n in range(5)]
    assert shown == ["C 10", "C 11", "C 12", "C 13", "C 14"]
    qtbot.mouseClick(section.number, LEFT)
    assert _numbers(window) == ["C 14", "C 13", "C 12", "C 11", "C 10"]
    window.session.document.undo()
    assert _numbers(window) == ["A 1", "A 2", "A 3", "A 4", "A 5"]


def test_gaps_are_kept_where_that_is_wanted(
    section: Any, window: PlanWindow, row: list[Item]
) -> None:
    from_menu = window.commands.action("choose_row")
    from_menu.trigger()
    assert len(window.session.chosen) == 5
    window.session.choose(i.id for i in (row[0], row[1], row[4]))
    section.first.setText("B 1")
    section.gaps.setCurrentIndex(section.gaps.findData(Gaps.AS_NUMBERED))
    assert [section.preview.item(n, 1).text() for n in range(3)] == ["B 1", "B 2", "B 5"]


def test_what_cannot_be_numbered_is_said_and_nothing_is_offered(section: Any) -> None:
    section.first.setText("north")
    assert "ends in a count" in section._said.text()
    assert section.preview.rowCount() == 0
    assert not section.number.isEnabled()
    section.first.setText("B 1")
    section.step.setText("0")
    assert "whole number" in section._said.text()


def test_a_row_is_copied_to_its_right(qtbot: QtBot, section: Any, window: PlanWindow) -> None:
    section.aside.setText("3.0")
    section.copied.setText("B 1")
    qtbot.keyClick(section.copied, Qt.Key.Key_Return)
    found = sorted(len(r.ids) for r in rows(window.session.document.plan))
    assert found == [5, 5]
    assert _numbers(window)[5:] == ["B 1", "B 2", "B 3", "B 4", "B 5"]
    east = [i.rectangle.east for i in window.session.document.plan.of(grave.KIND)][5:]
    assert east == pytest.approx([3.0] * 5)


def test_a_copy_begins_with_the_next_letter_unless_something_else_is_typed(
    qtbot: QtBot, section: Any, window: PlanWindow
) -> None:
    assert section.copied.text() == "B 1"
    section.aside.setText("3.0")
    qtbot.mouseClick(section.copy, LEFT)
    assert _numbers(window)[5:] == ["B 1", "B 2", "B 3", "B 4", "B 5"]
    qtbot.waitUntil(lambda: section.copied.text() == "C 1")


def test_a_copy_upon_itself_and_lengths_that_are_none_are_refused(
    qtbot: QtBot, section: Any, window: PlanWindow
) -> None:
    for aside, told in (("", "how far"), ("far", "not a length"), ("900", "200 m")):
        section.aside.setText(aside)
        qtbot.mouseClick(section.copy, LEFT)
        assert told in section._said.text()
    section.aside.setText("-3")
    section.copied.setText("")
    qtbot.mouseClick(section.copy, LEFT)
    east = [i.rectangle.east for i in window.session.document.plan.of(grave.KIND)][5:]
    assert east == pytest.approx([-3.0] * 5)
    assert _numbers(window)[5:] == [""] * 5


def test_a_row_is_carried_on_at_either_end(
    qtbot: QtBot, section: Any, window: PlanWindow, row: list[Item]
) -> None:
    section.count.setText("2")
    qtbot.mouseClick(section.more, LEFT)
    assert _numbers(window)[5:] == ["A 6", "A 7"]
    window.session.choose((row[0].id,))
    section.at_start.setChecked(True)
    section.count.setText("none")
    qtbot.mouseClick(section.more, LEFT)
    assert "whole number" in section._said.text()
    section.count.setText("1")
    qtbot.keyClick(section.count, Qt.Key.Key_Return)
    assert _numbers(window)[-1] == ""  # there is no grave A 0


def test_a_row_is_evened_lined_up_and_turned(
    section: Any, window: PlanWindow, row: list[Item]
) -> None:
    crooked = Rectangle(east=0.3, north=1.2, width=1.2, length=2.4, bearing_deg=6.0)
    window.session.apply(Add((new_item(grave.KIND, crooked.moved(40, 0), number="Z 1"),)))
    window.session.choose(i.id for i in row)
    section._even()
    heads = [head_of(i.rectangle)[1] for i in window.session.document.plan.of(grave.KIND)]
    assert heads[:5] == pytest.approx([0.6, 2.1, 3.6, 5.1, 6.6])
    window.session.choose((row[0].id, row[1].id))
    section._turn()
    section._line()
    assert section._said.text() == ""


def test_the_command_opens_the_section(window: PlanWindow, section: Any) -> None:
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    panel.open("drawing")
    window.go("records")
    window.commands.action("number_row").trigger()
    assert panel.opened == ("rows",)


def test_a_section_that_a_command_opens_is_seen_from_its_top(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    with qtbot.waitExposed(window):
        window.show()
    panel.open("drawing")
    window.commands.action("number_row").trigger()
    area = panel.parentWidget().parentWidget()
    top = panel.folds["rows"].mapTo(area.viewport(), panel.folds["rows"].rect().topLeft())
    assert 0 <= top.y() < 40
