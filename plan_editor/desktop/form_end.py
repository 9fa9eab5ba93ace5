"""The end of a form: what is wrong with it, the button that does it, and *Cancel*."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.theme import STEP


class FormEnd(QWidget):
    """Stands under the fields of a form; Escape, pressed anywhere in the form, cancels too."""

    def __init__(
        self, form: QWidget, words: str, do: Callable[[], None], leave: Callable[[], None]
    ) -> None:
        super().__init__(form)
        self._leave = leave
        self._sentence = text(self, "", "danger")
        self.do = button(self, words, do, "main")
        self.cancel = button(self, "Cancel", leave)
        lines = column(self, space=2 * STEP)
        lines.addWidget(self._sentence)
        lines.addWidget(side_by_side(self, self.do, self.cancel))
        self.say("")
        form.installEventFilter(self)

    @property
    def sentence(self) -> str:
        """What is said under the fields; empty where it is well."""
        return self._sentence.text()

    def say(self, sentence: str) -> None:
        """Say what is wrong; empty where it is well."""
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        escape = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape
        if escape and event.type() == QEvent.Type.KeyPress:
            self._leave()
            return True
        return False
