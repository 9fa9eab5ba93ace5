"""What else may be typed in the state in which the tool in hand is: a small field for each."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import Choice, emptied, letters, row, text
from plan_editor.drafting.tool import Answer, Blank
from plan_editor.session import Session

LETTERS, FEWEST = 12, 5

Field = QLineEdit | Choice


class Blanks(QWidget):
    """``filled`` tells the name of each blank with what stands in it, at Enter in any of them.

    ``left`` says that the blank in which the keys were is there no longer; ``made`` that the
    fields are others.
    """

    filled = Signal(object)
    left = Signal()
    made = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self.fields: dict[str, Field] = {}
        self._session = session
        self._shown: tuple[Blank, ...] = ()
        self._row = row(self)
        until_gone(self, session.answered.connect(self._follow))
        self._show(session.answer.blanks)

    def begin(self, digit: str) -> None:
        """Take the keys to the first empty field, with the digit that was typed."""
        lines = [f for f in self.fields.values() if isinstance(f, QLineEdit)]
        if lines:
            field = next((f for f in lines if not f.text()), lines[0])
            field.setText(digit)
            field.setModified(True)
            field.setFocus(Qt.FocusReason.OtherFocusReason)

    def anew(self) -> None:
        """Write into each field what stands in it to begin with."""
        for blank in self._shown:
            _write(self.fields[blank.name], blank)

    def _follow(self, answer: Answer) -> None:
        if answer.blanks != self._shown:
            self._show(answer.blanks)

    def _show(self, blanks: tuple[Blank, ...]) -> None:
        if list(map(_face, blanks)) != list(map(_face, self._shown)):
            self._make(blanks)
        self._shown = blanks
        for blank in blanks:
            field = self.fields[blank.name]
            if isinstance(field, QLineEdit) and not field.isModified():
                _write(field, blank)  # what was typed stays

    def _make(self, blanks: tuple[Blank, ...]) -> None:
        was_here = any(f.hasFocus() for f in self.fields.values())
        emptied(self._row)
        self.fields = {}
        for blank in blanks:
            field = self._field(blank)
            label = text(self, blank.title, "soft")
            label.setWordWrap(False)
            label.setBuddy(field)
            self._row.addWidget(label)
            self._row.addWidget(field)
            self.fields[blank.name] = field
        self.made.emit()
        if was_here:
            self.left.emit()

    def _field(self, blank: Blank) -> Field:
        if blank.choices:
            choice = Choice(self)
            choice.addItems(blank.choices)
            choice.setAccessibleName(blank.title)
            choice.activated.connect(self._give)
            _write(choice, blank)
            return choice
        line = QLineEdit(blank.text, self)
        line.setMinimumWidth(letters(self, FEWEST))
        line.setMaximumWidth(letters(self, LETTERS))
        line.setAccessibleName(blank.title)
        line.setPlaceholderText(blank.example)
        line.returnPressed.connect(self._give)
        return line

    def _give(self) -> None:
        before = self._session.answer.tool
        self.filled.emit(tuple((name, _read(f)) for name, f in self.fields.items()))
        if self._session.answer.tool != before:
            self.anew()


def _face(blank: Blank) -> tuple[str, str, str, tuple[str, ...]]:
    return blank.name, blank.title, blank.example, blank.choices


def _write(field: Field, blank: Blank) -> None:
    if isinstance(field, Choice):
        field.setCurrentText(blank.text)
    elif field.text() != blank.text or field.isModified():
        field.setText(blank.text)


def _read(field: Field) -> str:
    return field.currentText() if isinstance(field, Choice) else field.text()
