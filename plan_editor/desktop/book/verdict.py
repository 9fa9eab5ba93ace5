"""What a field book comes to: how well it agrees, what is doubtful, what to tape next."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.book_sketch import factor_words
from plan_editor.commands.book_words import (
    CAUTION,
    agreement,
    question,
    traverse_in_words,
)
from plan_editor.commands.field_books import Outcome, sentences, suspicion
from plan_editor.desktop.parts import button, column, emptied, row, text
from plan_editor.desktop.theme import STEP

MOST = 6
"""So many suspected lines and open points are offered at a time."""


class BookVerdict(QWidget):
    """``leave_out`` tells a line by its number, ``answered`` a point and its hand."""

    leave_out = Signal(int)
    answered = Signal(str, bool)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._lines = column(self, space=2 * STEP)

    def show_outcome(self, told: Outcome | None) -> None:
        """Show what comes of a book; None of one with nothing in it."""
        emptied(self._lines)
        if told is None:
            return
        sound = told.worked.adjusted.s0 is not None and not told.suspects
        self._say(agreement(told), "strong" if sound else "danger" if told.suspects else "")
        said = [suspicion(line) for line in told.suspects[:MOST]]
        for line, words in zip(told.suspects, said, strict=False):
            self._say(words, "danger")
            if line.of_book:
                self._leave_out(line.reading.line.line)
        for point in told.unplaced[:MOST]:
            if words := question(told, point):
                self._say(words, "strong")
                self._hands(point.name)
        self._say(traverse_in_words(told), "")
        self._say(factor_words(told), "soft")
        for words in sentences(told):
            if words not in said:
                self._say(words, "soft")
        self._say(CAUTION, "caution")

    def _say(self, words: str, kind: str) -> None:
        if words:
            self._lines.addWidget(text(self, words, kind))

    def _leave_out(self, number: int) -> None:
        def leave() -> None:
            self.leave_out.emit(number)

        self._lines.addWidget(button(self, f"Leave line {number} out", leave))

    def _hands(self, point: str) -> None:
        def left() -> None:
            self.answered.emit(point, False)

        def right() -> None:
            self.answered.emit(point, True)

        both = QWidget(self)
        across = row(both)
        across.addWidget(button(both, f"{point} is on the left", left))
        across.addWidget(button(both, f"{point} is on the right", right))
        across.addStretch(1)
        self._lines.addWidget(both)
