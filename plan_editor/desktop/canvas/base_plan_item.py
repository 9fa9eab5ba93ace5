"""Base plans under the ground: scans laid north up, and the lines of foreign drawings."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QImage, QPainter, QPainterPath, QPen, QPolygonF
from shapely.geometry.base import BaseGeometry
from typing_extensions import override

from plan_editor.desktop.canvas.chunks import SIDE
from plan_editor.desktop.canvas.over_all import OverAll
from plan_editor.desktop.canvas.paths import path_of
from plan_editor.desktop.canvas.runs import Points, runs_of_arrays
from plan_editor.desktop.canvas.sight import Sight, meet
from plan_editor.drawing.backdrop import LineWork
from plan_editor.drawing.foreign import lines_on_ground, texts_on_ground
from plan_editor.geometry.nearby import Box, BoxTable
from plan_editor.ground.base_plans import Laid
from plan_editor.scans.ink import REACH_PX, strokes
from plan_editor.scans.resampling import NorthUp
from plan_editor.scans.tiles import Level

SHARP_FROM = 3.0
"""A scan pixel drawn larger than this, in pixels of the screen, keeps its edges."""

LEAST_TEXT_PX, MOST_TEXT_PX = 5.0, 800.0
"""Texts of a drawing that are lower or higher than this on the screen are left out."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Under:
    """A base plan made ready for the canvas.

    Args:
        laid: where it lies, whether it is shown, how strongly.
        content: a scan laid north up in that place, or the lines of a drawing.
    """

    laid: Laid
    content: NorthUp | LineWork


class ScanItem(OverAll):
    """Paints a scan from the level of its pyramid that fits the scale; nothing is copied."""

    def __init__(self, under: Under, scan: NorthUp, sight: Sight) -> None:
        super().__init__()
        self._sight = sight
        self._scan = scan
        # the arrays are kept beside the pictures, which only look at their memory
        self._levels = [(level.scale, level, _picture(level)) for level in scan.pyramid.levels]
        self._paper = QPainterPath()
        self._paper.addPolygon(QPolygonF([QPointF(*corner) for corner in scan.outline]))
        self._paper.closeSubpath()
        self.called = under.laid.name or "the base plan"
        self.setOpacity(under.laid.opacity)

    def strokes_near(self, east: float, north: float, reach: float) -> list[shapely.LineString]:
        """Return the middle lines of what is inked near a place, all in metres."""
        metres = self._scan.metres_per_pixel
        fine = (found for found in self._levels if reach <= REACH_PX * metres * found[0])
        scale, level, _ = next(fine, self._levels[-1])
        side = metres * scale
        west, top = self._scan.west, self._scan.north
        place = (east - west) / side, (top - north) / side
        found = strokes(level.pixels, place, reach / side)
        ends = (((s.x0, s.y0), (s.x1, s.y1)) for s in found)
        return [
            shapely.LineString([(west + x * side, top - y * side) for x, y in e]) for e in ends
        ]

    @override
    def draw(self, painter: QPainter) -> None:
        scan_pixels = 1.0 / (self._scan.metres_per_pixel * self._sight.scale)
        place = self._scan.pyramid.level_for(scan_pixels / self._sight.ratio)
        scale, _, picture = self._levels[place]
        side = self._scan.metres_per_pixel * scale
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.setRenderHint(
            QPainter.RenderHint.SmoothPixmapTransform, side * self._sight.scale < SHARP_FROM
        )
        # all of it, cut off at what is exposed by Qt: parts of it would be sampled otherwise at
        # their edges, and where two of them met be painted twice
        target = QRectF(0.0, 0.0, picture.width() * side, picture.height() * side)
        painter.save()
        painter.setClipPath(self._paper, Qt.ClipOperation.IntersectClip)
        painter.translate(self._scan.west, self._scan.north)
        painter.scale(1.0, -1.0)  # rows run south; the view turns them over again
        if self._sight.palette.dark:
            _turn_over(painter, target)
        painter.drawImage(target, picture)
        if self._sight.palette.dark:
            _turn_over(painter, target)
        painter.restore()


