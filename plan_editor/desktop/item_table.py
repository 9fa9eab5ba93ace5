"""A table of items, a row each, chosen together with the ground."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelection,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget
from typing_extensions import override

from plan_editor.plan.item import ItemId

At = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table: the item that it stands for, and its cells."""

    item: ItemId
    cells: tuple[str, ...]


class Rows(QAbstractTableModel):
    """Rows as Qt wants them."""

    def __init__(self, heads: tuple[str, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self._heads = heads
        self.rows: Sequence[Row] = ()

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show other rows."""
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    @override
    def rowCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.rows)

    @override
    def columnCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._heads)

    @override
    def data(self, index: At, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return self.rows[index.row()].cells[index.column()]
        return None

    @override
    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        if role == Qt.ItemDataRole.DisplayRole and orientation is Qt.Orientation.Horizontal:
            return self._heads[section]
        return None


class ItemTable(QTableView):
    """A table of items. ``picked`` tells the item whose row the user chose."""

    picked = Signal(str)

    def __init__(self, called: str, heads: tuple[str, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(called)
        self.table = Rows(heads, self)
        self.setModel(self.table)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().lineSpacing() + 10)
        across = self.horizontalHeader()
        across.setHighlightSections(False)
        across.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        across.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self._telling = True
        self.selectionModel().selectionChanged.connect(self._select)

    def narrow(self, *columns: int) -> None:
        """Let columns be as wide as what stands in them."""
        for column in columns:
            self.horizontalHeader().setSectionResizeMode(
                column, QHeaderView.ResizeMode.ResizeToContents
            )

    def show_rows(self, rows: Sequence[Row], chosen: ItemId | None) -> None:
        """Show rows, one of them chosen."""
        place = self.verticalScrollBar().value()
        self.table.show_rows(rows)
        self.verticalScrollBar().setValue(place)
        self.mark(chosen)

    def mark(self, chosen: ItemId | None) -> None:
        """Choose the row of an item without telling anyone."""
        self._telling = False
        try:
            number = next((n for n, r in enumerate(self.table.rows) if r.item == chosen), None)
            if number is None:
                self.clearSelection()
            else:
                self.selectRow(number)
        finally:
            self._telling = True

    def _select(self, selected: QItemSelection, deselected: QItemSelection) -> None:
        del deselected
        if self._telling and (indexes := selected.indexes()):
            self.picked.emit(self.table.rows[indexes[0].row()].item)
