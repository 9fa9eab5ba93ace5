"""The lines of a field book in a table: used or left out, by how much each is off."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)
from typing_extensions import override

from plan_editor.commands.book_words import Row
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.parts import as_plain_table

HEADS = ("Line", "Measured", "Off", "×")
HELP = (
    "Ticked lines are used. A line that is left out stays in the book.",
    "From where to where, in metres and degrees as they were read.",
    "Adjusted less measured, in metres or degrees.",
    "How many of its standard deviations that is: over about 3½ is a blunder.",
)
MOST_ROWS = 7
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class LinesTable(QTableWidget):
    """``picked`` tells a line to change, ``ticked`` one used or not, ``dropped`` one gone."""

    picked = Signal(int)
    ticked = Signal(int, bool)
    dropped = Signal(int)

    def __init__(self, palette: Palette, parent: QWidget) -> None:
        super().__init__(0, len(HEADS), parent)
        self.setAccessibleName("Lines of the field book")
        self.look = palette
        self.lines: tuple[Row, ...] = ()
        self._telling = True
        for place, (head, words) in enumerate(zip(HEADS, HELP, strict=True)):
            cell = QTableWidgetItem(head)
            cell.setToolTip(words)
            self.setHorizontalHeaderItem(place, cell)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self._high = as_plain_table(self)
        across = self.horizontalHeader()
        across.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        across.setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
        self.itemChanged.connect(self._changed)
        self.itemSelectionChanged.connect(self._selected)

    @property
    def chosen(self) -> int | None:
        """The place of the line that is chosen, or None."""
        chosen = self.selectionModel().selectedRows()
        return chosen[0].row() if chosen else None

    def show_lines(self, lines: tuple[Row, ...]) -> None:
        """Show other lines; the table is as high as they need, up to some."""
        at, more = self.chosen, len(lines) > self.rowCount()
        place = self.verticalScrollBar().value()
        self.lines = lines
        self._telling = False
        self.setRowCount(len(lines))
        for number, line in enumerate(lines):
            self._show(number, line)
        if at is not None and at < len(lines):
            self.selectRow(at)
        else:  # Qt chooses the next row where the chosen one goes
            self.clearSelection()
        self._telling = True
        shown = min(max(len(lines), 1), MOST_ROWS)
        self.setFixedHeight(
            self.horizontalHeader().sizeHint().height() + shown * self._high + 4
        )
        self.setVisible(bool(lines))
        self.verticalScrollBar().setValue(place)
        if more:
            self.scrollToBottom()

    def look_at_doubt(self) -> None:
        """Show the line that is the most likely blunder, if there is one."""
        doubtful = [n for n, line in enumerate(self.lines) if line.suspect == 1]
        if doubtful:
            middle = QAbstractItemView.ScrollHint.PositionAtCenter
            self.scrollTo(self.model().index(doubtful[0], 1), middle)

    def let_go(self) -> None:
        """Choose no line, and tell nobody."""
        self._telling = False
        self.clearSelection()
        self._telling = True

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete and self.chosen is not None:
            self.dropped.emit(self.chosen)
        elif event.key() == Qt.Key.Key_Space and self.chosen is not None:
            self.ticked.emit(self.chosen, not self.lines[self.chosen].used)
        else:
            super().keyPressEvent(event)

    def _show(self, number: int, line: Row) -> None:
        doubt = " ?" if line.suspect else ""
        told = f"{line.what}: {line.measured}"
        cells = (f"{line.line}{doubt}", told, line.off, line.times)
        for place, words in enumerate(cells):
            cell = QTableWidgetItem(words)
            cell.setToolTip(line.told)
            if place > 1:
                cell.setTextAlignment(RIGHT)
            if place == 0:
                state = Qt.CheckState
                cell.setCheckState(state.Checked if line.used else state.Unchecked)
            self._dress(cell, line)
            self.setItem(number, place, cell)

    def _dress(self, cell: QTableWidgetItem, line: Row) -> None:
        font = cell.font()
        font.setBold(bool(line.suspect))
        font.setStrikeOut(not line.used)
        cell.setFont(font)
        if line.suspect:
            cell.setForeground(QColor(self.look.rust))
        elif not line.used:
            cell.setForeground(QColor(self.look.soft))

    def _changed(self, cell: QTableWidgetItem) -> None:
        if self._telling and cell.column() == 0:
            self.ticked.emit(cell.row(), cell.checkState() is Qt.CheckState.Checked)

    def _selected(self) -> None:
        if self._telling and self.chosen is not None:
            self.picked.emit(self.chosen)
