"""A kind as a small picture: the pen, fill, hatch or symbol that it is drawn with."""

from PySide6.QtCore import QByteArray, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QIcon, QPainter, QPen, QPixmap
from PySide6.QtSvg import QSvgRenderer

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import INK, Look, Pen
from plan_editor.resources import resource

SIDE = 24
BLACK = "#000"
"""The colour of every line of a symbol."""

DOTS = 2
"""Drawn so many times larger, for sharp screens."""

PX_A_MM = 4.0
EDGE = 4


def swatch(kind: Kind, palette: Palette) -> QIcon:
    """Return a small picture of how a kind is drawn."""
    pixmap = QPixmap(SIDE * DOTS, SIDE * DOTS)
    pixmap.setDevicePixelRatio(DOTS)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _draw(painter, kind, palette)
    painter.end()
    return QIcon(pixmap)


def _draw(painter: QPainter, kind: Kind, palette: Palette) -> None:
    look = kind.look if kind.look.pen or kind.look.symbol else kind.looks[0].look
    match kind.form:
        case Form.POINT:
            _symbol(painter, look, palette)
        case Form.LINE:
            painter.setPen(_pen(look, palette))
            painter.drawLine(QPointF(EDGE, SIDE - 1.5 * EDGE), QPointF(SIDE - EDGE, 1.5 * EDGE))
        case Form.AREA | Form.RECTANGLE:
            _area(painter, look, palette, narrow=kind.form is Form.RECTANGLE)
        case Form.NONE:
            return


def _symbol(painter: QPainter, look: Look, palette: Palette) -> None:
    if not look.symbol:
        painter.setPen(_pen(look, palette))
        painter.drawEllipse(QPointF(SIDE / 2, SIDE / 2), 4, 4)
        return
    picture = resource(f"symbols/{look.symbol}.svg").read_text(encoding="utf-8")
    picture = picture.replace(BLACK, palette.ink)
    renderer = QSvgRenderer(QByteArray(picture.encode()))
    renderer.setAspectRatioMode(Qt.AspectRatioMode.KeepAspectRatio)
    renderer.render(painter, QRectF(EDGE / 2, EDGE / 2, SIDE - EDGE, SIDE - EDGE))


def _area(painter: QPainter, look: Look, palette: Palette, *, narrow: bool) -> None:
    painter.setPen(_pen(look, palette))
    fill = QColor(look.fill) if look.fill and not palette.dark else QColor(0, 0, 0, 0)
    if look.solid:
        fill = QColor(palette.ink)
    painter.setBrush(QBrush(fill))
    high = SIDE / 2 if narrow else SIDE - 2 * EDGE
    box = QRectF(EDGE / 2, (SIDE - high) / 2, SIDE - EDGE, high)
    painter.drawRect(box)
    if look.hatch is not None:
        painter.setPen(Qt.PenStyle.NoPen)
        colour = QColor(palette.soft if palette.dark else look.hatch.pen.colour)
        painter.setBrush(QBrush(colour, Qt.BrushStyle.BDiagPattern))
        painter.drawRect(box)
    if look.head_bar:
        painter.setPen(QPen(QColor(palette.ink), 2.0))
        painter.drawLine(box.topLeft(), box.bottomLeft())


def _pen(look: Look, palette: Palette) -> QPen:
    pen = look.pen or Pen()
    colour = palette.ink if pen.colour == INK or palette.dark or palette.strong else pen.colour
    made = QPen(QColor(colour), max(pen.width * PX_A_MM, 1.0))
    if pen.dash:
        made.setDashPattern([max(d * PX_A_MM / made.widthF() / 2, 0.5) for d in pen.dash])
    return made
