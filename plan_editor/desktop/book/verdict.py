"""What a field book comes to: how well it agrees, what is doubtful, what to tape next."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.book_doubt import headline, without_first
from plan_editor.commands.book_sketch import factor_words
from plan_editor.commands.book_words import CAUTION, question, traverse_in_words
from plan_editor.commands.field_books import Outcome, sentences, suspicion
from plan_editor.desktop.parts import button, column, emptied, side_by_side, text
from plan_editor.desktop.theme import STEP

MOST = 6
"""So many suspected lines and open points are offered at a time."""


class Headline(QWidget):
    """How well the tapes agree, in a sentence."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._lines = column(self)

    def show_outcome(self, told: Outcome | None) -> None:
        """Show it of a book; nothing of one with nothing in it."""
        emptied(self._lines)
        self.setVisible(told is not None)
        if told is not None:
            sound = told.worked.adjusted.s0 is not None and not told.suspects
            kind = "strong" if sound else "danger" if told.suspects else "soft"
            self._lines.addWidget(text(self, headline(told), kind))


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
        said = [suspicion(line) for line in told.suspects[:MOST]]
        for place, (line, words) in enumerate(zip(told.suspects, said, strict=False)):
            after = "" if place else without_first(told)
            self._say(f"{words} {after}".strip(), "danger")
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

        both = side_by_side(
            self,
            button(self, f"{point} is on the left", left),
            button(self, f"{point} is on the right", right),
        )
        self._lines.addWidget(both)
