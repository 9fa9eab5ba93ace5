"""Two small fields for a length and a bearing, while the tool in hand can use them."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import letters, row, text
from plan_editor.drafting.tool import Answer
from plan_editor.session import Session

LETTERS, FEWEST = 14, 11


class TypedFields(QWidget):
    """``given`` tells what stands in both when Enter is pressed in either."""

    given = Signal(str, str)
    left = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self.length = self._field("Length", "4.57 or 15'")
        self.bearing = self._field("Bearing", "75 or NE")
        line = row(self)
        for words, field in (("Length", self.length), ("Bearing", self.bearing)):
            label = text(self, words, "soft")
            label.setWordWrap(False)
            label.setBuddy(field)
            line.addWidget(label)
            line.addWidget(field)
        until_gone(self, session.answered.connect(self._follow))
        self._follow(session.answer)

    def begin(self, digit: str) -> None:
        """Take the keys to the length, with the digit that was typed on the ground."""
        self.length.setText(digit)
        self.length.setFocus(Qt.FocusReason.OtherFocusReason)

    def clear(self) -> None:
        """Empty both."""
        self.length.clear()
        self.bearing.clear()

    def _field(self, name: str, example: str) -> QLineEdit:
        made = QLineEdit(self)
        made.setMinimumWidth(letters(self, FEWEST))
        made.setMaximumWidth(letters(self, LETTERS))
        made.setAccessibleName(f"{name} to the next point")
        made.setPlaceholderText(example)
        made.returnPressed.connect(self._give)
        return made

    def _give(self) -> None:
        self.given.emit(self.length.text(), self.bearing.text())

    def _follow(self, answer: Answer) -> None:
        ready = answer.origin is not None
        if not ready and (self.length.hasFocus() or self.bearing.hasFocus()):
            self.left.emit()
        if not ready:
            self.clear()  # what was meant for one thing is not given to the next
        self.length.setEnabled(ready)
        self.bearing.setEnabled(ready)
        self.setVisible(ready or not answer.blanks)  # what can be typed takes the room
