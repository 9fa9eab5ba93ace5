"""A small picture of a sheet, drawn from its ink in the second process."""

import os
from functools import cache
from pathlib import Path
from typing import assert_never

import numpy as np
from PySide6.QtCore import QBuffer, QIODevice, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QGuiApplication,
    QImage,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
)

from plan_editor.commands.making import KeptIn, compose, sheet_named
from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Picture, Points, Stroke, Text
from plan_editor.printing.sheet import Asked, Page
from plan_editor.resources import resource
from plan_editor.storage.loading import read_plan

PAPER = "#FFFFFF"
FONT_PX = 100
"""Texts are measured and drawn at this size and scaled: small fonts would be rounded."""

LEAST_DASH = 0.05


def draw_sheet(plan_path: Path, name: str, asked: Asked, side: int) -> tuple[bytes, str]:
    """Return the first page of a sheet as PNG, and its paper, scale and pages in words.

    Args:
        plan_path: a plan's file or working copy.
        name: of the sheet.
        asked: what is asked of it.
        side: the longer side of the picture, in pixels.

    Raises:
        CannotPrint: it does not fit.
        FileProblem: the plan cannot be read.
    """
    printed = compose(read_plan(plan_path), KeptIn(plan_path), sheet_named(name), asked)
    pages = "1 page" if len(printed.pages) == 1 else f"{len(printed.pages)} pages"
    facts = f"{printed.paper.name}, 1:{printed.scale:g}, {pages}"
    return _png(draw_page(printed.pages[0], side)), facts


def draw_page(page: Page, side: int) -> QImage:
    """Return a page as a picture whose longer side has so many pixels."""
    _application()
    scale = side / max(page.width, page.height)
    image = QImage(
        max(round(page.width * scale), 1),
        max(round(page.height * scale), 1),
        QImage.Format.Format_RGB32,
    )
    image.fill(QColor(PAPER))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.translate(0, image.height())
    painter.scale(scale, -scale)
    pen = Brush(painter)
    for ink in page.ink:
        pen.draw(ink)
    painter.end()
    return image


class Brush:
    """Puts ink on a painter whose unit is a millimetre, y up."""

    def __init__(self, painter: QPainter) -> None:
        self._painter = painter

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
            case _:
                assert_never(ink)

    def _stroke(self, ink: Stroke) -> None:
        pen = QPen(QColor(ink.pen.colour), ink.pen.width)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        if ink.pen.dash:
            unit = max(ink.pen.width, LEAST_DASH)
            even = ink.pen.dash if len(ink.pen.dash) % 2 == 0 else ink.pen.dash * 2
            pen.setDashPattern([max(d / unit, LEAST_DASH) for d in even])
        self._painter.setPen(pen)
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        for line in ink.lines:
            if ink.closed:
                self._painter.drawPolygon(_polygon(line))
            else:
                self._painter.drawPolyline(_polygon(line))

    def _fill(self, ink: Fill) -> None:
        path = QPainterPath()
        path.setFillRule(Qt.FillRule.OddEvenFill)
        for ring in ink.rings:
            path.addPolygon(_polygon(ring))
            path.closeSubpath()
        self._painter.fillPath(path, QColor(ink.colour))

    def _text(self, ink: Text) -> None:
        font = _font(bold=ink.bold)
        wide = QFontMetricsF(font).horizontalAdvance(ink.text)
        left = {Anchor.LEFT: 0.0, Anchor.MIDDLE: -wide / 2, Anchor.RIGHT: -wide}[ink.anchor]
        path = QPainterPath()
        path.addText(QPointF(left, 0), font, ink.text)
        self._painter.save()
        self._painter.translate(ink.x, ink.y)
        self._painter.rotate(ink.turn_deg)
        size = ink.size / FONT_PX
        self._painter.scale(size, -size)
        if ink.halo:
            self._painter.strokePath(path, QPen(QColor(PAPER), 2 * ink.halo / size))
        self._painter.fillPath(path, QColor(ink.colour))
        self._painter.restore()

    def _picture(self, ink: Picture) -> None:
        pixels = np.ascontiguousarray(ink.pixels)
        high, wide = pixels.shape[:2]
        grey = pixels.ndim == 2
        form = QImage.Format.Format_Grayscale8 if grey else QImage.Format.Format_RGB888
        image = QImage(pixels.data, wide, high, pixels.strides[0], form)
        self._painter.save()
        self._painter.setOpacity(ink.opacity)
        self._painter.translate(ink.left, ink.top)
        self._painter.scale(1, -1)
        self._painter.drawImage(QRectF(0, 0, ink.right - ink.left, ink.top - ink.bottom), image)
        self._painter.restore()

    def _clipped(self, ink: Clipped) -> None:
        left, bottom, right, top = ink.box
        self._painter.save()
        self._painter.setClipRect(
            QRectF(left, bottom, right - left, top - bottom), Qt.ClipOperation.IntersectClip
        )
        for piece in ink.ink:
            self.draw(piece)
        self._painter.restore()


def _polygon(points: Points) -> QPolygonF:
    return QPolygonF([QPointF(x, y) for x, y in points.tolist()])


def _png(image: QImage) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]  # the stubs want bytes, Qt a str
    return bytes(buffer.data().data())


@cache
def _application() -> QGuiApplication:
    # the second process has no screen of its own, and needs none
    found = QGuiApplication.instance()
    if isinstance(found, QGuiApplication):
        return found
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    made = QGuiApplication([])
    for file in sorted(resource("fonts").glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(file))
    return made


@cache
def _font(*, bold: bool) -> QFont:
    font = QFont(["Source Sans 3", "DejaVu Sans Condensed"])
    font.setPixelSize(FONT_PX)
    font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    return font