def _turn_over(painter: QPainter, target: QRectF) -> None:
    """Exchange light and dark: at night an old plan is white ink on dark paper."""
    painter.save()
    painter.setOpacity(1.0)
    painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_Difference)
    painter.fillRect(target, Qt.GlobalColor.white)
    painter.restore()


def _picture(level: Level) -> QImage:
    rows, columns = level.pixels.shape[:2]
    colour = level.pixels.ndim == 3
    return QImage(
        level.pixels.data,
        columns,
        rows,
        columns * (3 if colour else 1),
        QImage.Format.Format_RGB888 if colour else QImage.Format.Format_Grayscale8,
    )


class DrawingItem(OverAll):
    """Paints the lines of a foreign drawing as hairlines, square by square of ground."""

    def __init__(self, under: Under, work: LineWork, sight: Sight) -> None:
        super().__init__()
        self._sight = sight
        told = texts_on_ground(work.texts, under.laid.mapping)
        self._texts, self._turns = told.texts, told.turns_deg
        self._places, self._heights = told.places, told.heights
        self._longs = self._heights * np.array([len(text) for text in told.texts])
        lines = lines_on_ground(work, under.laid.mapping)
        self._lines = [shapely.LineString(line) for line in lines]
        self._boxes: BoxTable[int] = BoxTable()
        bounds = shapely.bounds(self._lines).reshape(-1, 4)
        self._boxes.put_many(range(len(lines)), bounds)
        self._paths = tuple(_by_square(lines, bounds))
        self.setOpacity(under.laid.opacity)

    def near(self, east: float, north: float, reach: float) -> list[BaseGeometry]:
        """Return the lines near a place: what is traced is caught by the pointer."""
        return [self._lines[i] for i in self._boxes.near(east, north, reach)]

    @override
    def draw(self, painter: QPainter) -> None:
        pen = QPen(QColor(self._sight.palette.slate), 1.0)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        exposed = self._sight.grown(2.0)
        for box, path in self._paths:
            if any(meet(box, seen) for seen in exposed):
                painter.drawPath(path)
        self._write(painter)

    def _write(self, painter: QPainter) -> None:
        pixels = self._heights * self._sight.scale
        wanted = (pixels >= LEAST_TEXT_PX) & (pixels <= MOST_TEXT_PX) & self._exposed()
        rows = np.flatnonzero(wanted)
        painter.save()
        painter.resetTransform()
        for i, place in zip(rows.tolist(), self._sight.pixels(self._places[rows]), strict=True):
            here = (place[0], place[1])
            _write(painter, self._texts[i], here, float(pixels[i]), float(self._turns[i]))
        painter.restore()

    def _exposed(self) -> NDArray[np.bool_]:
        """Return which texts may reach into what is exposed."""
        found = np.zeros(len(self._texts), dtype=bool)
        east, north = self._places.T
        for w, s, e, n in self._sight.exposed:
            found |= (
                (east >= w - self._longs)
                & (east <= e + self._longs)
                & (north >= s - self._longs)
                & (north <= n + self._longs)
            )
        return found


def _write(
    painter: QPainter, text: str, place: tuple[int, int], pixels: float, turn_deg: float
) -> None:
    font = QFont()
    font.setPixelSize(round(pixels))
    painter.save()
    painter.setFont(font)
    painter.translate(*place)
    painter.rotate(-turn_deg)
    painter.drawText(0, 0, text)
    painter.restore()


def _by_square(lines: tuple[Points, ...], bounds: Points) -> Iterator[tuple[Box, QPainterPath]]:
    middles = np.floor((bounds[:, :2] + bounds[:, 2:]) / 2 / SIDE)
    squares, owners = np.unique(middles, axis=0, return_inverse=True)
    for square in range(len(squares)):
        mine = np.flatnonzero(owners == square)
        low, high = bounds[mine, :2].min(axis=0), bounds[mine, 2:].max(axis=0)
        yield (*low.tolist(), *high.tolist()), path_of(runs_of_arrays(lines[i] for i in mine))
