"""Real clicks, keys and wheel turns on the ground."""

from collections.abc import Iterator
from math import hypot
from pathlib import Path

import numpy as np
import pytest
from grounds import under
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shapely import LineString, Polygon, box

from plan_editor.desktop.canvas.base_plan_item import Under
from plan_editor.desktop.canvas.furniture import LONGEST_PX, bar_length
from plan_editor.desktop.canvas.palette import LIGHT
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tools import draw, measure, reshape, select
from plan_editor.drawing.backdrop import LineWork
from plan_editor.edits.basic import Add, Remove
from plan_editor.edits.places import Move
from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Straight
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.base_plans import Laid
from plan_editor.kinds import base_plan, boundary, grave, wall
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.session import Session
from plan_editor.survey.grids.grid import Grid

LEFT, MIDDLE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton
NONE = Qt.KeyboardModifier.NoModifier
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier

ONE = new_item(grave.KIND, Rectangle(east=0, north=0, width=1.2, length=2.4), number="C 14")
TWO = new_item(grave.KIND, Rectangle(east=5, north=0, width=1.2, length=2.4), number="C 15")
WALL = new_item(wall.KIND, LineString([(-3, -3), (9, -3)]), number="W 3")
YARD = new_item(boundary.KIND, Polygon([(-4, -4), (10, -4), (10, 6), (-4, 6)]))


@pytest.fixture
def session() -> Session:
    plan = plan_of(
        [ONE, TWO, WALL, YARD], grid=Grid(crs="EPSG:27700", east=553100, north=421000)
    )
    return Session(Document(plan), first=select.TOOL)


@pytest.fixture
def canvas(qtbot: QtBot, session: Session) -> Iterator[Canvas]:
    canvas = Canvas(session, LIGHT)
    qtbot.addWidget(canvas)
    canvas.resize(900, 700)
    with qtbot.waitExposed(canvas):
        canvas.show()
    return canvas


def at(canvas: Canvas, east: float, north: float) -> QPoint:
    return canvas.mapFromScene(QPointF(east, north))


def hover(
    canvas: Canvas, place: QPoint, held: Qt.MouseButton = Qt.MouseButton.NoButton
) -> None:
    # sent by hand: the library's own move is none where the cursor stands there already
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(place),
        QPointF(canvas.viewport().mapToGlobal(place)),
        Qt.MouseButton.NoButton,
        held,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(canvas.viewport(), event)


def click(qtbot: QtBot, canvas: Canvas, east: float, north: float, keys=NONE):
    hover(canvas, at(canvas, east, north))
    qtbot.mouseClick(canvas.viewport(), LEFT, keys, at(canvas, east, north))


def drag(qtbot: QtBot, canvas: Canvas, start, end, button=LEFT):
    view = canvas.viewport()
    qtbot.mousePress(view, button, pos=at(canvas, *start))
    halfway = tuple((a + b) / 2 for a, b in zip(start, end, strict=True))
    first, last = at(canvas, *halfway), at(canvas, *end)
    for place in (first, last):
        hover(canvas, place, button)
    qtbot.mouseRelease(view, button, pos=last)


def graves(session: Session):
    return list(session.document.plan.of(grave.KIND))


def test_a_click_chooses_and_shift_adds(qtbot: QtBot, canvas: Canvas, session: Session):
    click(qtbot, canvas, 1.2, 0.6)
    assert session.chosen == (ONE.id,)
    click(qtbot, canvas, 6.2, 0.6, SHIFT)
    assert session.chosen == (ONE.id, TWO.id)
    click(qtbot, canvas, 6.2, 0.6, SHIFT)
    assert session.chosen == (ONE.id,)
    click(qtbot, canvas, 4.0, 3.0)
    assert session.chosen == (YARD.id,)


