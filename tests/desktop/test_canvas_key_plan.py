"""The key plan: seen when only a piece of the ground is, and gone to by a click."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot
from shapely import LineString, Point, Polygon

from plan_editor.desktop.canvas.key_plan import EDGE, KeyPlan
from plan_editor.desktop.canvas.palette import DARK, LIGHT
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tools import select
from plan_editor.edits.basic import Add, Remove
from plan_editor.edits.places import Move
from plan_editor.kinds import boundary, tree, wall
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.session import Session

LEFT = Qt.MouseButton.LeftButton
YARD = new_item(boundary.KIND, Polygon([(0, 0), (100, 0), (100, 80), (0, 80)]))
YEW = new_item(tree.KIND, Point(30, 30))


@pytest.fixture
def session() -> Session:
    return Session(Document(plan_of([YARD, YEW])), first=select.TOOL)


@pytest.fixture
def canvas(qtbot: QtBot, session: Session) -> Iterator[Canvas]:
    canvas = Canvas(session, LIGHT)
    qtbot.addWidget(canvas)
    canvas.resize(900, 700)
    with qtbot.waitExposed(canvas):
        canvas.show()
    return canvas


def key(canvas: Canvas) -> KeyPlan:
    return canvas._glass.key


def middle(canvas: Canvas) -> tuple[float, float]:
    seen = canvas.mapToScene(canvas.viewport().rect()).boundingRect().center()
    return seen.x(), seen.y()


def test_it_is_seen_while_a_piece_of_the_ground_is_looked_at(canvas: Canvas) -> None:
    canvas.whole()
    assert not key(canvas).isVisible()
    canvas.zoom(6.0)
    assert key(canvas).isVisible()
    canvas.show_key_plan(False)
    assert not key(canvas).isVisible()
    canvas.zoom(1.5)
    assert not key(canvas).isVisible()
    canvas.show_key_plan(True)
    assert key(canvas).isVisible()


def test_a_click_goes_there_and_a_drag_goes_along(qtbot: QtBot, canvas: Canvas) -> None:
    canvas.zoom(8.0)
    small = key(canvas)
    scale = (small.width() - 2 * EDGE) / 100.0
    qtbot.mouseClick(
        small, LEFT, pos=QPoint(round(EDGE + 80 * scale), round(EDGE + 20 * scale))
    )
    assert middle(canvas) == pytest.approx((80.0, 60.0), abs=1.5)
    assert canvas._session.chosen == ()  # the ground beneath took no click
    qtbot.mousePress(small, LEFT, pos=QPoint(EDGE, EDGE))
    qtbot.mouseMove(small, QPoint(round(EDGE + 50 * scale), round(EDGE + 40 * scale)))
    qtbot.mouseRelease(small, LEFT)
    qtbot.mouseClick(small, Qt.MouseButton.RightButton, pos=QPoint(EDGE, EDGE))
    assert middle(canvas) != pytest.approx((0.0, 80.0), abs=1.5)


def test_it_shows_what_is_large_and_follows_it(canvas: Canvas, session: Session) -> None:
    canvas.zoom(6.0)
    assert [s.geom_type for s in key(canvas)._shapes] == ["Polygon"]
    session.apply(Add((new_item(wall.KIND, LineString([(0, 40), (100, 40)])),)))
    assert len(key(canvas)._shapes) == 2
    before = key(canvas)._shapes
    session.apply(Move(ids=(YEW.id,), east=1.0, north=0.0))
    assert key(canvas)._shapes is before  # a tree is too small to be seen on it
    for colours in (LIGHT, DARK):
        canvas.set_palette(colours)
        assert not key(canvas).grab().isNull()


def test_an_empty_plan_has_none(qtbot: QtBot) -> None:
    session = Session(Document(Plan()), first=select.TOOL)
    canvas = Canvas(session, LIGHT)
    qtbot.addWidget(canvas)
    canvas.zoom(10.0)
    assert not key(canvas).isVisibleTo(canvas)
    session.apply(Add((YARD,)))
    canvas.zoom(10.0)
    assert key(canvas).isVisibleTo(canvas)
    session.apply(Remove(ids=(YARD.id,)))
    assert not key(canvas)._shapes
