"""A pointer on the ground that is moved by keys: a grave is reached without a mouse.

Shift with an arrow moves it, and Ctrl besides moves it a pixel at a time and catches nothing;
Space clicks where it is. It goes when the mouse moves.
"""

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.desktop.canvas.keys import ARROWS
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tool import Act

STEP_PX = 10
SIDE = 41
"""Width and height of the cross, in logical pixels; odd, so that it has a middle."""

EDGE_PX = 30
"""Nearer than this to the edge of the view the ground moves along."""

_SHIFT, _CTRL = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier


class KeyPointer(QWidget):
    """A cross on the glass, where the pointer is that the keys move."""

    def __init__(self, canvas: Canvas, palette: Palette) -> None:
        super().__init__(canvas.viewport())
        self._canvas = canvas
        self._palette = palette
        self._at = QPoint()
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAccessibleName("Pointer moved by keys")
        self.resize(SIDE, SIDE)
        self.hide()
        canvas.installEventFilter(self)
        canvas.viewport().installEventFilter(self)

    @property
    def at(self) -> QPoint:
        """Where it is on the view."""
        return self._at

    def dress(self, palette: Palette) -> None:
        """Take on other colours."""
        self._palette = palette
        self.update()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            return watched is self._canvas and self._key(event)
        if event.type() is QEvent.Type.MouseMove and event.spontaneous():
            self.hide()
        return False

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        middle = SIDE / 2
        for colour, width in ((self._palette.ground, 5.0), (self._palette.ink, 2.0)):
            painter.setPen(QPen(QColor(colour), width))
            painter.drawLine(QPointF(middle, 2), QPointF(middle, middle - 5))
            painter.drawLine(QPointF(middle, middle + 5), QPointF(middle, SIDE - 2))
            painter.drawLine(QPointF(2, middle), QPointF(middle - 5, middle))
            painter.drawLine(QPointF(middle + 5, middle), QPointF(SIDE - 2, middle))
        painter.end()

    def _key(self, event: QKeyEvent) -> bool:
        key, held = Qt.Key(event.key()), event.modifiers()
        if key in ARROWS and held & _SHIFT:
            x, y = ARROWS[key]
            step = 1 if held & _CTRL else STEP_PX
            self._move(QPoint(x * step, y * step), held & _CTRL)
            return True
        if key is Qt.Key.Key_Space and self.isVisible():
            self._click(held)
            return True
        return False

    def _move(self, by: QPoint, held: Qt.KeyboardModifier) -> None:
        if not self.isVisible():
            self._at = self._canvas.viewport().rect().center()
            self.show()
            self.raise_()
        else:
            self._at = self._at + by
        self._stay_inside()
        self.move(self._at - QPoint(SIDE // 2, SIDE // 2))
        self._canvas.act_at(Act.MOVE, QPointF(self._at), held)

    def _stay_inside(self) -> None:
        """Move the ground where the pointer would leave the view."""
        inside = self._canvas.viewport().rect().adjusted(EDGE_PX, EDGE_PX, -EDGE_PX, -EDGE_PX)
        x = min(max(self._at.x(), inside.left()), inside.right())
        y = min(max(self._at.y(), inside.top()), inside.bottom())
        if (over := self._at - QPoint(x, y)) != QPoint():
            self._canvas.pan(over)
            self._at = QPoint(x, y)

    def _click(self, held: Qt.KeyboardModifier) -> None:
        self._canvas.act_at(Act.PRESS, QPointF(self._at), held)
        self._canvas.act_at(Act.RELEASE, QPointF(self._at), held)
