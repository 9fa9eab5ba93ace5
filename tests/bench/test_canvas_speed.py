"""The canvas beside the bare painter: the same paths and the same level of the scan."""

import gc
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import median, quantiles
from time import perf_counter

import pytest
from grounds import churchyard, under
from PySide6.QtCore import QPoint, QPointF, QRect, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPainterPath, QPen, QTransform
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from plan_editor.desktop.canvas.base_plan_item import ScanItem
from plan_editor.desktop.canvas.palette import LIGHT
from plan_editor.desktop.canvas.sight import MARKS_FROM, OUTLINES_FROM
from plan_editor.desktop.canvas.style import hatching, style
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tool import Act
from plan_editor.drafting.tools import select
from plan_editor.edits.places import Move
from plan_editor.kinds import grave
from plan_editor.plan.document import Document
from plan_editor.plan.item import Status
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan
from plan_editor.session import Session

pytestmark = pytest.mark.bench

SIZE = (1600, 900)
THOROUGH = os.environ.get("HYPOTHESIS_PROFILE") == "thorough"
STEPS = 200 if THOROUGH else 40
SIZES = (10_000, 50_000) if THOROUGH else (10_000,)
GROWTH = (1_000, 10_000, 50_000) if THOROUGH else (1_000, 10_000)


@dataclass(frozen=True)
class Ground:
    """A canvas with everything on: graves, lines, trees, stones, hatched grass, a scan."""

    canvas: Canvas
    session: Session
    extent: tuple[float, float, float, float]


def make(qtbot: QtBot, shelf: Path, plan: Plan) -> Ground:
    session = Session(Document(plan), first=select.TOOL)
    canvas = Canvas(session, LIGHT)
    qtbot.addWidget(canvas)
    canvas.resize(*SIZE)
    extent = session.document.index.boxes.extent()
    assert extent is not None
    canvas.set_backdrops([under(shelf, metres=extent[2] - extent[0])])
    with qtbot.waitExposed(canvas):
        canvas.show()
    return Ground(canvas, session, extent)


def steps(canvas: Canvas, count: int) -> Iterator[None]:
    """Zoom in from the whole ground to some fifty graves and out again, panning on the way."""
    canvas.whole()
    half = count // 2
    factor = (75.0 / canvas._sight.scale) ** (2 / half)
    for i in range(count):
        if i % 2 == 0:
            canvas.zoom(factor if i < half else 1 / factor)
        else:
            across, down = canvas.horizontalScrollBar(), canvas.verticalScrollBar()
            way = 1 if i % 4 == 1 else -1
            across.setValue(across.value() + 160 * way)
            down.setValue(down.value() + 90 * way)
        yield


Op = tuple[bool, QPen | None, QBrush | QColor | None, list]


def prepared(canvas: Canvas) -> tuple[QTransform, list[Op], Callable[[QPainter], None]]:
    """Return what the canvas draws now, as bare calls: paths, lines and the scan's level."""
    sight = canvas._sight
    canvas._navigation.look()
    sight.exposed = canvas._navigation.boxes((QRect(0, 0, *_seen(canvas)),))
    ops: list[Op] = []
    for item in sorted(canvas._layers._kinds.values(), key=lambda i: i.zValue()):
        small = item.kind.form is Form.RECTANGLE
        near = sight.scale >= MARKS_FROM or not small
        for (look_number, status), ready in sorted(item._ready().items()):
            look = item._looks[look_number]
            dressed = style(look, list(Status)[status], LIGHT)
            areas = [d.areas for d in ready if d.areas is not None]
            if small and sight.scale < OUTLINES_FROM:
                ops.append((False, None, dressed.far, areas))
                continue
            if dressed.fill is not None:
                ops.append((False, None, dressed.fill, areas))
            if dressed.hatch is not None:
                brush = hatching(dressed.hatch, LIGHT, scale=sight.scale, ratio=1.0)
                ops.append((False, None, brush, areas))
            if near or look.solid:
                solids = [d.solids for d in ready if d.solids is not None]
                ops.append((False, None, dressed.solid, solids))
            lines = [d.segments or (d.dashes if near else d.outline) for d in ready]
            ops.append((True, dressed.pen, None, [line for line in lines if line]))
            if near:
                ops.append((True, dressed.edge, None, [d.solids for d in ready if d.solids]))
                ops.append((True, dressed.thin, None, [d.thin for d in ready if d.thin]))
    return canvas.viewportTransform(), ops, _scan(canvas)


def _seen(canvas: Canvas) -> tuple[int, int]:
    return canvas.viewport().width(), canvas.viewport().height()


def _scan(canvas: Canvas) -> Callable[[QPainter], None]:
    (scan,) = canvas._layers._under
    assert isinstance(scan, ScanItem)
    return lambda painter: scan.paint(painter, None)  # type: ignore[arg-type]  # not looked at


