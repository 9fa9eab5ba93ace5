"""Ink on a painter: a sheet on the screen, before it is printed."""

from collections.abc import Iterable

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QImage,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
)

from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Picture, Points, Stroke, Text
from plan_editor.plan.look import Pen

FAMILIES = ["Source Sans 3", "DejaVu Sans Condensed"]

EM_PX = 100
"""Text is laid out at this size and then scaled: its widths do not depend on the zoom."""

PAPER = "#FFFFFF"


class InkPainter:
    """Draws ink in millimetres, x right and y up from the bottom left of the paper."""

    def __init__(self, painter: QPainter, *, px_per_mm: float, height_mm: float) -> None:
        """Draw with a painter whose origin is the top left of the paper.

        Args:
            painter: draws pixels, y down.
            px_per_mm: how large.
            height_mm: of the paper.
        """
        self._painter = painter
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.translate(0.0, height_mm * px_per_mm)
        painter.scale(px_per_mm, -px_per_mm)

    def draw(self, ink: Ink) -> None:
        """Draw one piece of ink over what is there."""
        match ink:
            case Stroke():
                self._stroke(ink)
            case Fill():
                self._fill(ink)
            case Text():
                self._text(ink)
            case Picture():
                self._picture(ink)
            case Clipped():
                self._clipped(ink)

    def _stroke(self, ink: Stroke) -> None:
        self._painter.setPen(_pen(ink.pen))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        for line in ink.lines:
            if ink.closed:
                self._painter.drawPolygon(_polygon(line))
            else:
                self._painter.drawPolyline(_polygon(line))

    def _fill(self, ink: Fill) -> None:
        path = QPainterPath()  # filled by the even-odd rule, as a new path is
        for ring in ink.rings:
            path.addPolygon(_polygon(ring))
            path.closeSubpath()
        self._painter.fillPath(path, QColor(ink.colour))

    def _text(self, ink: Text) -> None:
        font = QFont(FAMILIES)
        font.setPixelSize(EM_PX)
        font.setWeight(QFont.Weight.DemiBold if ink.bold else QFont.Weight.Normal)
        long = QFontMetricsF(font).horizontalAdvance(ink.text)
        shift = {Anchor.LEFT: 0.0, Anchor.MIDDLE: -long / 2, Anchor.RIGHT: -long}[ink.anchor]
        path = QPainterPath()
        path.addText(QPointF(shift, 0.0), font, ink.text)
        painter = self._painter
        painter.save()
        painter.translate(ink.x, ink.y)
        painter.rotate(ink.turn_deg)
        painter.scale(ink.size / EM_PX, -ink.size / EM_PX)
        if ink.halo:
            pen = QPen(QColor(PAPER), 2 * ink.halo * EM_PX / ink.size)
            pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
            painter.strokePath(path, pen)
        painter.fillPath(path, QColor(ink.colour))
        painter.restore()

    def _picture(self, ink: Picture) -> None:
        pixels = np.ascontiguousarray(ink.pixels)
        rows, columns = pixels.shape[:2]
        colour = pixels.ndim == 3
        sort = QImage.Format.Format_RGB888 if colour else QImage.Format.Format_Grayscale8
        image = QImage(pixels.data, columns, rows, pixels.strides[0], sort)
        painter = self._painter
        painter.save()
        painter.setOpacity(ink.opacity)
        painter.translate(ink.left, ink.top)
        painter.scale(1.0, -1.0)
        painter.drawImage(QRectF(0.0, 0.0, ink.right - ink.left, ink.top - ink.bottom), image)
        painter.restore()

    def _clipped(self, ink: Clipped) -> None:
        left, bottom, right, top = ink.box
        self._painter.save()
        box = QRectF(left, bottom, right - left, top - bottom)
        self._painter.setClipRect(box, Qt.ClipOperation.IntersectClip)
        self.draw_all(ink.ink)
        self._painter.restore()

    def draw_all(self, inks: Iterable[Ink]) -> None:
        """Draw pieces of ink, one over the other."""
        for ink in inks:
            self.draw(ink)


def _pen(pen: Pen) -> QPen:
    made = QPen(QColor(pen.colour), pen.width)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if pen.dash:
        dash = pen.dash if len(pen.dash) % 2 == 0 else pen.dash * 2
        made.setDashPattern([length / pen.width for length in dash])
    return made


def _polygon(points: Points) -> QPolygonF:
    return QPolygonF([QPointF(x, y) for x, y in points.tolist()])
