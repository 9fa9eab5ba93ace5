"""Field books: what was taped, written or read, adjusted, and put on the plan."""

from pathlib import Path

from PySide6.QtWidgets import QWidget

from plan_editor.commands.book_drafts import books_of, new_book
from plan_editor.commands.book_words import moves_in_words
from plan_editor.commands.today import today
from plan_editor.desktop.background import Work
from plan_editor.desktop.book.form import BookForm
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.edits.field_books import AdjustFieldBooks
from plan_editor.exchange.field_books import read_field_book
from plan_editor.ground.kept_books import book_on
from plan_editor.plan.item import ItemId
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import FieldBook

EMPTY = (
    "No field book yet. Write one line after another as they are taped, or read the file of"
    " one; what the tapes say together is seen at once."
)
SUFFIXES = (".csv", ".txt", ".xlsx")
HEIGHT = 26 * STEP


class FieldBooks(QWidget):
    """The list of books, and the form for the one that is open."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._empty = text(self, EMPTY, "soft")
        self.table = ItemTable("Field books", ("Field book", "Date", "Lines"), self)
        self.table.narrow(1, 2)
        self.table.setFixedHeight(HEIGHT)
        self.read = button(self, "Read a field book…", self._choose)
        self.new = button(self, "New field book", self._new)
        self.again = button(self, "Adjust all books again", self._look)
        self.told = text(self, "", "strong")
        self.move_them = button(self, "Move them", self._adjust, "main")
        self.form = BookForm(desk, self)
        self._parts = (self._empty, self.table, self.read, self.new, self.again)
        lines = column(self, space=2 * STEP)
        for part in (*self._parts, self.told, self.move_them, self.form):
            lines.addWidget(part)
        self.table.picked.connect(self._open)
        self.form.closed.connect(self._refresh)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def begin(self, book: FieldBook) -> None:
        """Open a book in the form."""
        self.form.begin(book, BookSettings(name=book.name))
        self._refresh()

    def _refresh(self) -> None:
        kept = {ItemId(b.name): b for b in books_of(self._session.document.plan)}
        idle = self.form.isHidden()
        self.table.show_items(
            tuple(kept), lambda n: (kept[n].name, kept[n].date, str(kept[n].lines)), None
        )
        self._empty.setVisible(idle and not kept)
        self.table.setVisible(idle and bool(kept))
        for part in (self.read, self.new):
            part.setVisible(idle)
            part.setEnabled(self._session.may_edit)
        self.again.setVisible(idle and bool(kept) and self._session.may_edit)
        self._tell("", 0)

    def _tell(self, words: str, count: int) -> None:
        self.told.setText(words)
        self.told.setVisible(bool(words))
        self.move_them.setText("Move it" if count == 1 else f"Move {count} things")
        self.move_them.setAccessibleName(self.move_them.text())
        self.move_them.setVisible(count > 0)

    def _open(self, name: str) -> None:
        self.begin(book_on(self._session.document.plan, name))

    def _new(self) -> None:
        self.begin(new_book(self._session.document.plan, today()))

    def _choose(self) -> None:
        path = self._desk.ask.file_to_open("Read a field book", SUFFIXES)
        if path is not None:
            self.read_file(path)

    def read_file(self, path: Path) -> None:
        """Read a field book beside the window, and open it in the form."""
        self._desk.background.in_thread(
            Work(
                about="reading a field book",
                title=f"Reading {path.name}",
                function=read_field_book,
                arguments=(path,),
                done=self.begin,
                failed=self._desk.say_why,
            )
        )

    def _look(self) -> None:
        self._desk.background.in_thread(
            Work(
                about="adjusting again",
                title="Adjusting the field books",
                function=moves_in_words,
                arguments=(self._session.document.plan,),
                done=self._looked,
                failed=self._desk.say_why,
            )
        )

    def _looked(self, found: tuple[str, int]) -> None:
        if self.form.isHidden():
            self._tell(*found)

    def _adjust(self) -> None:
        self._session.try_apply(AdjustFieldBooks())


SECTION = Section(
    name="field_books",
    title="Field books",
    order=30,
    help="Write or read what was taped, see how well it agrees, put the points on the plan.",
    widget=FieldBooks,
)
