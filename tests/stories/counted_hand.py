"""A hand at the real window: it clicks, draws, types, turns the wheel, and counts."""

from dataclasses import dataclass

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from plan_editor.desktop.canvas.view import Canvas

NOTCH = 120
LEFT = Qt.MouseButton.LeftButton
PLAIN = Qt.KeyboardModifier.NoModifier


@dataclass(slots=True)
class Effort:
    """What was done so far; drawing something along counts as a click."""

    clicks: int = 0
    keys: int = 0
    notches: int = 0


class CountedHand:
    """Sends real mouse and key events."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self.effort = Effort()

    def look(self, east: float, north: float, pixels_a_metre: float) -> None:
        """See all of the ground, then turn the wheel over a place until it is large enough."""
        while not self._comfortable(east, north, pixels_a_metre):
            QTest.keyClick(self.canvas, Qt.Key.Key_Home)
            self.effort.keys += 1
            while self.canvas.transform().m11() < pixels_a_metre:
                self._turn_wheel(self.canvas.mapFromScene(east, north))

    def click(self, east: float, north: float) -> None:
        """Click a place on the ground; what is near it is caught."""
        at = self.canvas.mapFromScene(east, north)
        QTest.mouseMove(self.canvas.viewport(), at)
        QTest.mouseClick(self.canvas.viewport(), LEFT, PLAIN, at)
        self.effort.clicks += 1

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Take hold of something on the ground and let go of it elsewhere."""
        here, there = (self.canvas.mapFromScene(*p) for p in (start, end))
        ground = self.canvas.viewport()
        QTest.mouseMove(ground, here)
        QTest.mousePress(ground, LEFT, PLAIN, here)
        QTest.mouseMove(ground, (here + there) / 2)
        QTest.mouseMove(ground, there)
        QTest.mouseRelease(ground, LEFT, PLAIN, there)
        self.effort.clicks += 1

    def press(self, key: Qt.Key) -> None:
        """Press a key on the ground."""
        QTest.keyClick(self.canvas, key)
        self.effort.keys += 1

    def write(self, field: QWidget, words: str) -> None:
        """Write something into a field that has the keys, in place of what stands there."""
        QTest.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        QTest.keyClicks(field, words)
        QTest.keyClick(field, Qt.Key.Key_Return)
        self.effort.keys += len(words) + 2

    def push(self, widget: QWidget, at: QPoint | None = None) -> None:
        """Click a button, a title, a field or a line of a list."""
        QTest.mouseClick(widget, LEFT, PLAIN, widget.rect().center() if at is None else at)
        self.effort.clicks += 1

    def _comfortable(self, east: float, north: float, pixels_a_metre: float) -> bool:
        seen = self.canvas.viewport().rect().adjusted(60, 60, -60, -60)
        scale = self.canvas.transform().m11()
        near = pixels_a_metre <= scale <= 3 * pixels_a_metre
        return near and seen.contains(self.canvas.mapFromScene(east, north))

    def _turn_wheel(self, at: QPoint) -> None:
        there = self.canvas.viewport().mapToGlobal(at)
        event = QWheelEvent(
            QPointF(at),
            QPointF(there),
            QPoint(),
            QPoint(0, NOTCH),
            Qt.MouseButton.NoButton,
            PLAIN,
            Qt.ScrollPhase.NoScrollPhase,
            False,  # not inverted
        )
        QApplication.sendEvent(self.canvas.viewport(), event)
        self.effort.notches += 1