def test_a_box_chooses_what_lies_in_it_and_not_the_ground_about_it(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    drag(qtbot, canvas, (-1.0, 2.0), (8.0, -1.0))
    assert set(session.chosen) == {ONE.id, TWO.id}
    drag(qtbot, canvas, (-1.0, 2.0), (6.0, -1.0))
    assert set(session.chosen) == {ONE.id}


def test_a_box_chooses_neither_what_is_hidden_nor_the_paper_beneath(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    paper = new_item(base_plan.KIND, box(-10, -10, 20, 20))
    session.apply(Add((paper,)))
    session.choose(())
    canvas.show_kinds({"grave", "wall", "base_plan"})
    drag(qtbot, canvas, (-3.5, -3.5), (9.5, 5))
    assert set(session.chosen) == {ONE.id, TWO.id, WALL.id}


def test_what_is_hidden_is_not_clicked(qtbot: QtBot, canvas: Canvas, session: Session):
    canvas.show_kinds({"boundary"})
    click(qtbot, canvas, 1.2, 0.6)
    assert session.chosen == (YARD.id,)


def test_dragging_moves_what_is_chosen_in_one_step(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    click(qtbot, canvas, 1.2, 0.6)
    drag(qtbot, canvas, (1.2, 0.6), (1.2, 2.6))
    moved = session.document.plan.items[ONE.id].rectangle
    one_px = 1.5 / canvas._sight.scale
    assert moved.north == pytest.approx(2.0, abs=2 * one_px)
    assert session.document.undo_title == "Move grave C 14"
    session.document.undo()
    assert session.document.plan.items[ONE.id] == ONE


def test_what_the_pointer_has_caught_is_told(qtbot: QtBot, canvas: Canvas):
    with qtbot.waitSignal(canvas.pointer_moved) as told:
        hover(canvas, at(canvas, 0.0, 1.2) + QPoint(3, 2))
    coordinates, words = told.args
    assert words == "on a corner of Grave C 14"
    assert coordinates == "E 553\u202f100.00  N 421\u202f001.20"


def test_nothing_is_caught_where_what_was_caught_is_gone(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    told = []
    canvas.pointer_moved.connect(lambda _, words: told.append(words))
    hover(canvas, at(canvas, 9, -3))
    assert told[-1] == "on a corner of Wall W 3"
    session.apply(Remove(ids=(WALL.id,), called="Wall W 3"))
    assert told[-1] == ""
    assert canvas._layers.preview._caught is None
    session.document.undo()
    assert told[-1] == "on a corner of Wall W 3"


def test_ctrl_suspends_catching(qtbot: QtBot, canvas: Canvas):
    place = at(canvas, 0.0, 1.2) + QPoint(3, 2)
    seen: list[str] = []
    canvas.pointer_moved.connect(lambda _, words: seen.append(words))
    qtbot.mousePress(canvas.viewport(), LEFT, CTRL, place)
    qtbot.mouseRelease(canvas.viewport(), LEFT, CTRL, place)
    assert seen == ["", ""]


def test_lines_of_a_base_plan_are_caught(qtbot: QtBot, canvas: Canvas):
    laid = Laid(
        item=ItemId("1" * 32),
        name="survey",
        is_scan=False,
        digest="",
        mapping=Straight((1.0, 0.0, 0.0, 0.0, 1.0, 0.0)),
        opacity=1.0,
        shown=True,
        reproducible=False,
        acknowledgement="",
    )
    canvas.set_backdrops(
        [Under(laid=laid, content=LineWork(lines=(np.array([(3.0, 3.0), (3.0, 5.0)]),)))]
    )
    with qtbot.waitSignal(canvas.pointer_moved) as told:
        hover(canvas, at(canvas, 3.0, 3.0) + QPoint(2, 2))
    assert told.args[1] == "on a corner of the base plan"


def test_a_place_in_line_with_graves_is_caught_while_something_is_drawn(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    place = at(canvas, 0.0, 3.0) + QPoint(4, 0)
    with qtbot.waitSignal(canvas.pointer_moved) as told:
        hover(canvas, place)
    assert told.args[1] == ""  # nobody chooses a grave by the line it stands in
    session.take_up(draw.TOOL, grave.KIND)
    with qtbot.waitSignal(canvas.pointer_moved) as told:
        hover(canvas, place)
    assert told.args[1] == "in line with the head of Grave C 14"
    assert canvas._hand.place.east == pytest.approx(0.0, abs=1e-9)
    assert canvas._glass.caught.accessibleName() == told.args[1]
    with qtbot.waitSignal(canvas.pointer_moved) as told:
        hover(canvas, at(canvas, 3.5, 4.5))
    assert not canvas._glass.caught.isVisible()


def test_what_is_caught_is_said_beside_the_pointer_and_within_the_view(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    session.take_up(draw.TOOL, wall.KIND)
    for east in (-4.0, 10.0):
        for north in (-4.0, 6.0):
            hover(canvas, at(canvas, east, north))
            said = canvas._glass.caught
            assert said.isVisible()
            assert canvas.viewport().rect().contains(said.geometry())
            assert not said.geometry().contains(at(canvas, east, north))


def test_an_inked_line_of_a_scan_is_caught_while_something_is_drawn(
    qtbot: QtBot, canvas: Canvas, session: Session, tmp_path: Path
):
    scan = under(tmp_path, metres=200.0)
    canvas.set_backdrops([scan])
    session.take_up(draw.TOOL, wall.KIND)
    seen: list[str] = []
    canvas.pointer_moved.connect(lambda _, words: seen.append(words))
    for step in range(120):
        hover(canvas, at(canvas, -1.0 + step * 0.05, 1.6 + step * 0.02))
    assert any(words.startswith("on an inked line of") for words in seen)
    seen.clear()
    session.put_down()
    for step in range(120):
        hover(canvas, at(canvas, -1.0 + step * 0.05, 1.6 + step * 0.02))
    assert not any("inked" in words for words in seen)


def test_a_grave_is_drawn_by_two_clicks_and_a_typed_length(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    session.take_up(draw.TOOL, grave.KIND)
    click(qtbot, canvas, 0.0, 3.0)
    canvas.typed("4'", "0")
    hover(canvas, at(canvas, 2.0, 3.5))
    with qtbot.waitSignal(canvas.typing_begun) as begun:
        qtbot.keyClick(canvas, "9")
    assert begun.args == ["9"]
    canvas.typed("9'", "")
    new = graves(session)[-1].rectangle
    # 4 ft by 9 ft, the usual plot: 1.2192 by 2.7432 m (Weights and Measures Act 1985)
    assert (new.width, new.length) == pytest.approx((1.2192, 2.7432), abs=1e-4)
    assert new.facing_deg == pytest.approx(90.0, abs=0.1)
    assert session.document.undo_title == "Add a grave"
    assert session.chosen == (graves(session)[-1].id,)


def test_nothing_can_be_typed_before_something_is_begun(canvas: Canvas):
    with pytest.raises(CannotUse, match="nothing to measure from"):
        canvas.typed("2", "90")


def test_a_wall_ends_with_a_double_click_and_escape_drops_one(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    session.take_up(draw.TOOL, wall.KIND)
    click(qtbot, canvas, -2.0, 4.0)
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert session.document.undo_title is None
    click(qtbot, canvas, -2.0, 4.0)
    click(qtbot, canvas, 4.0, 4.0)
    qtbot.keyClick(canvas, Qt.Key.Key_Backspace)
    click(qtbot, canvas, 1.4, 3.0)
    qtbot.mouseDClick(canvas.viewport(), LEFT, pos=at(canvas, 1.4, 3.0))
    new = list(session.document.plan.of(wall.KIND))[-1]
    assert new.shape.length == pytest.approx(hypot(3.4, 1.0), abs=0.2)
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert session.button is select.TOOL


def test_enter_finishes_and_delete_takes_a_corner_out(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    session.choose([YARD.id])
    session.take_up(reshape.TOOL)
    qtbot.mousePress(canvas.viewport(), LEFT, pos=at(canvas, 10, 6))
    qtbot.mouseRelease(canvas.viewport(), LEFT, pos=at(canvas, 10, 6))
    qtbot.keyClick(canvas, Qt.Key.Key_Delete)
    assert session.document.plan.items[YARD.id].shape.area == pytest.approx(70.0)
    session.take_up(measure.TOOL)
    click(qtbot, canvas, 0, 0)
    click(qtbot, canvas, 0, 1.2)
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    assert session.answer.figures[0].startswith("1.20 m")


def test_handles_follow_an_undo_made_elsewhere(qtbot: QtBot, canvas: Canvas, session: Session):
    session.choose([ONE.id])
    session.take_up(reshape.TOOL)
    drag(qtbot, canvas, (2.4, 0.6), (3.4, 0.6))
    assert session.document.plan.items[ONE.id].rectangle.length > 3
    session.document.undo()
    shown = [s.coords[0] for s in session.answer.preview if s.geom_type == "Point"]
    assert (2.4, 1.2) in shown


# moving about


def wheel(canvas: Canvas, place: QPoint, notches: float) -> None:
    there = QPointF(canvas.viewport().mapToGlobal(place))
    event = QWheelEvent(
        QPointF(place),
        there,
        QPoint(),
        QPoint(0, round(120 * notches)),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,  # Qt takes it by its place only
    )
    QApplication.sendEvent(canvas.viewport(), event)


@pytest.mark.parametrize("notches", [1, -1, 3])
def test_the_wheel_zooms_at_the_pointer(canvas: Canvas, notches: float):
    place = QPoint(200, 150)
    before, scale = canvas.mapToScene(place), canvas._sight.scale
    wheel(canvas, place, notches)
    after = canvas.mapToScene(place)
    assert canvas._sight.scale == pytest.approx(scale * 1.25**notches)
    off = hypot(after.x() - before.x(), after.y() - before.y())
    assert off * canvas._sight.scale <= 1.5


def test_the_scale_is_told_as_on_paper(qtbot: QtBot, canvas: Canvas):
    with qtbot.waitSignal(canvas.scale_changed) as told:
        canvas.zoom(2.0)
    # 96 pixels to the inch: at 1:200 a metre is 5 mm, 18.9 pixels
    number = 96 / 0.0254 / canvas._sight.scale
    assert float(told.args[0].removeprefix("1:").replace("\u202f", "")) == pytest.approx(
        number, rel=0.01
    )


def test_the_middle_button_and_space_draw_the_ground_along(qtbot: QtBot, canvas: Canvas):
    canvas.zoom(2.0)
    place = at(canvas, 3.0, 1.0)
    drag(qtbot, canvas, (3.0, 1.0), (5.0, 2.0), MIDDLE)
    grabbed = canvas.mapFromScene(QPointF(3.0, 1.0))
    assert grabbed != place
    before = canvas.horizontalScrollBar().value()
    qtbot.keyPress(canvas, Qt.Key.Key_Space)
    drag(qtbot, canvas, (3.0, 1.0), (5.0, 1.0))
    qtbot.keyRelease(canvas, Qt.Key.Key_Space)
    assert canvas.horizontalScrollBar().value() < before


def test_other_buttons_do_nothing_on_the_ground(qtbot: QtBot, canvas: Canvas, session: Session):
    session.take_up(draw.TOOL, wall.KIND)
    begun = session.answer
    place = at(canvas, 3.0, 3.0)
    qtbot.mouseClick(canvas.viewport(), Qt.MouseButton.RightButton, pos=place)
    qtbot.mouseDClick(canvas.viewport(), Qt.MouseButton.RightButton, pos=place)
    qtbot.keyClick(canvas, Qt.Key.Key_F9)
    wheel(canvas, place, 0)
    assert session.answer.tool == begun.tool


def test_keys_of_the_tool_go_before_shortcuts_of_the_window(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    def overrides(key: Qt.Key, text: str = "") -> bool:
        event = QKeyEvent(QEvent.Type.ShortcutOverride, key, NONE, text)
        event.ignore()
        QApplication.sendEvent(canvas, event)
        return event.isAccepted()

    assert overrides(Qt.Key.Key_Escape)
    assert not overrides(Qt.Key.Key_Delete)
    assert not overrides(Qt.Key.Key_7, "7")
    session.take_up(draw.TOOL, wall.KIND)
    click(qtbot, canvas, 3.0, 3.0)
    assert overrides(Qt.Key.Key_Delete)
    assert overrides(Qt.Key.Key_7, "7")
    assert not overrides(Qt.Key.Key_Z, "z")


def test_keys_pan_zoom_and_show_the_whole(qtbot: QtBot, canvas: Canvas):
    whole = canvas._sight.scale
    qtbot.keyClick(canvas, Qt.Key.Key_Plus)
    assert canvas._sight.scale == pytest.approx(1.25 * whole)
    qtbot.keyClick(canvas, Qt.Key.Key_Minus)
    across, down = canvas.horizontalScrollBar().value(), canvas.verticalScrollBar().value()
    qtbot.keyClick(canvas, Qt.Key.Key_Right)
    qtbot.keyClick(canvas, Qt.Key.Key_Down)
    assert canvas.horizontalScrollBar().value() > across
    assert canvas.verticalScrollBar().value() > down
    qtbot.keyClick(canvas, Qt.Key.Key_Home)
    assert canvas._sight.scale == pytest.approx(whole)


def test_an_item_is_gone_to(canvas: Canvas):
    canvas.go_to([TWO.id])
    middle = canvas.mapToScene(canvas.viewport().rect().center())
    assert (middle.x(), middle.y()) == pytest.approx((6.2, 0.6), abs=0.1)
    before = canvas._sight.scale
    canvas.go_to([])
    assert canvas._sight.scale == before


def test_a_window_that_grows_shows_the_whole_until_one_has_looked_closer(canvas: Canvas):
    whole = canvas._sight.scale
    canvas.resize(1200, 933)
    assert canvas._sight.scale > whole
    canvas.zoom(3.0)
    nearer = canvas._sight.scale
    canvas.resize(900, 700)
    assert canvas._sight.scale == nearer


def test_what_is_drawn_far_out_can_be_panned_to(canvas: Canvas, session: Session):
    before = canvas.sceneRect()
    session.document.apply(Move(ids=(TWO.id,), east=2000.0, north=0.0))
    assert canvas.sceneRect().right() > before.right() + 1500


def test_a_pointer_that_leaves_leaves_nothing_behind(qtbot: QtBot, canvas: Canvas):
    hover(canvas, at(canvas, 1.2, 0.6))
    assert "Grave C 14" in canvas._glass.prompt.accessibleName()
    QApplication.sendEvent(canvas, QEvent(QEvent.Type.Leave))
    assert "Grave" not in canvas._glass.prompt.accessibleName()


@pytest.mark.parametrize(
    ("scale", "metres"), [(20.0, 5.0), (1.0, 100.0), (75.0, 2.0), (0.3, 500.0)]
)
def test_the_scale_bar_is_a_round_length_that_fits(scale: float, metres: float):
    assert bar_length(scale) == metres
    assert bar_length(scale) * scale <= LONGEST_PX


def test_a_canvas_that_has_let_go_follows_no_longer(canvas: Canvas, session: Session):
    canvas.let_go()
    session.choose([ONE.id])
    assert canvas._sight.chosen == frozenset()
