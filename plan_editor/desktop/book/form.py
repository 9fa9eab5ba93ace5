"""The form in which a field book is written, adjusted while it is, and put on the plan."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.commands.book_drafts import (
    base_of,
    faults_in_words,
    renamed,
    sided,
    suggested,
    used,
    without,
    written,
)
from plan_editor.commands.book_sketch import book_sketch
from plan_editor.commands.book_words import rows
from plan_editor.commands.field_books import Outcome, outcome
from plan_editor.desktop.background import Work
from plan_editor.desktop.book.entry import Entry
from plan_editor.desktop.book.lines_table import LinesTable
from plan_editor.desktop.book.verdict import BookVerdict, Headline
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import button, column, row, side_by_side, text
from plan_editor.desktop.theme import STEP
from plan_editor.edits.field_books import TakeInFieldBook
from plan_editor.errors import PlanEditorError
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.book_texts import texts_of
from plan_editor.survey.books.field_book import FieldBook

HEADS = ("Name", "Date", "Measured by")


class BookForm(QWidget):
    """``closed`` when the book was put on the plan, or that was given up."""

    closed = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.book: FieldBook | None = None
        self.outcome: Outcome | None = None
        self._settings = BookSettings()
        self._at: int | None = None
        self.heads = [self._head(name) for name in HEADS]
        self.headline = Headline(self)
        self.entry = Entry(self)
        self.take = button(self, "Write the line", self._write)
        self.drop = button(self, "Strike it out", self._drop_chosen)
        self._sentence = text(self, "", "danger")
        self.table = LinesTable(desk.palette, self)
        self.verdict = BookVerdict(self)
        self.put = button(self, "Put on the plan", self._put, "main")
        self.cancel = button(self, "Close the book", self.leave)
        self._lay_out()
        self._connect()
        self.hide()

    def begin(self, book: FieldBook, settings: BookSettings) -> None:
        """Take up a book: an empty one, one that was read, or one of the plan."""
        self._settings = settings
        for field, words in zip(self.heads, (book.name, book.date, book.observer), strict=True):
            field.setText(words)
            field.setCursorPosition(0)
        self._say("")
        self._at = None
        self.show()
        self._desk.roomy.emit(True)
        self._take(book)
        self.entry.write({})
        self.entry.begin()

    def leave(self) -> None:
        """Give up what was begun."""
        if self.isHidden():
            return
        self.hide()
        self.book = self.outcome = None
        self._desk.roomy.emit(False)
        self._desk.ground.show_sketch(None)
        self.closed.emit()

    def _connect(self) -> None:
        self.entry.given.connect(self._write)
        self.entry.left.connect(self._let_go)
        self.table.picked.connect(self._pick)
        self.table.ticked.connect(self._use)
        self.table.dropped.connect(self._drop)
        self.verdict.leave_out.connect(self._leave_out)
        self.verdict.answered.connect(self._answer)
        until_gone(self, self._session.document.changed.connect(self._changed))
        until_gone(self, self._desk.dressed.connect(self._dress))

    def _head(self, name: str) -> QLineEdit:
        field = QLineEdit(self)
        field.setAccessibleName(name)
        field.setPlaceholderText(name)
        field.editingFinished.connect(self._rename)
        return field

    def _lay_out(self) -> None:
        name, *others = self.heads
        top = QWidget(self)
        across = row(top)
        for field, share in zip(others, (2, 3), strict=True):
            across.addWidget(field, share)
        under = side_by_side(self, self.take, self.drop)
        ends = side_by_side(self, self.put, self.cancel)
        lines = column(self, space=2 * STEP)
        above = (name, top, self.headline, self.entry, self._sentence, under)
        for part in (*above, self.table, ends, self.verdict):
            lines.addWidget(part)

    def _take(self, book: FieldBook) -> None:
        """Show a book as it is now, and adjust it beside the window."""
        self.book = book
        self.drop.setVisible(self._at is not None)
        self.take.setText("Write the line" if self._at is None else "Change the line")
        self.take.setAccessibleName(self.take.text())
        self.put.setEnabled(False)
        self.entry.suggest(suggested(self._session.document.plan, book))
        if not book.lines:
            self._show(None)
            return
        self.table.show_lines(rows(book, self.outcome))
        self._desk.background.in_thread(
            Work(
                about="field book",
                title="",
                function=outcome,
                arguments=(self._session.document.plan, book),
                done=self._show,
                failed=self._fail,
            )
        )

    def _show(self, told: Outcome | None) -> None:
        if self.book is None:
            return
        self.outcome = told
        self.table.show_lines(rows(self.book, told))
        if self._at is None:
            self.table.look_at_doubt()
        self.headline.show_outcome(told)
        self.verdict.show_outcome(told)
        placed = 0 if told is None else len(told.points) - len(told.unplaced)
        points = "1 point" if placed == 1 else f"{placed} points"
        self.put.setText(f"Put {points} on the plan" if placed else "Keep the lines")
        self.put.setAccessibleName(self.put.text())
        self.put.setEnabled(told is not None and self._session.may_edit)
        self._desk.ground.show_sketch(None if told is None else book_sketch(told))

    def _fail(self, error: PlanEditorError) -> None:
        if self.book is not None:
            self._show(None)
            self.table.show_lines(rows(self.book, None))
            self._say(str(error))

    def _write(self) -> None:
        if self.book is None:
            return
        try:
            book = written(self.book, self.entry.texts, self._at, self._settings)
        except PlanEditorError as error:
            self._say(str(error))
            return
        if isinstance(book, tuple):
            self._say(faults_in_words(book))
            self.entry.correct(tuple(fault.column for fault in book))
            return
        self._let_go()
        self._take(book)
        self.entry.next_line()

    def _let_go(self) -> None:
        self._at = None
        self._say("")
        self.table.let_go()
        if self.book is not None:
            self.drop.hide()
            self.take.setText("Write the line")

    def _pick(self, at: int) -> None:
        if self.book is not None:
            self._at = at
            self._say("")
            self.entry.write(texts_of(self.book.lines[at]))
            self.drop.show()
            self.take.setText("Change the line")

    def _use(self, at: int, use: bool) -> None:  # noqa: FBT001  # a signal of Qt
        if self.book is not None:
            self._take(used(self.book, at, use=use))

    def _drop(self, at: int) -> None:
        if self.book is not None:
            self._let_go()
            self._take(without(self.book, at))

    def _drop_chosen(self) -> None:
        if self._at is not None:
            self._drop(self._at)
            self.entry.next_line()

    def _leave_out(self, number: int) -> None:
        if self.book is not None:
            # the line may be gone: the words are those of the book before it was changed
            for at, line in enumerate(self.book.lines):
                if line.line == number:
                    self._use(at, False)

    def _answer(self, point: str, right: bool) -> None:  # noqa: FBT001  # a signal of Qt
        if self.book is not None and base_of(self.book, point) is not None:
            self._take(sided(self.book, point, right=right))

    def _rename(self) -> None:
        if self.book is None:
            return
        name, date, observer = (field.text() for field in self.heads)
        try:
            book = renamed(self.book, name=name, date=date, observer=observer)
        except PlanEditorError as error:
            self._say(str(error))
            return
        self._say("")
        if book != self.book:
            self._take(book)

    def _changed(self, changes: object) -> None:
        del changes
        if self.book is not None:  # a mark may have moved
            self._take(self.book)

    def _dress(self, palette: Palette) -> None:
        self.table.look = palette
        if self.book is not None:
            self.table.show_lines(rows(self.book, self.outcome))

    def _say(self, sentence: str) -> None:
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))

    def _put(self) -> None:
        if self.book is not None and self._session.try_apply(TakeInFieldBook(book=self.book)):
            self.leave()
