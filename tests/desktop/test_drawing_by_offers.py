"""Drawing by what a tool offers, in the real window: by the keys, and by two tapes."""

from math import hypot, pi

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot
from shapely import Point

from plan_editor.commands.drawing import draw
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.arcs import SAGITTA
from plan_editor.kinds import fence, mark, tree
from plan_editor.plan.item import Item, Method, new_item
from plan_editor.plan.kind import Kind

FREE = Qt.KeyboardModifier.ControlModifier
"""Held down, it keeps the pointer from being caught."""


@pytest.fixture
def canvas(window: PlanWindow) -> Canvas:
    marks = [new_item(mark.KIND, Point(e, 0), number=n) for e, n in ((0, "M1"), (14, "M2"))]
    window.session.apply(Add(tuple(marks)))
    window.show()
    assert window.body is not None
    made = window.body.ground.canvas
    made.look_at((-5.0, -15.0, 20.0, 15.0))
    made.setFocus()
    return made


def click(
    qtbot: QtBot, canvas: Canvas, east: float, north: float, keys: Qt.KeyboardModifier = FREE
) -> None:
    at = canvas.mapFromScene(east, north)
    qtbot.mouseMove(canvas.viewport(), at)
    qtbot.mouseClick(canvas.viewport(), Qt.MouseButton.LeftButton, keys, at)


def one(window: PlanWindow, kind: Kind) -> Item:
    (found,) = window.session.document.plan.of(kind)
    return found


def test_a_curve_is_drawn_by_the_key_of_its_offer(
    qtbot: QtBot, window: PlanWindow, canvas: Canvas
) -> None:
    draw(window.session, fence.KIND)
    click(qtbot, canvas, 2, 5)
    qtbot.keyClick(canvas, Qt.Key.Key_A)
    click(qtbot, canvas, 6, 9)
    click(qtbot, canvas, 10, 5)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    shape = one(window, fence.KIND).shape
    # half a circle of 4 m, to a pixel or two
    assert shape.length == pytest.approx(4 * pi, rel=0.02)
    assert len(shape.coords) > pi / (2 * (2 * SAGITTA / 4) ** 0.5)


def test_a_tree_is_placed_by_two_tapes_typed_without_the_mouse(
    qtbot: QtBot, window: PlanWindow, canvas: Canvas
) -> None:
    draw(window.session, tree.KIND)
    qtbot.mouseMove(canvas.viewport(), canvas.mapFromScene(5, 12) + QPoint(3, 3))
    qtbot.keyClick(canvas, Qt.Key.Key_Y)
    qtbot.keyClick(canvas, Qt.Key.Key_1)
    assert window.body is not None
    fields = window.body.ground.ways.blanks.fields
    assert fields["first tape"].text() == "1"
    qtbot.keyClicks(fields["first tape"], "3")
    qtbot.keyClicks(fields["second tape"], "15")
    qtbot.keyClick(fields["second tape"], Qt.Key.Key_Return)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    made = one(window, tree.KIND)
    # the triangle of 13, 14 and 15: on the side of the pointer; a metre of the grid is not
    # quite one on the ground
    assert made.shape.distance(Point(5, 12)) < 0.005
    assert made.basis.method is Method.TAPED


def test_alt_keeps_a_side_square_and_leaves_the_menus_alone(
    qtbot: QtBot, window: PlanWindow, canvas: Canvas
) -> None:
    draw(window.session, fence.KIND)
    click(qtbot, canvas, 2, 5)
    qtbot.keyClick(canvas, Qt.Key.Key_Alt)
    assert window.menuBar().activeAction() is None
    click(qtbot, canvas, 9, 5.6, FREE | Qt.KeyboardModifier.AltModifier)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    (e0, n0), (e1, n1) = one(window, fence.KIND).shape.coords
    assert hypot(e1 - e0, n1 - n0) == pytest.approx(7.0, abs=0.3)
    assert n1 == n0
