"""What is sketched over the ground: lines with arrow heads, and dots with their names."""

from math import hypot

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen
from typing_extensions import override

from plan_editor.desktop.canvas.labels import LABEL_PX
from plan_editor.desktop.canvas.over_all import OverAll
from plan_editor.desktop.canvas.sight import Sight, meet
from plan_editor.desktop.canvas.sketch_names import Named, placed_names
from plan_editor.desktop.canvas.sketch_style import MANNERS, colour, halo, pen
from plan_editor.drawing.sketch import Sketch, SketchDot, SketchLine
from plan_editor.geometry.nearby import Box

HEAD_PX, HEAD_HALF_PX = 10.0, 4.0
"""How long an arrow head is, and half of how wide."""

DOT_PX = 8.0
"""The side of the square of a dot."""

REACH_PX = 8.0
"""Lines and dots reach so far past their places."""

NAMES_FROM = 2.0
"""Dots are named from so many pixels to a metre."""


class SketchItem(OverAll):
    """Paints lines and dots, over all but what is in hand."""

    def __init__(self, sight: Sight) -> None:
        super().__init__()
        self._sight = sight
        self._lines: tuple[tuple[Box, SketchLine], ...] = ()
        self._dots: tuple[SketchDot, ...] = ()
        self._names: tuple[float, tuple[Named, ...]] = (0.0, ())
        self.setZValue(950.0)

    def show_sketch(self, sketch: Sketch) -> None:
        """Show this instead of that before."""
        self._lines = tuple((_box(line), line) for line in sketch.lines if len(line.points) > 1)
        self._dots = sketch.dots
        self._names = (0.0, ())

    @override
    def draw(self, painter: QPainter) -> None:
        painter.resetTransform()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        seen = self._sight.grown(REACH_PX + HEAD_PX)
        for box, line in self._lines:
            if any(meet(box, exposed) for exposed in seen):
                self._paint_line(painter, line)
        for dot in self._dots:
            at = (dot.east, dot.north, dot.east, dot.north)
            if any(meet(at, exposed) for exposed in seen):
                self._paint_dot(painter, dot)
        if self._sight.scale >= NAMES_FROM:
            self._write(painter)

    def _paint_line(self, painter: QPainter, line: SketchLine) -> None:
        palette = self._sight.palette
        places = [QPointF(x, y) for x, y in self._sight.pixels(line.points)]
        head = _head(places) if line.arrow else None
        if head is not None:
            places[-1] = (head[1] + head[2]) / 2  # or a thick line would blunt the tip
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for one in (halo(line.tone, palette), pen(line.tone, palette)):
            painter.setPen(one)
            painter.drawPolyline(places)
        if head is not None:
            painter.setPen(QPen(halo(line.tone, palette).color(), 1.0))
            painter.setBrush(colour(line.tone, palette))
            painter.drawPolygon(head)

    def _paint_dot(self, painter: QPainter, dot: SketchDot) -> None:
        palette = self._sight.palette
        x, y = self._sight.pixels_of(dot.east, dot.north)
        half = DOT_PX / 2
        square = QRectF(x - half, y - half, DOT_PX, DOT_PX)
        painter.setBrush(QColor(palette.ground))
        painter.setPen(QPen(colour(dot.tone, palette), 1.5))
        painter.drawRect(square)
        strokes = (
            QLineF(square.bottomLeft(), square.topRight()),
            QLineF(square.topLeft(), square.bottomRight()),
        )
        painter.drawLines(strokes[: MANNERS[dot.tone].strokes])

    def _write(self, painter: QPainter) -> None:
        font = painter.font()
        font.setPixelSize(LABEL_PX)
        painter.setFont(font)
        if self._names[0] != self._sight.scale:
            measured = QFontMetrics(font)
            found = placed_names(self._dots, self._sight.scale, measured.horizontalAdvance)
            self._names = (self._sight.scale, found)
        x0, y0 = self._sight.origin
        plate = QColor(self._sight.palette.ground)
        plate.setAlphaF(0.8)
        for named in self._names[1]:
            box = QRectF(named.left + x0, named.top + y0, named.wide, named.high)
            painter.fillRect(box, plate)
            painter.setPen(colour(named.tone, self._sight.palette))
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, named.text)


def _head(places: list[QPointF]) -> list[QPointF] | None:
    """Return an arrow head at the end of a line, its tip first; None of no length."""
    tip = places[-1]
    # a bend at the very end must not turn the head round
    back = next((p for p in reversed(places) if _apart(p, tip) >= HEAD_PX), places[0])
    long = _apart(back, tip)
    if long == 0.0:
        return None
    along = (tip - back) / long
    across = QPointF(-along.y(), along.x())
    foot = tip - along * min(HEAD_PX, long)
    return [tip, foot + across * HEAD_HALF_PX, foot - across * HEAD_HALF_PX]


def _apart(one: QPointF, other: QPointF) -> float:
    return hypot(one.x() - other.x(), one.y() - other.y())


def _box(line: SketchLine) -> Box:
    west, south = line.points.min(axis=0).tolist()
    east, north = line.points.max(axis=0).tolist()
    return west, south, east, north
