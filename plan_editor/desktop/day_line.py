"""The line over a window that shows another day: which day, and the way back to today."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.desktop.house import House
from plan_editor.desktop.parts import button, row, text
from plan_editor.desktop.theme import STEP, role
from plan_editor.session import Session

BACK = "Back to today"


class DayLine(QWidget):
    """Stands as long as the window shows another day.

    The way back closes the window and shows the plan of today; so does Esc on the ground, once
    every tool is put down.
    """

    def __init__(self, session: Session, house: House, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "day")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._session = session
        self._house = house
        self._words = text(self, "", "strong")
        self._back = button(self, BACK, self.leave, "main")
        self._back.setToolTip(f"{BACK}  (Esc)")
        line = row(self, space=4 * STEP)
        line.setContentsMargins(4 * STEP, 2 * STEP, 4 * STEP, 2 * STEP)
        line.addWidget(self._words, 1)
        line.addWidget(self._back)
        self.refresh()

    @property
    def words(self) -> str:
        """What it says."""
        return self._words.text()

    def leave(self) -> None:
        """Close the window, and show the plan of today."""
        file = self._session.file
        if file is not None and self.window().close():
            self._house.open_plan(file.path)

    def refresh(self) -> None:
        """Show which day it is; nothing once the plan was saved as one of its own."""
        file = self._session.file
        there = file is not None and bool(file.of_day) and file.read_only
        self._words.setText(file.of_day if file is not None else "")
        self.setVisible(there)

    def listen_on(self, ground: QWidget) -> None:
        """Hear the keys that are pressed on the ground."""
        ground.installEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if not isinstance(event, QKeyEvent) or event.type() is not QEvent.Type.KeyPress:
            return False
        if event.key() != Qt.Key.Key_Escape or not self._may_leave():
            return False
        self.leave()
        return True

    def _may_leave(self) -> bool:
        return not self.isHidden() and not self._session.aims
