"""What is in hand: the tool's preview, its handles, the mark where the pointer has caught."""

import shapely
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from shapely.geometry.base import BaseGeometry
from typing_extensions import override

from plan_editor.desktop.canvas.over_all import OverAll
from plan_editor.desktop.canvas.paths import path_of, segments_of
from plan_editor.desktop.canvas.runs import runs_of
from plan_editor.desktop.canvas.sight import Sight
from plan_editor.geometry.nearby import Box

HANDLE_PX = 8.0
"""Side of the open square at a corner; what can become a corner is half as large."""

CATCH_PX = 12.0
"""Across the ring where the pointer has caught."""

MANY = 400
"""A preview of more straight pieces than this is drawn in hairlines."""

AREA_TINT = 0.16


class Preview(OverAll):
    """Draws what the tool in hand shows over the plan.

    Points are open squares: corners that can be taken hold of. Several points in one shape are
    dots: places where there could be one. What is shown lightly is drawn in thin dashes.
    """

    def __init__(self, sight: Sight) -> None:
        super().__init__()
        self._sight = sight
        self._shapes: tuple[BaseGeometry, ...] = ()
        self._lightly: tuple[BaseGeometry, ...] = ()
        self._caught: tuple[float, float] | None = None
        self.setZValue(1_000.0)

    def show_shapes(
        self, shapes: tuple[BaseGeometry, ...], lightly: tuple[BaseGeometry, ...] = ()
    ) -> tuple[Box, ...]:
        """Show these instead of those before; return the boxes in metres that have changed."""
        before, self._shapes = self._shapes, tuple(s for s in shapes if not s.is_empty)
        changed = () if before == self._shapes else (*before, *self._shapes)
        light_before, self._lightly = self._lightly, lightly
        if light_before is not lightly and light_before != lightly:
            changed = (*changed, *light_before, *lightly)
        return tuple(s.bounds for s in changed)

    def catch(self, place: tuple[float, float] | None) -> tuple[Box, ...]:
        """Mark where the pointer has caught; return the boxes in metres that have changed."""
        before, self._caught = self._caught, place
        if before == place:
            return ()
        return tuple((*p, *p) for p in (before, place) if p is not None)

    @override
    def draw(self, painter: QPainter) -> None:
        if self._lightly:
            self._paint_lightly(painter)
        if self._shapes:
            self._paint_shapes(painter)
        if self._caught is not None:
            self._paint_catch(painter, self._caught)

    def _paint_shapes(self, painter: QPainter) -> None:
        moss = QColor(self._sight.palette.moss)
        runs = runs_of([s for s in self._shapes if shapely.get_dimensions(s) > 0])
        tint = QColor(moss)
        tint.setAlphaF(AREA_TINT)
        areas = runs_of([s for s in self._shapes if shapely.get_dimensions(s) == 2])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.fillPath(path_of(areas), tint)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        pen = QPen(moss, self._sight.bold if len(runs.points) < MANY else 1.0)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.drawLines(segments_of(runs))
        self._paint_handles(painter, moss)

    def _paint_lightly(self, painter: QPainter) -> None:
        pen = QPen(QColor(self._sight.palette.moss), 1.0, Qt.PenStyle.DashLine)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.drawLines(segments_of(runs_of(list(self._lightly))))

    def _paint_handles(self, painter: QPainter, moss: QColor) -> None:
        pen = QPen(moss, 0.75 * self._sight.bold)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setBrush(QColor(self._sight.palette.ground))
        for shape in self._shapes:
            if shapely.get_dimensions(shape) == 0:
                side = HANDLE_PX if shape.geom_type == "Point" else HANDLE_PX / 2
                half = side / 2 / self._sight.scale
                for east, north in shapely.get_coordinates(shape).tolist():
                    painter.drawRect(QRectF(east - half, north - half, 2 * half, 2 * half))

    def _paint_catch(self, painter: QPainter, caught: tuple[float, float]) -> None:
        pen = QPen(QColor(self._sight.palette.slate), self._sight.bold)
        pen.setCosmetic(True)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        radius = CATCH_PX / 2 / self._sight.scale
        painter.drawEllipse(QPointF(*caught), radius, radius)
