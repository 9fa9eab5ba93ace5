"""Fingers, keys and the menu on the ground."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QPointingDevice, QTabletEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from scripted import Script
from shapely import Point
from strategies import kind_of, plain

from plan_editor.commands.drawing import draw as take_up
from plan_editor.desktop.app import Application
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.desktop.window import PlanWindow
from plan_editor.drafting.tool import Act
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.kind import Form
from plan_editor.storage.plan_file import PlanFile

GRAVE = plain(kind_of("grave"), 1).on(Rectangle(east=0.0, north=0.0, width=4.0, length=4.0))
LAWN = plain(kind_of("grass"), 2)
LAWN = LAWN.at(Point(2, 2).buffer(15.0))
TREE = plain(kind_of("tree"), 3).at(Point(-20, -20))

SCREEN = QTest.createTouchDevice()


@pytest.fixture
def ground(window: PlanWindow) -> Canvas:
    window.session.apply(Add((GRAVE, LAWN, TREE)))
    body = window.body
    assert body is not None
    canvas = body.ground.canvas
    canvas.look_at((-40.0, -40.0, 40.0, 40.0))
    return canvas


def at(canvas: Canvas, east: float, north: float) -> QPoint:
    return canvas.mapFromScene(east, north)


def menu_of(window: PlanWindow) -> list[str]:
    menu = window._menu
    assert menu is not None
    return [a.objectName() for a in menu.menu.actions() if a.objectName()]


# fingers


def test_a_finger_that_taps_chooses(window: PlanWindow, ground: Canvas) -> None:
    glass = ground.viewport()
    QTest.touchEvent(glass, SCREEN).press(0, at(ground, 2, 2), glass).commit()
    QTest.touchEvent(glass, SCREEN).release(0, at(ground, 2, 2), glass).commit()
    assert window.session.chosen == (GRAVE.id,)


def test_a_finger_that_draws_makes_a_box(window: PlanWindow, ground: Canvas) -> None:
    glass = ground.viewport()
    QTest.touchEvent(glass, SCREEN).press(0, at(ground, -24, -17), glass).commit()
    QTest.touchEvent(glass, SCREEN).move(0, at(ground, -20, -20), glass).commit()
    QTest.touchEvent(glass, SCREEN).release(0, at(ground, -17, -24), glass).commit()
    assert window.session.chosen == (TREE.id,)


def test_two_fingers_draw_the_ground_along_and_nearer(
    window: PlanWindow, ground: Canvas
) -> None:
    glass = ground.viewport()
    before = ground.transform().m11()
    middle = glass.rect().center()
    left, right = middle - QPoint(60, 0), middle + QPoint(60, 0)
    far = QPoint(60, 0)
    QTest.touchEvent(glass, SCREEN).press(0, left, glass).press(1, right, glass).commit()
    there = ground.mapToScene(middle)
    both = QTest.touchEvent(glass, SCREEN)
    both.move(0, left - far, glass).move(1, right + far, glass).commit()
    assert ground.transform().m11() == pytest.approx(2 * before, rel=0.01)
    after = ground.mapToScene(middle)
    assert (after - there).manhattanLength() < 0.5
    down = QPoint(0, 40)
    both = QTest.touchEvent(glass, SCREEN)
    both.move(0, left - far + down, glass).move(1, right + far + down, glass).commit()
    assert ground.mapFromScene(after).y() == pytest.approx(middle.y() + 40, abs=2)
    # the finger that is lifted last points at nothing
    QTest.touchEvent(glass, SCREEN).release(0, left, glass).stationary(1).commit()
    QTest.touchEvent(glass, SCREEN).release(1, right, glass).commit()
    assert window.session.chosen == ()
    assert not window.session.document.undo_title.startswith("Move")  # type: ignore[union-attr]


def test_a_second_finger_takes_back_what_the_first_had_begun(
    window: PlanWindow, ground: Canvas
) -> None:
    glass = ground.viewport()
    window.session.choose((GRAVE.id,))
    QTest.touchEvent(glass, SCREEN).press(0, at(ground, 2, 2), glass).commit()
    QTest.touchEvent(glass, SCREEN).move(0, at(ground, 9, 2), glass).commit()
    assert window.session.answer.preview
    both = QTest.touchEvent(glass, SCREEN)
    both.move(0, at(ground, 9, 2), glass).press(1, at(ground, 9, 8), glass).commit()
    assert not window.session.answer.preview
    QTest.touchEvent(glass, SCREEN).release(0, glass.pos(), glass).release(
        1, glass.pos(), glass
    ).commit()
    assert window.session.document.plan.items[GRAVE.id] == GRAVE


def test_a_finger_held_still_opens_the_menu(
    qtbot: QtBot, window: PlanWindow, ground: Canvas
) -> None:
    glass = ground.viewport()
    body = window.body
    assert body is not None
    with qtbot.waitSignal(body.ground.touch.held, timeout=5000):
        QTest.touchEvent(glass, SCREEN).press(0, at(ground, 2, 2), glass).commit()
    QTest.touchEvent(glass, SCREEN).release(0, at(ground, 2, 2), glass).commit()
    assert window.session.chosen == (GRAVE.id,)
    assert "remove" in menu_of(window)


def test_the_other_end_of_a_pen_takes_back_a_corner(window: PlanWindow, ground: Canvas) -> None:
    draw = window.session
    path = kind_of("path")
    take_up(draw, path, Form.LINE)
    for east in (30.0, 40.0):
        place = QPointF(at(ground, east, 30.0))
        ground.act_at(Act.PRESS, place, Qt.KeyboardModifier.ControlModifier)
    before = draw.answer.tool
    kinds = QPointingDevice.PointerType
    pens = [(_pen(kinds.Pen), True), (_pen(kinds.Eraser), False)]  # Qt keeps no hold of them
    for pen, same in pens:
        QApplication.sendEvent(ground.viewport(), _pressed(ground, pen))
        assert (draw.answer.tool == before) is same


def _pen(kind: QPointingDevice.PointerType) -> QPointingDevice:
    sort, able = QPointingDevice.DeviceType.Stylus, QPointingDevice.Capability.Position
    return QPointingDevice("pen", 1, sort, kind, able, 1, 1)


def _pressed(canvas: Canvas, device: QPointingDevice) -> QTabletEvent:
    place = QPointF(canvas.viewport().rect().center())
    keys, button = Qt.KeyboardModifier.NoModifier, Qt.MouseButton.LeftButton
    there = canvas.viewport().mapToGlobal(place)
    sort = QEvent.Type.TabletPress
    nothing = 0.0, 0.0, 0.0, 0.0, 0.0
    return QTabletEvent(sort, device, place, there, 1.0, *nothing, keys, button, button)


# keys


def test_a_grave_is_reached_chosen_and_moved_by_keys_alone(
    window: PlanWindow, ground: Canvas
) -> None:
    key: Callable[..., None] = lambda *k: QTest.keyClick(ground, *k)  # noqa: E731
    shift = Qt.KeyboardModifier.ShiftModifier
    ground.setFocus()
    ground.centerOn(2, 2)
    key(Qt.Key.Key_Left, shift)  # it begins in the middle of the view
    key(Qt.Key.Key_Space)
    assert window.session.chosen == (GRAVE.id,)
    key(Qt.Key.Key_T)
    window.commands.action("tool_move").trigger()
    key(Qt.Key.Key_Space)
    for _ in range(6):
        key(Qt.Key.Key_Right, shift)
    key(Qt.Key.Key_Space)
    moved = window.session.document.plan.items[GRAVE.id].rectangle
    assert moved is not None
    assert moved.east == pytest.approx(60 / ground.transform().m11(), abs=0.2)
    assert moved.north == pytest.approx(0.0, abs=0.2)


def test_the_ground_moves_along_where_the_pointer_would_leave_the_view(
    window: PlanWindow, ground: Canvas
) -> None:
    ground.setFocus()
    body = window.body
    assert body is not None
    seen = ground.mapToScene(ground.viewport().rect().center())
    shift = Qt.KeyboardModifier.ShiftModifier
    for _ in range(ground.viewport().width() // 20 + 5):
        QTest.keyClick(ground, Qt.Key.Key_Right, shift)
    assert ground.viewport().rect().contains(body.ground.key_pointer.at)
    assert ground.mapToScene(ground.viewport().rect().center()).x() > seen.x()


def test_from_thing_to_thing_by_keys_they_come_into_sight(
    window: PlanWindow, ground: Canvas
) -> None:
    ground.zoom(8.0)
    window.session.choose((GRAVE.id,))
    assert ground.accessibleDescription() == "Grave"
    window.session.choose((GRAVE.id, TREE.id))
    assert ground.accessibleDescription() == "2 chosen"
    window.session.choose(())
    assert ground.accessibleDescription() == "Nothing chosen"
    for _ in range(2):
        window.commands.action("next_thing").trigger()
        (chosen,) = window.session.chosen
        place = window.session.document.plan.items[chosen].shape
        assert place is not None
        middle = ground.mapFromScene(place.centroid.x, place.centroid.y)
        assert ground.viewport().rect().contains(middle)


# the menu


def test_the_right_button_chooses_what_lies_there_and_offers_what_can_be_done(
    window: PlanWindow, ground: Canvas
) -> None:
    place = at(ground, 2, 2)
    QApplication.sendEvent(
        ground.viewport(),
        QContextMenuEvent(
            QContextMenuEvent.Reason.Mouse, place, ground.viewport().mapToGlobal(place)
        ),
    )
    assert window.session.chosen == (GRAVE.id,)
    assert {"copy", "duplicate", "change_kind", "lock", "copy_place"} <= set(menu_of(window))
    assert "unlock" not in menu_of(window)
    menu = window._menu
    assert menu is not None
    beneath = next(a.menu() for a in menu.menu.actions() if a.menu() is not None)
    beneath.actions()[0].trigger()  # type: ignore[attr-defined]
    assert window.session.chosen == (LAWN.id,)


def test_on_bare_ground_nothing_is_chosen_any_more(window: PlanWindow, ground: Canvas) -> None:
    window.session.choose((GRAVE.id,))
    assert window._menu is not None
    window._menu.open_at(at(ground, -30, 25))
    assert window.session.chosen == ()
    assert "remove" not in menu_of(window)
    assert "copy_place" in menu_of(window)


def test_by_key_the_menu_is_about_what_is_chosen_wherever_the_pointer_rests(
    window: PlanWindow, ground: Canvas
) -> None:
    ground.act_at(Act.MOVE, QPointF(at(ground, 2, 2)), Qt.KeyboardModifier.NoModifier)
    window.commands.action("menu_here").trigger()
    assert window.session.chosen == (GRAVE.id,)  # nothing was: what lies under the pointer
    window.session.choose((TREE.id,))
    place = QPoint(1, 1)
    for opened in (
        lambda: window.commands.action("menu_here").trigger(),
        lambda: QApplication.sendEvent(
            ground, QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, place, place)
        ),
    ):
        opened()
        assert window.session.chosen == (TREE.id,)
        assert "duplicate" in menu_of(window)


def test_keys_copy_from_one_window_to_another_and_in_a_field_its_words(
    qtbot: QtBot, house: Application, window: PlanWindow, ground: Canvas, tmp_path: Path
) -> None:
    other = tmp_path / "other.gpkg"
    grid = window.session.document.plan.grid
    PlanFile.create(other, name="St Osyth", grid=grid).close()
    window.session.choose((GRAVE.id, TREE.id))
    QTest.keyClick(ground, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    house.open_plan(other)
    there = house.windows[-1]
    with qtbot.waitActive(there):
        there.activateWindow()
    assert there.body is not None
    canvas = there.body.ground.canvas
    QTest.keyClick(canvas, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    plan = there.session.document.plan
    assert [i.rectangle for i in plan.of(GRAVE.kind)] == [GRAVE.rectangle]
    assert [i.shape for i in plan.of(TREE.kind)] == [TREE.shape]
    field = there.top.field
    field.setText("some words")
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert there.ask.clipboard() == "some words"
    there.commands.action("paste").trigger()  # that is nothing to paste: a sentence
    assert there.session.document.undo_title == "Paste 2 things"


def test_the_coordinates_of_the_place_are_copied(window: PlanWindow, ground: Canvas) -> None:
    assert window._menu is not None
    window._menu.open_at(at(ground, -30, 25))
    QApplication.sendEvent(ground.viewport(), QEvent(QEvent.Type.Leave))  # as a menu makes it
    window.commands.action("copy_place").trigger()
    east, north = window.ask.clipboard().split("\t")
    assert float(east) == pytest.approx(552970, abs=1)
    assert float(north) == pytest.approx(421025, abs=1)


# locks


def test_what_is_locked_is_remembered_for_each_plan(
    house: Application, window: PlanWindow, plan_path: Path, script: Script
) -> None:
    window.session.lock({"grave", "path"})
    assert window.commands.action("unlock").isEnabled()
    assert house.preferences.locked_in(plan_path.with_name("other.gpkg")) == ()
    window.close()
    house.open_plan(plan_path)
    assert house.windows[-1].session.locked == {"grave", "path"}


def test_a_fingertip_means_more_than_the_point_of_a_mouse(
    window: PlanWindow, ground: Canvas
) -> None:
    glass = ground.viewport()
    beside = at(ground, -20, -20) + QPoint(14, 0)
    QTest.mouseClick(
        glass, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier, beside
    )
    assert window.session.chosen == ()
    QTest.touchEvent(glass, SCREEN).press(0, beside, glass).commit()
    QTest.touchEvent(glass, SCREEN).release(0, beside, glass).commit()
    assert window.session.chosen == (TREE.id,)
