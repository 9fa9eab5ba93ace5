"""The list of what is shown: ticked by hand, kept for each job, obeyed by the ground."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QTreeWidgetItem
from pytestqt.qtbot import QtBot

from plan_editor.desktop.app import Application
from plan_editor.desktop.shown_list import COUNT, LOCKED, NAME, OFF, ON, ShownList
from plan_editor.desktop.window import PlanWindow
from plan_editor.drawing.showing import Showing, State
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave
from plan_editor.plan.item import new_item

FREE = State("grave", "state", "free")


def _grave(east: float, state: grave.State) -> object:
    details = grave.GraveDetails(state=state)
    place = Rectangle(east=east, north=0.0, width=1.2, length=2.4)
    return new_item(grave.KIND, place, details=details)


@pytest.fixture
def shown(window: PlanWindow) -> ShownList:
    states = (grave.State.FREE, grave.State.OCCUPIED, grave.State.OCCUPIED)
    items = tuple(_grave(3.0 * n, state) for n, state in enumerate(states))
    window.session.apply(Add(items))
    window.go("trace")
    window.list_shown()
    assert window.body is not None
    return window.body.shown


def _line(shown: ShownList, title: str) -> QTreeWidgetItem:
    (found,) = shown.tree.findItems(title, Qt.MatchFlag.MatchRecursive, NAME)
    return found


def _seen(window: PlanWindow) -> int:
    return sum(bool(window.session.hits(3.0 * n + 1.2, 0.6, 0.1)) for n in range(3))


def test_each_kind_on_the_plan_is_listed_with_its_states_and_their_numbers(
    shown: ShownList,
) -> None:
    assert _line(shown, "Graves").text(COUNT) == "3"
    below = _line(shown, "Graves")
    states = {below.child(n).text(NAME): below.child(n).text(COUNT) for n in range(2)}
    assert states == {"Free": "1", "Occupied": "2"}
    assert not shown.tree.findItems("Trees", Qt.MatchFlag.MatchRecursive, NAME)


def test_what_is_unticked_can_be_neither_seen_nor_chosen(
    window: PlanWindow, shown: ShownList
) -> None:
    assert _seen(window) == 3
    _line(shown, "Free").setCheckState(NAME, OFF)
    assert window.session.showing == Showing(states=frozenset({FREE}))
    assert _seen(window) == 2
    assert "1 sort left out" in window.status.shown.text()
    _line(shown, "Graves").setCheckState(NAME, OFF)
    assert _seen(window) == 0
    shown._all.click()
    assert _seen(window) == 3
    assert window.status.shown.text() == "showing: Trace"


def test_each_job_has_its_own_set_and_keeps_it(
    window: PlanWindow, shown: ShownList, house: Application
) -> None:
    _line(shown, "Graves").setCheckState(NAME, OFF)
    window.go("records")
    assert _seen(window) == 3
    window.go("trace")
    assert _seen(window) == 0
    kept = house.preferences.showing("trace")
    assert kept == Showing(kinds=frozenset({"grave"}))
    assert house.preferences.showing("records") is None
    shown._all.click()
    assert house.preferences.showing("trace") == Showing()  # and not what is usual


def test_a_kind_is_locked_in_the_list(window: PlanWindow, shown: ShownList) -> None:
    _line(shown, "Graves").setCheckState(LOCKED, ON)
    assert window.session.locked == {"grave"}
    assert window.session.showing == Showing()
    _line(shown, "Graves").setCheckState(LOCKED, OFF)
    assert not window.session.locked


def test_a_job_shows_what_is_usual_again(window: PlanWindow, shown: ShownList) -> None:
    window.go("safety")
    usual = window.session.showing
    assert "spot_level" in usual.kinds
    window.list_shown()
    shown._all.click()
    assert window.session.showing == Showing()
    shown._usual.click()
    assert window.session.showing == usual


def test_the_list_opens_by_a_key_and_from_the_line_below(
    qtbot: QtBot, window: PlanWindow, shown: ShownList
) -> None:
    shown.hide()
    window.commands.action("shown").trigger()
    assert shown.isVisible()
    assert shown.tree.accessibleName()
    shown.hide()
    qtbot.mouseClick(window.status.shown, Qt.MouseButton.LeftButton, pos=QPoint(4, 4))
    assert shown.isVisible()
    shown.hide()