def bare(
    image: QImage, transform: QTransform, ops: list[Op], scan: Callable[[QPainter], None]
) -> None:
    painter = QPainter(image)
    painter.fillRect(image.rect(), QColor(LIGHT.ground))
    painter.setTransform(transform)
    scan(painter)
    for smooth, pen, brush, things in ops:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, smooth)
        painter.setPen(pen if pen is not None else Qt.PenStyle.NoPen)
        painter.setBrush(brush if brush is not None else Qt.BrushStyle.NoBrush)
        for thing in things:
            if isinstance(thing, QPainterPath):
                painter.drawPath(thing)
            else:
                painter.drawLines(thing)
    painter.end()


def timed(work: Callable[[], object], times: int = 1) -> float:
    """Return the shortest of some runs, in milliseconds."""
    found = []
    for _ in range(times):
        start = perf_counter()
        work()
        found.append((perf_counter() - start) * 1000)
    return min(found)


def _told(figures: list[float], places: int = 1) -> str:
    """Return the median, and what 95 of a hundred do not exceed."""
    most = quantiles(figures, n=20)[-1]
    return f"{median(figures):.{places}f} (95 %: {most:.{places}f})"


@pytest.mark.parametrize("graves", SIZES)
def test_a_full_redraw_beside_the_bare_painter(
    qtbot: QtBot, tmp_path: Path, capsys: pytest.CaptureFixture[str], graves: int
) -> None:
    ground = make(qtbot, tmp_path, churchyard(graves))
    canvas = ground.canvas
    image = QImage(*_seen(canvas), QImage.Format.Format_RGB32)
    for _ in steps(canvas, STEPS):  # everything is made ready once
        canvas.viewport().repaint()
    gc.collect()
    ours, theirs = [], []
    for _ in steps(canvas, STEPS):
        transform, ops, scan = prepared(canvas)
        theirs.append(timed(lambda: bare(image, transform, ops, scan), 2))  # noqa: B023
        ours.append(timed(canvas.viewport().repaint, 2))
    ratios = [a / b for a, b in zip(ours, theirs, strict=True)]
    with capsys.disabled():
        print(  # noqa: T201
            f"\n{graves} graves, {STEPS} steps: full redraw {_told(ours)} ms,"
            f" bare painter {_told(theirs)} ms, {median(ours) / median(theirs):.2f} times;"
            f" step by step {_told(ratios, 2)} times"
        )
    assert len(ours) == STEPS


@pytest.mark.parametrize("graves", GROWTH)
def test_small_things_do_not_grow_with_the_plan(
    qtbot: QtBot, tmp_path: Path, capsys: pytest.CaptureFixture[str], graves: int
) -> None:
    plan = churchyard(graves)
    opened = perf_counter()
    ground = make(qtbot, tmp_path, plan)
    ground.canvas.viewport().repaint()
    opened = (perf_counter() - opened) * 1000
    canvas, session = ground.canvas, ground.session
    first = next(session.document.plan.of(grave.KIND))
    canvas.go_to([first.id])
    canvas.zoom(16.0 / canvas._sight.scale)
    canvas.viewport().repaint()
    at = canvas.mapFromScene(QPointF(2.0, 0.6))
    edit = Move(ids=(first.id,), east=0.01, north=0.0)
    figures = {
        "one change": timed(lambda: _changed(canvas, session, edit), 20),
        "of that the document": timed(lambda: session.document.apply(edit), 20),
        "hover with snap": timed(lambda: _hovered(qtbot, canvas, at), 20),
        "click": timed(lambda: _clicked(canvas, at), 20),
        "pan step": timed(lambda: _panned(canvas), 20),
        "full redraw": timed(canvas.viewport().repaint, 5),
    }
    with capsys.disabled():
        told = ", ".join(f"{what} {ms:.2f} ms" for what, ms in figures.items())
        print(f"\n{graves} graves: opened in {opened:.0f} ms; {told}")  # noqa: T201
    assert session.document.plan.count(grave.KIND) == graves


def _changed(canvas: Canvas, session: Session, edit: Move) -> None:
    session.document.apply(edit)
    QApplication.processEvents()


def _hovered(qtbot: QtBot, canvas: Canvas, at: QPoint) -> None:
    qtbot.mouseMove(canvas.viewport(), at)
    canvas._hand.point(*canvas._navigation.ground(QPointF(at)), catching=True)
    canvas._hand.act(Act.MOVE)
    QApplication.processEvents()


def _clicked(canvas: Canvas, at: QPoint) -> None:
    canvas._hand.point(*canvas._navigation.ground(QPointF(at)), catching=True)
    canvas._hand.act(Act.PRESS)
    canvas._hand.act(Act.RELEASE)


def _panned(canvas: Canvas) -> None:
    across = canvas.horizontalScrollBar()
    across.setValue(across.value() + 12)
    QApplication.processEvents()
