"""What stands on the glass and not on the ground: scale bar, north point, the tool's prompt."""

from math import floor, log10

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.desktop.canvas.palette import Palette

MARGIN = 12
"""From the edges of the ground, in logical pixels."""

LONGEST_PX = 160.0
"""The scale bar is at most so long."""

BESIDE = (14, 16)
"""What the pointer has caught is said so far right of it and below, in logical pixels."""

BAR = (240, 44)
"""Width and height of the whole piece, in logical pixels."""

WRAPPED = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap

NEAR = 48
"""Nearer than this to the pointer the prompt would cover what is drawn, in logical pixels."""

MOST_ACROSS = 0.6
"""The prompt takes at most so much of the width of the ground, and more lines instead."""

BETWEEN = "  ·  "
"""What stands between the words of a prompt and the figures that go with it."""

PLATE = 0.88
"""How much of the ground the plate under it covers."""


def bar_length(scale: float) -> float:
    """Return the length in metres of a scale bar: 1, 2 or 5 with noughts, as long as fits.

    Args:
        scale: pixels to a metre.
    """
    most = LONGEST_PX / scale
    ten = 10.0 ** floor(log10(most))
    return next(n * ten for n in (5, 2, 1) if n * ten <= most)


class Glass(QWidget):
    """Something small on the glass, drawn once and kept: the ground moves beneath it."""

    def __init__(self, parent: QWidget, palette: Palette) -> None:
        super().__init__(parent)
        self.colours = palette
        self._kept: QPixmap | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def set_palette(self, palette: Palette) -> None:
        """Change colours."""
        self.colours = palette
        self.redraw()

    def redraw(self) -> None:
        """Draw it anew when it is next seen."""
        self._kept = None
        self.update()

    def draw(self, painter: QPainter) -> None:
        """Draw what is on it; the plate under it is drawn already."""

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self._kept is None:
            self._kept = self._drawn()
        QPainter(self).drawPixmap(0, 0, self._kept)

    def _drawn(self) -> QPixmap:
        ratio = self.devicePixelRatioF()
        picture = QPixmap(self.size() * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self.font())
        plate = QColor(self.colours.ground)
        plate.setAlphaF(PLATE)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(plate)
        painter.drawRoundedRect(QRectF(self.rect()), 4, 4)
        self.draw(painter)
        painter.end()
        return picture


class Furniture(Glass):
    """Scale bar and north point, at the lower left."""

    def __init__(self, parent: QWidget, palette: Palette) -> None:
        super().__init__(parent, palette)
        self._scale = 1.0
        self.setAccessibleName("Scale bar and north point")
        self.resize(*BAR)

    def set_scale(self, scale: float) -> None:
        """Show another scale, in pixels to a metre."""
        if scale != self._scale:
            self._scale = scale
            self.redraw()

    @override
    def draw(self, painter: QPainter) -> None:
        self._draw_bar(painter)
        self._draw_north(painter)

    def _draw_bar(self, painter: QPainter) -> None:
        ink = QColor(self.colours.ink)
        metres = bar_length(self._scale)
        left, base, long = 10.0, 34.0, metres * self._scale
        painter.setPen(QPen(ink, 1.0))
        painter.drawLine(QPointF(left, base), QPointF(left + long, base))
        for part in range(6):
            x = left + long * part / 5
            up = 8.0 if part in {0, 5} else 5.0
            painter.drawLine(QPointF(x, base), QPointF(x, base - up))
        painter.fillRect(QRectF(left, base - 3, long / 5, 3), ink)
        painter.fillRect(QRectF(left + 2 * long / 5, base - 3, long / 5, 3), ink)
        painter.fillRect(QRectF(left + 4 * long / 5, base - 3, long / 5, 3), ink)
        font = painter.font()
        font.setPixelSize(12)
        painter.setFont(font)
        painter.drawText(QPointF(left - 3, base - 12), "0")
        painter.drawText(QPointF(left + long - 8, base - 12), f"{metres:g} m")

    def _draw_north(self, painter: QPainter) -> None:
        ink = QColor(self.colours.ink)
        x, top, bottom = BAR[0] - 18.0, 6.0, 38.0
        painter.setPen(QPen(ink, 1.2))
        painter.drawLine(QPointF(x, bottom), QPointF(x, top + 6))
        painter.setBrush(ink)
        painter.drawPolygon(
            QPolygonF([QPointF(x, top), QPointF(x - 4, top + 11), QPointF(x + 4, top + 11)])
        )
        font = painter.font()
        font.setPixelSize(11)
        painter.setFont(font)
        painter.drawText(QPointF(x - 14, bottom), "N")


class Prompt(Glass):
    """One line that says what the next click does, at the lower right."""

    def __init__(self, parent: QWidget, palette: Palette) -> None:
        super().__init__(parent, palette)
        self._ground = parent
        self._words = ""
        self._laid = ""

    def say(self, words: str) -> None:
        """Show a line, or nothing."""
        if words == self._words:
            return
        self._words = words
        self.setAccessibleName(words)
        self.setVisible(bool(words))
        self.redraw()
        self.fit()

    def fit(self) -> None:
        """Be as large as the line needs, in the room that there is beside the scale bar.

        Where one line is too long, the figures stand under the words and not torn between.
        """
        across = self._ground.width()
        most = max(min(int(across * MOST_ACROSS), across - BAR[0] - 5 * MARGIN), BAR[0])
        letters = self.fontMetrics()
        fits = letters.horizontalAdvance(self._words) <= most
        self._laid = self._words if fits else self._words.replace(BETWEEN, "\n", 1)
        taken = self._evenly(self._taken(most))
        size = QSize(taken.width() + 2 * MARGIN, taken.height() + MARGIN)
        if size != self.size():
            self.resize(size)
            self.redraw()

    def _taken(self, across: int) -> QRect:
        room = QRect(0, 0, across, self._ground.height())
        return self.fontMetrics().boundingRect(room, WRAPPED, self._laid)

    def _evenly(self, widest: QRect) -> QRect:
        """Return the narrowest that has no more lines: no word stands alone on the last."""
        narrower = map(self._taken, range(BAR[0], widest.width(), MARGIN))
        fitting = (
            taken
            for taken in narrower
            if taken.height() <= widest.height() and taken.width() <= widest.width()
        )
        return next(fitting, widest)

    @override
    def draw(self, painter: QPainter) -> None:
        painter.setPen(QPen(QColor(self.colours.line), 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
        painter.setPen(QColor(self.colours.ink))
        words = self.rect().adjusted(MARGIN, 0, -MARGIN, 0)
        painter.drawText(words, WRAPPED, self._laid)
