"""A strip of twelve months: how much is due in each, and what of it is overdue."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.theme import STEP
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.month_words import spoken
from plan_editor.records.month import Count

HIGH = 28 * STEP
BAR, LEAST = 0.62, 3.0
"""Share of a month's width that its bar takes; the least height of one, in pixels."""


class MonthStrip(QWidget):
    """Twelve bars with their counts; ``picked`` tells the month that was chosen.

    What is overdue is hatched as well as coloured, and every bar bears its number. The arrow
    keys go from month to month.
    """

    picked = Signal(str)

    def __init__(self, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        self._palette = palette
        self._counts: tuple[Count, ...] = ()
        self._at = 0
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._tell()

    @property
    def month(self) -> str:
        """The month that is chosen: ``2026-11``; nothing as long as there is none."""
        return self._counts[self._at].month if self._counts else ""

    def dress(self, palette: Palette) -> None:
        """Put on other colours."""
        self._palette = palette
        self.update()

    def show_counts(self, counts: Sequence[Count]) -> None:
        """Show other months; the one that is chosen stays so where it is among them."""
        month = self.month
        self._counts = tuple(counts)
        months = [c.month for c in counts]
        self._at = months.index(month) if month in months else 0
        self._tell()
        self.update()

    def _tell(self) -> None:
        every = "; ".join(map(spoken, self._counts))
        chosen = f"{in_words(self.month)} is chosen. " if self._counts else ""
        self.setAccessibleName("What is due in the twelve months to come")
        self.setAccessibleDescription(f"{chosen}{every}")

    def _choose(self, place: int) -> None:
        place = min(max(place, 0), len(self._counts) - 1)
        if self._counts and place != self._at:
            self._at = place
            self._tell()
            self.update()
            self.picked.emit(self.month)

    @override
    def sizeHint(self) -> QSize:
        return QSize(60 * STEP, HIGH)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {
            Qt.Key.Key_Left: self._at - 1,
            Qt.Key.Key_Right: self._at + 1,
            Qt.Key.Key_Home: 0,
            Qt.Key.Key_End: len(self._counts) - 1,
        }
        if event.key() in steps:
            self._choose(steps[Qt.Key(event.key())])
        else:
            super().keyPressEvent(event)

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() is Qt.MouseButton.LeftButton:
            self._choose(int(event.position().x() // self._broad()))

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        event.ignore()

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        event.accept()

    def _broad(self) -> float:
        return self.width() / max(len(self._counts), 1)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        line = self.fontMetrics().lineSpacing()
        foot = self.height() - line - STEP
        most = max((c.all for c in self._counts), default=0)
        for place, count in enumerate(self._counts):
            self._paint_month(painter, place, count, (foot, foot - line - STEP, most))
        painter.setPen(QPen(QColor(self._palette.soft), 1.0))
        painter.drawLine(QPointF(0, foot), QPointF(self.width(), foot))
        if self.hasFocus():
            painter.setPen(
                QPen(QColor(self._palette.moss), 3.0 if self._palette.strong else 1.0)
            )
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()

    def _paint_month(
        self, painter: QPainter, place: int, count: Count, room: tuple[float, float, int]
    ) -> None:
        foot, high, most = room
        broad = self._broad()
        left = broad * place
        if place == self._at:
            painter.setPen(QPen(QColor(self._palette.ink), 1.5))
            painter.setBrush(QColor(self._palette.ground))
            painter.drawRect(QRectF(left, 0, broad, self.height()).adjusted(1, 1, -1, -1))
        top = foot
        for many, brush in self._layers(count):
            if many:
                tall = max(high * many / most, LEAST)
                bar = QRectF(left + broad * (1 - BAR) / 2, top - tall, broad * BAR, tall)
                painter.fillRect(bar, QColor(self._palette.ground))
                painter.setPen(QPen(QColor(brush.color()), 1.2))
                painter.setBrush(brush)
                painter.drawRect(bar)
                top -= tall
        self._write(
            painter, QRectF(left, foot + 1, broad, self.height() - foot - 1), _letter(count)
        )
        if count.all:
            line = self.fontMetrics().lineSpacing()
            self._write(painter, QRectF(left, top - line - 1, broad, line), str(count.all))

    def _layers(self, count: Count) -> tuple[tuple[int, QBrush], ...]:
        colours = self._palette
        return (
            (count.overdue, QBrush(QColor(colours.rust), Qt.BrushStyle.BDiagPattern)),
            (count.tasks, QBrush(QColor(colours.moss))),
            (count.days, QBrush(QColor(colours.slate), Qt.BrushStyle.NoBrush)),
        )

    def _write(self, painter: QPainter, where: QRectF, words: str) -> None:
        painter.setPen(QColor(self._palette.ink))
        painter.drawText(where, Qt.AlignmentFlag.AlignCenter, words)


def _letter(count: Count) -> str:
    """Return the first letters of a month."""
    return in_words(count.month)[:3]
