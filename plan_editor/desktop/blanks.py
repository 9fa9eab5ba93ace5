"""What else may be typed in the state in which the tool in hand is: a small field for each."""

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import Choice, letters, row, text
from plan_editor.desktop.theme import STEP
from plan_editor.drafting.tool import Answer, Blank
from plan_editor.session import Session

MOST, FEWEST = 11, 4
"""Letters for which a field has room."""

EDGES = 5 * STEP
"""What a field has round its letters."""

Field = QLineEdit | Choice


class Blanks(QObject):
    """The fields, each with its title before it: ``pairs``, for a row to place.

    ``filled`` tells the name of each blank with what stands in it, at Enter in any of them.

    ``left`` says that the blank in which the keys were is there no longer; ``made`` that the
    fields are others.
    """

    filled = Signal(object)
    left = Signal()
    made = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self.fields: dict[str, Field] = {}
        self.pairs: tuple[QWidget, ...] = ()
        self._parent = parent
        self._session = session
        self._shown: tuple[Blank, ...] = ()
        until_gone(parent, session.answered.connect(self._follow))
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
        for pair in self.pairs:
            pair.hide()
            pair.deleteLater()
        self.fields = {}
        self.pairs = tuple(self._pair(blank) for blank in blanks)
        self.made.emit()
        if was_here:
            self.left.emit()

    def _pair(self, blank: Blank) -> QWidget:
        pair = QWidget(self._parent)
        field = self._field(blank, pair)
        label = text(pair, blank.title, "soft")
        label.setWordWrap(False)
        label.setBuddy(field)
        across = row(pair)
        across.addWidget(label)
        across.addWidget(field)
        self.fields[blank.name] = field
        return pair

    def _field(self, blank: Blank, pair: QWidget) -> Field:
        if blank.choices:
            choice = Choice(pair)
            choice.addItems(blank.choices)
            choice.setAccessibleName(blank.title)
            choice.activated.connect(self._give)
            _write(choice, blank)
            return choice
        line = QLineEdit(blank.text, pair)
        wanted = max(len(blank.text), len(blank.example)) + 1
        line.setFixedWidth(letters(pair, min(max(wanted, FEWEST), MOST)) + EDGES)
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
