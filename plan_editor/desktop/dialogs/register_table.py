"""Rows of a register as a table has them, over each column what it holds, doubts in words."""

from collections.abc import Iterable
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QAbstractItemView, QTableWidget, QTableWidgetItem, QWidget

from plan_editor.commands.register_files import LookedRegister, Shown
from plan_editor.desktop.parts import Choice
from plan_editor.desktop.theme import STEP
from plan_editor.exchange.register_columns import COLUMNS, UNUSED, RegisterLayout

NOT_TAKEN = "not taken"
MOST = 200
"""So many rows are shown, doubtful ones first."""

MARK = "? "
"""Stands before a doubtful cell, so that no colour need tell it."""

LINE, DOUBT, FIRST = range(3)
LEAST_WIDTH = 44 * STEP
DOUBT_WIDTH = 80 * STEP


class RegisterTable(QTableWidget):
    """A table with a choice over each column; ``changed`` when one was made."""

    changed = Signal()

    def __init__(self, looked: LookedRegister, layout: RegisterLayout, parent: QWidget) -> None:
        super().__init__(parent)
        self._layout = layout
        self.choices: list[Choice] = []
        self.setAccessibleName("Rows of the table")
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        heads = [head or f"column {n}" for n, head in enumerate(looked.layout.heads, 1)]
        self.setColumnCount(FIRST + len(heads))
        self.setHorizontalHeaderLabels(["Line", "Doubtful", *heads])
        self._choose()

    @property
    def layout_now(self) -> RegisterLayout:
        """What the columns hold as it is chosen now."""
        names = tuple(str(choice.currentData()) for choice in self.choices)
        return replace(self._layout, names=names)

    def show_rows(self, rows: Iterable[Shown]) -> None:
        """Show other rows below the choices."""
        self.setRowCount(1)
        for shown in rows:
            at = self.rowCount()
            self.insertRow(at)
            self._put(at, LINE, str(shown.line))
            self._put(at, DOUBT, shown.why)
            for place, cell in enumerate(shown.cells):
                head = self._layout.heads[place]
                doubtful = bool(head) and head in shown.doubtful
                self._put(at, FIRST + place, f"{MARK}{cell}" if doubtful else cell)
        for place in range(self.columnCount()):
            least = {LINE: 0, DOUBT: DOUBT_WIDTH}.get(place, LEAST_WIDTH)
            self.setColumnWidth(
                place, max(self.sizeHintForColumn(place) * (place != DOUBT), least)
            )

    def doubt_at(self, row: int) -> str:
        """Return what is doubtful in a row, after its line; empty where all is well."""
        line, doubt = self.item(row, LINE), self.item(row, DOUBT)
        if line is None or doubt is None or not doubt.text():
            return ""
        return f"Line {line.text()}: {doubt.text()}."

    def _put(self, row: int, place: int, words: str) -> None:
        item = QTableWidgetItem(words)
        item.setToolTip(words)
        self.setItem(row, place, item)

    def _choose(self) -> None:
        self.insertRow(0)
        self._put(0, DOUBT, "What each column holds:")
        for place, name in enumerate(self._layout.names):
            choice = Choice(self)
            choice.addItem(NOT_TAKEN, UNUSED)
            for known, title in COLUMNS.items():
                choice.addItem(title, known)
            choice.setCurrentIndex(max(choice.findData(name), 0))
            choice.setAccessibleName(f"Column {place + 1} holds")
            choice.activated.connect(self._chosen)
            self.choices.append(choice)
            self.setCellWidget(0, FIRST + place, choice)
        self.setRowHeight(0, self.choices[0].sizeHint().height() + 4)

    def _chosen(self) -> None:
        """Let no other column hold what was chosen of this."""
        made = self.sender()
        for choice in self.choices:
            same = isinstance(made, Choice) and choice.currentData() == made.currentData()
            if choice is not made and same:
                choice.setCurrentIndex(0)
        self.changed.emit()
