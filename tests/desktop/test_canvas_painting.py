"""What is seen on the ground: parts painted alone are what a whole painting is."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import shapely
from grounds import churchyard, under
from numpy.typing import NDArray
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shapely import LineString, Point, Polygon

from plan_editor.desktop.canvas.base_plan_item import Under
from plan_editor.desktop.canvas.palette import DARK, LIGHT
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.desktop.canvas.zones_item import Shown
from plan_editor.drafting.tools import select
from plan_editor.drawing.backdrop import Lettering, LineWork
from plan_editor.edits.basic import Remove, Renumber, SetStatus
from plan_editor.edits.places import Move
from plan_editor.geometry.mappings import Straight
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.base_plans import Laid
from plan_editor.kinds import building, grave, mark, memorial, service, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId, Status, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.scans.resampling import NorthUp
from plan_editor.session import Session

Pixels = NDArray[np.int64]


@pytest.fixture
def session() -> Session:
    extra = [
        new_item(mark.KIND, Point(4, 4), number="M 1"),
        new_item(service.KIND, LineString([(-4, 6), (30, 9)])),
        new_item(
            building.KIND,
            Polygon([(0, 8), (12, 8), (12, 14), (0, 14)]),
            details=building.BuildingDetails(name="Hall"),
        ),
        new_item(tree.KIND, Point(14, -6), details=tree.TreeDetails(stems_mm=(400.0,))),
    ]
    items = [*churchyard(300).items.values(), *extra]
    return Session(Document(plan_of(items)), first=select.TOOL)


@pytest.fixture
def canvas(qtbot: QtBot, session: Session) -> Iterator[Canvas]:
    return shown(qtbot, session)


def shown(qtbot: QtBot, session: Session, size: tuple[int, int] = (700, 500)) -> Canvas:
    canvas = Canvas(session, LIGHT)
    qtbot.addWidget(canvas)
    canvas.resize(*size)
    with qtbot.waitExposed(canvas):
        canvas.show()
    QApplication.processEvents()
    return canvas


def pixels(image: QImage) -> Pixels:
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    wide = image.bytesPerLine() // 4
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), wide, 4)
    return rows[:, : image.width(), 2::-1].astype(np.int64)


def difference(canvas: Canvas) -> int:
    """Return the greatest difference between what is on the screen and a whole painting."""
    QApplication.processEvents()
    QApplication.processEvents()
    seen = pixels(canvas.screen().grabWindow(canvas.winId()).toImage())
    return int(np.abs(seen - pixels(canvas.grab().toImage())).max())


def colour_at(canvas: Canvas, east: float, north: float) -> QColor:
    QApplication.processEvents()
    at = canvas.viewport().mapTo(canvas, canvas.mapFromScene(east, north))
    return canvas.grab().toImage().pixelColor(at)


def scaled(canvas: Canvas, scale: float) -> None:
    canvas.whole()
    canvas.zoom(scale / canvas._sight.scale)


@pytest.mark.parametrize("scale", [2.5, 8.0, 14.0, 40.0])
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_strips_and_edits_painted_alone_look_like_the_whole(
    canvas: Canvas, session: Session, tmp_path: Path, scale: float, palette
):
    canvas.set_palette(palette)
    canvas.set_backdrops([under(tmp_path, metres=60, width=2000, height=1400)])
    graves = list(session.document.plan.of(grave.KIND))
    zone = shapely.buffer(graves[20].shape, 2.0)
    canvas.set_zones([Shown(shape=zone, label="C 21")])
    scaled(canvas, scale)
    assert difference(canvas) == 0
    # 4 of 255: the scan is sampled a hair otherwise where Qt cuts it off
    for by in (QPoint(13, 0), QPoint(0, -17), QPoint(-40, 25)):
        canvas._navigation.pan(by)
        assert difference(canvas) <= 4
    tall = next(session.document.plan.of(tree.KIND))
    session.document.apply(Move(ids=(graves[150].id,), east=0.7, north=0.4))
    assert difference(canvas) <= 4
    session.document.apply(Renumber(id=graves[151].id, number="a long number"))
    session.document.apply(Move(ids=(tall.id,), east=3.0, north=1.0))
    assert difference(canvas) <= 4
    session.choose([graves[150].id, tall.id])
    assert difference(canvas) <= 4
    session.document.undo()
    assert difference(canvas) <= 4


def test_thousands_of_repaints_are_survived(qtbot: QtBot, session: Session):
    # 6.12.0 of the library loses a reference at each call and dies after some thousands
    canvas = shown(qtbot, session, (160, 120))
    scaled(canvas, 12.0)
    for i in range(3000):
        canvas._navigation.pan(QPoint(5 if i % 2 else -5, 0))
        canvas.viewport().repaint(0, 0, 40, 40)
    assert canvas._sight.scale == pytest.approx(12.0)


def test_a_fault_in_one_layer_is_reported_once_and_the_rest_is_painted(
    qtbot: QtBot, canvas: Canvas, session: Session
):
    stone = next(session.document.plan.of(memorial.KIND))
    canvas.go_to([stone.id])
    canvas._layers._kinds["grave"]._near.clear()
    canvas._sight.plan = plan_of([stone])  # graves that are still expected are not there
    with qtbot.captureExceptions() as caught:
        canvas.viewport().repaint()
        canvas.viewport().repaint()
    assert len(caught) == 2  # what draws graves, and what writes their numbers
    assert colour_at(canvas, *stone.shape.centroid.coords[0]).lightness() < 80


def test_kinds_can_be_hidden(canvas: Canvas, session: Session):
    stone = next(session.document.plan.of(memorial.KIND))
    middle = stone.shape.centroid
    canvas.go_to([stone.id])
    assert colour_at(canvas, middle.x, middle.y).lightness() < 80
    canvas.show_kinds({"grave"})
    assert colour_at(canvas, middle.x, middle.y).lightness() > 200
    canvas.show_kinds(None)
    assert colour_at(canvas, middle.x, middle.y).lightness() < 80


def test_at_night_ink_is_light_on_dark_ground(canvas: Canvas, session: Session):
    stone = next(session.document.plan.of(memorial.KIND))
    canvas.go_to([stone.id])
    canvas.set_palette(DARK)
    assert colour_at(canvas, *stone.shape.centroid.coords[0]).lightness() > 180
    assert colour_at(canvas, stone.shape.bounds[0] - 1, 0.5).lightness() < 60


def test_what_is_chosen_is_tinted_at_every_scale(canvas: Canvas, session: Session):
    one = list(session.document.plan.of(grave.KIND))[100]
    middle = one.shape.centroid
    session.choose([one.id])
    for scale in (2.0, 6.0, 40.0):
        canvas.go_to([one.id])
        canvas.zoom(scale / canvas._sight.scale)
        found = colour_at(canvas, middle.x + 0.3, middle.y)
        assert found.green() > found.red() + 5
    session.choose([])
    found = colour_at(canvas, middle.x + 0.3, middle.y)
    assert found.green() <= found.red() + 5


def test_a_point_that_is_chosen_is_ringed(canvas: Canvas, session: Session):
    one = next(session.document.plan.of(mark.KIND))
    session.choose([one.id])
    canvas.go_to([one.id])
    east, north = one.shape.coords[0]
    ring = colour_at(canvas, east + 8.0 / canvas._sight.scale, north)
    assert ring.green() > ring.red()


def test_proposed_and_doomed_things_have_colours_and_dashes_of_their_own(
    canvas: Canvas, session: Session
):
    one = next(session.document.plan.of(grave.KIND))
    canvas.go_to([one.id])
    before = pixels(canvas.grab().toImage())
    for status in (Status.PROPOSED, Status.TO_BE_REMOVED):
        session.document.apply(SetStatus(ids=(one.id,), status=status))
        QApplication.processEvents()
        after = pixels(canvas.grab().toImage())
        assert (np.abs(after - before).max(axis=2) > 30).any()
        before = after


def test_items_come_and_go_with_the_plan(canvas: Canvas, session: Session):
    stone = next(session.document.plan.of(memorial.KIND))
    middle = stone.shape.centroid
    canvas.go_to([stone.id])
    session.document.apply(Move(ids=(stone.id,), east=0.0, north=30.0))
    assert colour_at(canvas, middle.x, middle.y).lightness() > 150
    session.document.undo()
    assert colour_at(canvas, middle.x, middle.y).lightness() < 80
    session.document.apply(Remove(ids=(stone.id,)))
    assert colour_at(canvas, middle.x, middle.y).lightness() > 150


def test_a_stem_is_drawn_as_thick_as_it_is(qtbot: QtBot):
    details = tree.TreeDetails(stems_mm=(1500.0,))
    plan = plan_of([new_item(tree.KIND, Point(0, 0), details=details)])
    canvas = shown(qtbot, Session(Document(plan), first=select.TOOL))
    scaled(canvas, 40.0)
    canvas.centerOn(0.0, 0.0)
    QApplication.processEvents()
    row = pixels(canvas.viewport().grab().toImage())[canvas.viewport().height() // 2]
    assert (row.sum(axis=1) < 450).sum() / 40.0 == pytest.approx(1.5, abs=0.1)


# base plans


def test_a_scan_lies_where_its_fit_says(canvas: Canvas, tmp_path: Path):
    lies = under(tmp_path, metres=60, width=600, height=400)
    canvas.show_kinds(())
    canvas.set_backdrops([lies])
    content = lies.content
    side = 60 / 600
    (level, *_) = content.pyramid.levels
    canvas.go([(-5.0, -3.0, -1.0, 5.0)])
    for column, row in ((0, 0), (3, 5), (20, 33), (40, 2)):
        wanted = int(level.pixels[row, column])
        found = colour_at(canvas, -5 + (column + 0.5) * side, 5 - (row + 0.5) * side)
        assert found.red() == pytest.approx(wanted, abs=40)
    assert colour_at(canvas, -5.2, 5.2).name() == LIGHT.ground.lower()


def laid(**changed) -> Laid:
    told = {
        "item": ItemId("1" * 32),
        "name": "survey",
        "is_scan": False,
        "digest": "",
        "mapping": Straight(
            (0.0, -2.0, 10.0, 2.0, 0.0, 20.0)
        ),  # turned by 90° and twice as large
        "opacity": 1.0,
        "shown": True,
        "reproducible": False,
        "acknowledgement": "",
    }
    return Laid(**(told | changed))


def test_beside_a_turned_scan_the_ground_is_seen(canvas: Canvas, tmp_path: Path):
    scan = under(tmp_path, metres=60.0, width=600, height=600)
    assert isinstance(scan.content, NorthUp)
    diamond = ((25.0, 5.0), (55.0, -25.0), (25.0, -55.0), (-5.0, -25.0))
    turned = replace(scan, content=replace(scan.content, outline=diamond))
    canvas.show_kinds(())
    canvas.set_backdrops([turned])
    canvas.go_to(canvas._session.document.plan.items)
    seen = canvas.grab().toImage()

    def colour(east: float, north: float) -> QColor:
        return seen.pixelColor(canvas.mapFromScene(east, north))

    assert colour(0.0, 0.0) == QColor(LIGHT.ground)
    assert colour(25.0, -25.0) != QColor(LIGHT.ground)


def test_the_lines_of_a_drawing_lie_where_its_fit_says(qtbot: QtBot):
    work = LineWork(
        lines=(np.array([(0.0, 0.0), (5.0, 0.0)]), np.array([(9.0, 9.0)])),
        texts=(Lettering(text="HEDGE", x=0.0, y=0.0, height=1.0),),
    )
    canvas = shown(qtbot, Session(Document(Plan()), first=select.TOOL))
    canvas.set_backdrops([Under(laid=laid(), content=work)])
    canvas.go([(5.0, 18.0, 15.0, 32.0)])
    QApplication.processEvents()
    dark = np.argwhere(pixels(canvas.grab().toImage()).sum(axis=2) < 600)
    assert len(dark)
    assert colour_at(canvas, 10.0, 25.0).lightness() < 200
    assert colour_at(canvas, 12.0, 25.0).name() == LIGHT.ground.lower()
    (line,) = canvas._layers.beneath((10.05, 25.0), 0.1, inked=True).drawn
    assert line.equals(LineString([(10, 20), (10, 30)]))


def test_a_drawing_without_lines_is_nothing(canvas: Canvas):
    before = pixels(canvas.grab().toImage())
    canvas.set_backdrops([Under(laid=laid(), content=LineWork(lines=()))])
    canvas.set_backdrops([])
    assert (pixels(canvas.grab().toImage()) == before).all()


def test_a_base_plan_that_is_switched_off_is_not_drawn(canvas: Canvas, tmp_path: Path):
    canvas.set_backdrops([Under(laid=laid(shown=False), content=LineWork(lines=()))])
    assert not canvas._sight.over_base_plan
    canvas.set_backdrops([under(tmp_path, metres=60, width=600, height=400)])
    assert canvas._sight.over_base_plan
    canvas.set_backdrops([])
    assert not canvas._sight.over_base_plan


def test_a_rectangle_seen_from_afar_is_still_seen(qtbot: QtBot):
    lies = Rectangle(east=0, north=0, width=3, length=6)
    plan = plan_of([new_item(grave.KIND, lies)])
    canvas = shown(qtbot, Session(Document(plan), first=select.TOOL))
    canvas.zoom(2.0 / canvas._sight.scale)
    away = colour_at(canvas, 3.0, 1.5)
    assert away.lightness() < QColor(LIGHT.ground).lightness() - 20
