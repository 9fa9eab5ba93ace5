"""The log of a plan as a table: a row for each entry, made when it is seen."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelection,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget
from typing_extensions import override

from plan_editor.commands.history import Log, day_in_words, line_words
from plan_editor.desktop.parts import as_plain_table
from plan_editor.storage.log import Line

At = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
HEADS = ("When", "What was done")
ROLE = Qt.ItemDataRole


class LogRows(QAbstractTableModel):
    """Rows as Qt wants them; what is taken back is struck out, and says so."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._log = Log()
        self.lines: Sequence[Line] = ()
        self._struck = QFont()
        self._struck.setStrikeOut(True)

    def show_lines(self, log: Log, lines: Sequence[Line]) -> None:
        """Show other rows."""
        self.beginResetModel()
        self._log, self.lines = log, lines
        self.endResetModel()

    @override
    def rowCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.lines)

    @override
    def columnCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(HEADS)

    @override
    def data(self, index: At, role: int = ROLE.DisplayRole) -> Any:
        one = self.lines[index.row()]
        match role:
            case ROLE.DisplayRole:
                return self._told(one) if index.column() else day_in_words(one.when)
            case ROLE.ToolTipRole | ROLE.AccessibleDescriptionRole:
                return f"{self._log.told(one)}\n{line_words(self._log, one)}"
            case ROLE.FontRole if index.column() and one.number in self._log.taken_back:
                return self._struck
        return None

    @override
    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = ROLE.DisplayRole
    ) -> Any:
        across = orientation is Qt.Orientation.Horizontal
        return HEADS[section] if across and role == ROLE.DisplayRole else None

    def _told(self, one: Line) -> str:
        return self._log.told(one)


class LogTable(QTableView):
    """``picked`` tells the number of the entry whose row the user chose."""

    picked = Signal(int)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("What was done")
        self.rows = LogRows(self)
        self.setModel(self.rows)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        as_plain_table(self)
        # every row is as high as every other, so that ten thousand cost no more than ten
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        across = self.horizontalHeader()
        across.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        across.setStretchLastSection(True)
        wide = self.fontMetrics().horizontalAdvance("30 September 2026") + 24
        across.resizeSection(0, wide)
        self._telling = True
        self.selectionModel().selectionChanged.connect(self._select)

    def show_lines(self, log: Log, lines: Sequence[Line], chosen: int | None) -> None:
        """Show these rows, one of them chosen, where it is among them; nobody is told."""
        place = self.verticalScrollBar().value()
        self._telling = False
        self.rows.show_lines(log, lines)
        for row, one in enumerate(lines):
            if one.number == chosen:
                self.selectRow(row)
                break
        self._telling = True
        self.verticalScrollBar().setValue(place)

    def _select(self, selected: QItemSelection, deselected: QItemSelection) -> None:
        del deselected
        if self._telling and (indexes := selected.indexes()):
            self.picked.emit(self.rows.lines[indexes[0].row()].number)
