"""The key plan: the whole ground, small, and the piece of it that is seen; a click goes on."""

from collections.abc import Iterable, Sequence
from math import hypot

import shapely
from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QWidget
from shapely.geometry.base import BaseGeometry
from typing_extensions import override

from plan_editor.desktop.canvas.furniture import PLATE
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.canvas.paths import path_of
from plan_editor.desktop.canvas.runs import runs_of
from plan_editor.geometry.nearby import Box
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

SIDE = 168
"""Of the square that it may fill, in logical pixels."""

EDGE = 8

LARGE = 0.06
"""What is so large, as a share of the whole ground across, is drawn on it."""

WHOLE = 0.7
"""Where so much of the ground is seen, across or down, there is no need of it."""


class KeyPlan(QWidget):
    """``gone_to`` tells where on the ground was clicked, east and north in metres."""

    gone_to = Signal(float, float)

    def __init__(self, parent: QWidget, palette: Palette) -> None:
        super().__init__(parent)
        self._colours = palette
        self._ground: Box | None = None
        self._shapes: tuple[BaseGeometry, ...] = ()
        self._seen: Box = (0.0, 0.0, 0.0, 0.0)
        self._kept: QPixmap | None = None
        self.wanted = True
        self.setAccessibleName("Key plan: the piece of the ground that is seen")
        self.setToolTip("Click where to look")
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.hide()

    def set_palette(self, palette: Palette) -> None:
        """Change colours."""
        self._colours = palette
        self._kept = None
        self.update()

    def take_in(self, plan: Plan) -> None:
        """Take in a plan; its ground is all that is drawn on it, base plans left out."""
        self._kept = None
        items = [i for i in plan.items.values() if i.shape is not None and not i.kind.pinned]
        self._ground = _bounds(items)
        self._shapes = tuple(
            i.shape for i in items if i.shape is not None and self._is_large(i)
        )
        if self._ground is not None:
            west, south, east, north = self._ground
            scale = self._scale()
            size = (round(span * scale) + 2 * EDGE for span in (east - west, north - south))
            self.resize(*size)
        self.update()

    def concerns(self, changes: Iterable[Change]) -> bool:
        """Return whether changes may have altered what it shows."""
        sides = [i for c in changes for i in (c.before, c.after) if i is not None]
        return any(self._is_large(i) or self._is_beyond(i) for i in sides)

    def look(self, seen: Box) -> None:
        """Show which piece of the ground is seen, in metres."""
        if seen != self._seen:
            self._seen = seen
            self.update()
        self.setVisible(self.wanted and self._ground is not None and self._is_piece())

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self._kept is None:
            self._kept = self._drawn()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.drawPixmap(0, 0, self._kept)
        moss = QColor(self._colours.moss)
        painter.setPen(QPen(moss, 2.0))
        west, south, east, north = self._seen
        seen = QRectF(self._at(west, north), self._at(east, south))
        room = QRectF(self.rect()).adjusted(1.0, 1.0, -1.0, -1.0)
        painter.drawRect(seen.intersected(room))
        painter.end()

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._go(event)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._go(event)

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        event.accept()  # or the ground beneath would take it

    def _go(self, event: QMouseEvent) -> None:
        event.accept()
        if self._ground is not None and event.buttons() & Qt.MouseButton.LeftButton:
            scale = self._scale()
            at = event.position()
            west, north = self._ground[0], self._ground[3]
            self.gone_to.emit(west + (at.x() - EDGE) / scale, north - (at.y() - EDGE) / scale)

    def _is_large(self, item: Item) -> bool:
        """Return whether something is large enough to be seen here."""
        if item.shape is None or item.kind.pinned or self._ground is None:
            return False
        west, south, east, north = self._ground
        w, s, e, n = item.shape.bounds
        return hypot(e - w, n - s) >= LARGE * hypot(east - west, north - south)

    def _is_beyond(self, item: Item) -> bool:
        """Return whether something lies at the edge of the ground or past it."""
        if item.shape is None or item.kind.pinned or self._ground is None:
            return self._ground is None
        west, south, east, north = self._ground
        w, s, e, n = item.shape.bounds
        return w <= west or s <= south or e >= east or n >= north

    def _is_piece(self) -> bool:
        if self._ground is None:
            return False
        west, south, east, north = self._seen
        wide, high = self._ground[2] - self._ground[0], self._ground[3] - self._ground[1]
        return east - west < WHOLE * wide or north - south < WHOLE * high

    def _scale(self) -> float:
        if self._ground is None:
            return 1.0
        wide, high = self._ground[2] - self._ground[0], self._ground[3] - self._ground[1]
        return (SIDE - 2 * EDGE) / max(wide, high, 1.0)

    def _at(self, east: float, north: float) -> QPointF:
        west, top = (0.0, 0.0) if self._ground is None else (self._ground[0], self._ground[3])
        scale = self._scale()
        return QPointF(EDGE + (east - west) * scale, EDGE + (top - north) * scale)

    def _drawn(self) -> QPixmap:
        ratio = self.devicePixelRatioF()
        picture = QPixmap(self.size() * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        plate = QColor(self._colours.ground)
        plate.setAlphaF(PLATE)
        painter.setPen(QPen(QColor(self._colours.line), 1.0))
        painter.setBrush(plate)
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
        self._draw_shapes(painter, self._shapes)
        painter.end()
        return picture

    def _draw_shapes(self, painter: QPainter, shapes: Sequence[BaseGeometry]) -> None:
        corner, scale = self._at(0.0, 0.0), self._scale()
        painter.translate(corner)
        painter.scale(scale, -scale)
        pen = QPen(QColor(self._colours.soft), 1.0)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path_of(runs_of(list(shapes))))


def _bounds(items: Sequence[Item]) -> Box | None:
    if not items:
        return None
    west, south, east, north = shapely.total_bounds([i.shape for i in items]).tolist()
    return west, south, east, north
