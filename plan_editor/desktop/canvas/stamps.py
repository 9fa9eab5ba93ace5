"""The symbols of ``resources/symbols`` as small pictures, by size and colour."""

from functools import cache, lru_cache

import numpy as np
from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen, QPixmap
from PySide6.QtSvg import QSvgRenderer

from plan_editor.desktop.canvas.paths import path_of
from plan_editor.desktop.canvas.runs import runs_of_arrays
from plan_editor.drawing.symbols import symbol
from plan_editor.resources import resource


@lru_cache(maxsize=400)
def stamp(name: str, colour: str, side: int, ratio: float) -> QPixmap:
    """Return a symbol drawn in one colour.

    Args:
        name: of the drawing, without suffix.
        colour: ``#rrggbb``; it takes the place of the drawing's black.
        side: of the square that it fills, in logical pixels.
        ratio: device pixels to a logical one.
    """
    drawing = _drawing(name).replace("#000", colour)
    picture = QPixmap(round(side * ratio), round(side * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    QSvgRenderer(QByteArray(drawing.encode())).render(painter, QRectF(0, 0, side, side))
    painter.end()
    return picture


@cache
def _drawing(name: str) -> str:
    return resource(f"symbols/{name}.svg").read_text(encoding="utf-8")


def draw_large(
    painter: QPainter,
    name: str,
    pen: QPen,
    place: tuple[float, float, float],
    turn_deg: float = 0.0,
) -> None:
    """Draw a symbol to scale, its lines no thicker for that.

    Args:
        painter: draws pixels, y down.
        name: of the drawing, without suffix.
        pen: for its lines; its solid parts have the pen's colour.
        place: where its middle is, x and y, and how large it is.
        turn_deg: by how much it is turned, clockwise.
    """
    x, y, size = place
    painter.save()
    painter.translate(x, y)
    painter.rotate(turn_deg)
    painter.scale(size, -size)
    solid, lines = _paths(name)
    painter.setPen(pen)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.fillPath(solid, pen.color())
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(lines)
    painter.restore()


@cache
def _paths(name: str) -> tuple[QPainterPath, QPainterPath]:
    drawn = symbol(name)
    closed = [np.vstack([ring, ring[:1]]) for ring in (*drawn.fills, *drawn.closed)]
    solid = path_of(runs_of_arrays(closed[: len(drawn.fills)]))
    return solid, path_of(runs_of_arrays([*closed[len(drawn.fills) :], *drawn.open]))
