"""The ground drawn along by hand: the middle button, or the left one while Space is held."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QWidget

from plan_editor.desktop.canvas.navigation import Navigation

Shape = Qt.CursorShape


class Grip:
    """Takes the clicks and keys that draw the ground along, and says whether it took them."""

    def __init__(self, glass: QWidget, navigation: Navigation) -> None:
        self._glass = glass
        self._navigation = navigation
        self._space = False

    def press(self, event: QMouseEvent) -> bool:
        """Take hold of the ground."""
        left = event.button() is Qt.MouseButton.LeftButton
        ours = event.button() is Qt.MouseButton.MiddleButton or (left and self._space)
        if ours:
            self._navigation.hold(event.position().toPoint())
            self._glass.setCursor(Shape.ClosedHandCursor)
        return ours

    def move(self, event: QMouseEvent) -> bool:
        """Draw the ground along."""
        if self._navigation.dragging:
            self._navigation.drag(event.position().toPoint())
            return True
        return False

    def release(self) -> bool:
        """Let go of the ground."""
        if self._navigation.dragging:
            self._navigation.let_go()
            self._glass.setCursor(Shape.CrossCursor)
            return True
        return False

    def key_down(self, event: QKeyEvent) -> bool:
        """Hold Space: the next click takes hold."""
        if event.key() != Qt.Key.Key_Space:
            return False
        self._space = True
        self._glass.setCursor(Shape.OpenHandCursor)
        return True

    def key_up(self, event: QKeyEvent) -> None:
        """Let Space go."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self._glass.setCursor(Shape.CrossCursor)
