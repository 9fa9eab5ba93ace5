"""The section of Trace that lists the pieces of the ground, by real clicks."""

from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from shapely import box

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, section
from plan_editor.kinds.section import SectionDetails
from plan_editor.plan.item import Item, new_item

LEFT = Qt.MouseButton.LeftButton


def part(name: str, west: float) -> Item:
    shape = box(west, 0, west + 40, 30)
    return new_item(section.KIND, shape, details=SectionDetails(name=name))


OLD, NEW = part("Old", 0), part("New", 40)
GRAVE = new_item(grave.KIND, Rectangle(east=50, north=5, width=1.2, length=2.4), number="N 1")


@pytest.fixture
def shown(window: PlanWindow) -> Any:
    window.show()
    window.go("trace")
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    panel.open("ground_sections")
    return panel.sections["ground_sections"]


def test_an_undivided_ground_says_what_to_do(shown: Any) -> None:
    assert shown._empty.isVisible()
    assert not shown.table.isVisible()
    assert not shown.only.isVisible()


def test_a_section_is_gone_to_shown_alone_and_all_shown_again(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    window.session.apply(Add((OLD, NEW, GRAVE)))
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == 2)
    model = shown.table.model()
    names = [model.index(n, 0).data() for n in range(2)]
    assert names == ["New", "Old"]
    assert model.index(0, 1).data() == "1"
    shown.table.selectRow(1)
    assert window.session.chosen == (OLD.id,)
    assert shown.figures.isVisible()
    qtbot.mouseClick(shown.only, LEFT)
    items = window.session.document.plan.items.values()
    assert [i.id for i in items if window.session.showing.shows(i)] == [OLD.id]
    assert "2 things elsewhere left out" in window.status.shown.text()
    qtbot.mouseClick(shown.all, LEFT)
    assert all(window.session.showing.shows(i) for i in items)
    assert not shown.all.isVisible()


def test_what_is_chosen_on_the_ground_tells_its_section(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    window.session.apply(Add((OLD, NEW, GRAVE)))
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == 2)
    window.session.choose((GRAVE.id,))
    assert shown.table.currentIndex().row() == 0
    window.session.choose(())
    assert not shown.figures.isVisible()


def test_commands_open_the_check_and_the_list(shown: Any, window: PlanWindow) -> None:
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    window.commands.action("check_plan").trigger()
    assert panel.opened == ("check",)
    window.commands.action("ground_sections").trigger()
    assert panel.opened == ("ground_sections",)
