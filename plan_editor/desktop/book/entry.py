"""The fields for one line of a field book: those that its sort asks for."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from PySide6.QtCore import QStringListModel, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCompleter, QGridLayout, QLabel, QLineEdit, QWidget
from typing_extensions import override

from plan_editor.commands.book_drafts import CELLS, FROM, MEANS, MORE, POINT
from plan_editor.desktop.parts import Choice, button, column, row, text
from plan_editor.desktop.theme import STEP
from plan_editor.survey.books.field_book import Sort

SIDES = (("", ""), ("left", "left"), ("right", "right"))
SIDE = "side"
NAMED = ("from", "to", "point", "back")
ACROSS = 2
"""So many fields stand side by side."""


class Entry(QWidget):
    """``given`` when Enter was pressed in a field, ``left`` when Esc was."""

    given = Signal()
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.sort = Choice(self)
        self.sort.setAccessibleName("Sort of line")
        for sort in Sort:
            self.sort.addItem(sort.value.capitalize(), sort)
        self._means = text(self, "", "soft")
        self.fields: dict[str, QLineEdit] = {}
        self.side = Choice(self)
        self._labels: dict[str, QLabel] = {}
        self._names = QStringListModel(self)
        self._grid = QWidget(self)
        self._more = False
        self.more = button(self, "More", self._turn, "link")
        self._make()
        self._lay_out()
        self.sort.activated.connect(self._sorted)
        self._arrange()

    @property
    def chosen(self) -> Sort:
        """The sort of the line."""
        return Sort(self.sort.currentData())

    @property
    def texts(self) -> Mapping[str, str]:
        """What is written, by column, of the fields that are shown."""
        told = {
            name: field.text() for name, field in self.fields.items() if name in self._shown()
        }
        if SIDE in self._shown():
            told[SIDE] = str(self.side.currentData())
        return {"type": self.chosen.value, **told}

    def write(self, texts: Mapping[str, str]) -> None:
        """Show a line that is to be changed."""
        self.sort.setCurrentIndex(list(Sort).index(Sort(texts.get("type", Sort.TIE))))
        self._more = self._more or any(texts.get(cell.column) for cell in MORE[:3])
        self._arrange()
        for name, field in self.fields.items():
            field.setText(texts.get(name, ""))
        self._say_side(texts.get(SIDE, ""))

    def next_line(self) -> None:
        """Empty the fields for the next line: what it begins with is mostly the same."""
        keep = ("from",) if self.chosen is not Sort.OFFSET else ("from", "to")
        for name, field in self.fields.items():
            if name not in keep:
                field.clear()
        self._say_side("")
        self.begin(POINT.column if self.chosen is Sort.OFFSET else FROM.column)

    def begin(self, column: str = FROM.column) -> None:
        """Take the keys to a field."""
        self.fields[column].setFocus(Qt.FocusReason.OtherFocusReason)
        self.fields[column].selectAll()

    def correct(self, columns: Sequence[str]) -> None:
        """Take the keys to the first field that is shown of these; what it holds stays."""
        if wrong := [name for name in self._shown() if name in columns]:
            self._editor(wrong[0]).setFocus(Qt.FocusReason.OtherFocusReason)

    def suggest(self, names: Iterable[str]) -> None:
        """Complete names of marks and points from these."""
        self._names.setStringList(sorted(names))

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _make(self) -> None:
        cells = {c.column: c for cells in CELLS.values() for c in cells} | {
            c.column: c for c in MORE
        }
        for name, cell in cells.items():
            self._labels[name] = QLabel(cell.title, self._grid)
            if name == SIDE:
                self.side.setParent(self._grid)
                self._labels[name].setBuddy(self.side)
                self.side.setAccessibleName(cell.title)
                continue
            field = QLineEdit(self._grid)
            field.returnPressed.connect(self.given)
            if name in NAMED:
                field.setCompleter(self._completer(field))
            self._labels[name].setBuddy(field)
            self.fields[name] = field
        for words, value in SIDES:
            self.side.addItem(words, value)

    def _completer(self, field: QLineEdit) -> QCompleter:
        made = QCompleter(self._names, field)
        made.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        return made

    def _lay_out(self) -> None:
        top = QWidget(self)
        across = row(top)
        across.addWidget(self.sort, 1)
        across.addWidget(self.more)
        lines = column(self, space=STEP)
        for part in (top, self._means, self._grid):
            lines.addWidget(part)
        grid = QGridLayout(self._grid)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(2 * STEP)
        grid.setVerticalSpacing(STEP)

    def _sorted(self, index: int) -> None:
        del index
        self._arrange()

    def _turn(self) -> None:
        self._more = not self._more
        self._arrange()

    def _shown(self) -> tuple[str, ...]:
        cells = (*CELLS[self.chosen], *(MORE if self._more else ()))
        return tuple(cell.column for cell in cells)

    def _arrange(self) -> None:
        self._means.setText(MEANS[self.chosen])
        self.more.setText("Less" if self._more else "More")
        self.more.setAccessibleName(self.more.text())
        cells = {c.column: c for c in (*CELLS[self.chosen], *MORE)}
        shown = self._shown()
        grid = self._grid.layout()
        assert isinstance(grid, QGridLayout)  # noqa: S101  # made above
        for name, label in self._labels.items():
            label.setVisible(name in shown)
            self._editor(name).setVisible(name in shown)
        for place, name in enumerate(shown):
            line, at = divmod(place, ACROSS)
            label, editor, cell = self._labels[name], self._editor(name), cells[name]
            label.setText(cell.title)
            editor.setAccessibleName(cell.title)
            if isinstance(editor, QLineEdit):
                editor.setPlaceholderText(cell.example)
            grid.addWidget(label, 2 * line, at)
            grid.addWidget(editor, 2 * line + 1, at)
        order = [self.sort, self.more, *map(self._editor, shown)]
        for before, after in pairwise(order):
            QWidget.setTabOrder(before, after)

    def _editor(self, name: str) -> QWidget:
        return self.side if name == SIDE else self.fields[name]

    def _say_side(self, words: str) -> None:
        self.side.setCurrentIndex([value for _, value in SIDES].index(words))
