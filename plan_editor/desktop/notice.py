"""A sentence in place, below the ground: what went wrong, what was done."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget

from plan_editor.desktop.parts import button, row, text
from plan_editor.desktop.theme import STEP, role


class Notice(QWidget):
    """One sentence and perhaps something that can be done about it; gone when it was read."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "notice")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._words = text(self)
        self._refusal = ""
        self._do: QPushButton | None = None
        self._away = button(self, "Close", self.clear)
        self._line = row(self, space=2 * STEP)
        self._line.setContentsMargins(4 * STEP, 2 * STEP, 4 * STEP, 2 * STEP)
        self._line.addWidget(self._words, 1)
        self._line.addWidget(self._away)
        self.hide()

    @property
    def words(self) -> str:
        """What is said now; empty where nothing is."""
        return self._words.text()

    def say(self, words: str, do: str = "", then: Callable[[], None] | None = None) -> None:
        """Say a sentence; offer one thing to do about it."""
        self._drop()
        self._words.setText(words)
        if then is not None:
            self._do = button(self, do, then)
            self._line.insertWidget(1, self._do)
        self.show()

    def refuse(self, words: str) -> None:
        """Say why something was not done; the next edit that is made takes it away."""
        self.say(words)
        self._refusal = words

    def done(self) -> None:
        """Note that an edit was made: what was refused before it is past."""
        if self.words and self.words == self._refusal:
            self.clear()

    def clear(self) -> None:
        """Say nothing more."""
        self._drop()
        self._words.clear()
        self.hide()

    def _drop(self) -> None:
        if self._do is not None:
            self._do.hide()
            self._do.deleteLater()
            self._do = None
