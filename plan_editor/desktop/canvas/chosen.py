"""What is chosen, painted by its own kind: a tint in opaque colour and a bold outline."""

from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import QLineF, QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from plan_editor.desktop.canvas.paths import path_of, segments_of
from plan_editor.desktop.canvas.pieces import pieces
from plan_editor.desktop.canvas.runs import joined
from plan_editor.desktop.canvas.sight import OUTLINES_FROM, Sight
from plan_editor.desktop.canvas.style import blended
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look

TINT = 0.3
"""So much moss over the ground, inside."""

RING_PX = 16
"""Across the ring about a point."""


class Highlight:
    """The chosen items of one kind, made ready when they are first painted."""

    def __init__(self, kind: Kind) -> None:
        self._kind = kind
        self._ready = False
        self._areas = QPainterPath()
        self._segments: list[QLineF] = []
        self._solids = QPainterPath()
        self._thin = QPainterPath()
        self._places: list[list[float]] = []

    def forget(self) -> None:
        """Make it ready anew before it is painted again."""
        self._ready = False

    def paint(self, painter: QPainter, sight: Sight) -> None:
        """Paint it; the painter draws metres, north up."""
        if not sight.chosen:
            return
        if not self._ready:
            self._make([i for i in map(sight.plan.items.get, sight.chosen) if i is not None])
        if self._kind.form is Form.RECTANGLE:
            _tint(painter, self._areas, sight)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        pen = QPen(QColor(sight.palette.moss), sight.bold)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.drawLines(self._segments)
        painter.fillPath(self._solids, pen.color())
        pen.setWidthF(1.0)
        painter.strokePath(self._thin, pen)
        radius = RING_PX / 2 / sight.scale
        for east, north in self._places:
            painter.drawEllipse(QPointF(east, north), radius, radius)

    def _make(self, chosen: Iterable[Item[Any]]) -> None:
        mine = [i for i in chosen if i.kind == self._kind and i.shape is not None]
        groups: dict[Look, list[Item[Any]]] = {}
        for item in mine:
            groups.setdefault(self._kind.look_of(item.details), []).append(item)
        made = [pieces(self._kind, look, items) for look, items in groups.items()]
        plain = pieces(self._kind, Look(), mine)
        self._areas = path_of(plain.areas)
        self._segments = segments_of(plain.outline)
        self._solids = path_of(joined(m.solids for m in made))
        self._thin = path_of(joined(m.thin for m in made))
        self._places = plain.points.tolist()
        self._ready = True


def _tint(painter: QPainter, areas: QPainterPath, sight: Sight) -> None:
    moss, ground = QColor(sight.palette.moss), QColor(sight.palette.ground)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(moss if sight.scale < OUTLINES_FROM else blended(moss, ground, TINT))
    painter.drawPath(areas)
