"""The symbols of ``resources/symbols`` as small pictures, by size and colour."""

from functools import cache, lru_cache

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

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
