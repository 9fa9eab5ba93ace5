"""A table of items, a row each, chosen together with the ground."""

from collections.abc import Callable, Sequence
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

from plan_editor.desktop.parts import as_plain_table
from plan_editor.plan.item import ItemId

At = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()

ROWS_MEASURED = 40
"""So many rows tell how wide a column is."""


Cells = Callable[[ItemId], tuple[str, ...]]
"""The texts of one row. They are asked for when the row is seen."""


class Rows(QAbstractTableModel):
    """Rows as Qt wants them."""

    def __init__(self, heads: tuple[str, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self._heads = heads
        self.items: Sequence[ItemId] = ()
        self._cells: Cells = _no_cells

    def show_items(self, items: Sequence[ItemId], cells: Cells) -> None:
        """Show other rows."""
        self.beginResetModel()
        self.items = items
        self._cells = cells
        self.endResetModel()

    def show_heads(self, heads: tuple[str, ...]) -> None:
        """Show other columns, and no rows until there are some for them."""
        self.beginResetModel()
        self._heads = heads
        self.items = ()
        self.endResetModel()

    @override
    def rowCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.items)

    @override
    def columnCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._heads)

    @override
    def data(self, index: At, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return self._cells(self.items[index.row()])[index.column()]
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


def _no_cells(item: ItemId) -> tuple[str, ...]:
    raise LookupError(item)


class ItemTable(QTableView):
    """A table of items. ``picked`` tells the item whose row the user chose."""

    picked = Signal(str)

    def __init__(self, called: str, heads: tuple[str, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(called)
        self.table = Rows(heads, self)
        self.setModel(self.table)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        as_plain_table(self)
        across = self.horizontalHeader()
        across.setResizeContentsPrecision(ROWS_MEASURED)
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

    def show_items(self, items: Sequence[ItemId], cells: Cells, chosen: ItemId | None) -> None:
        """Show a row for each item, one of them chosen."""
        place = self.verticalScrollBar().value()
        self.table.show_items(items, cells)
        self.verticalScrollBar().setValue(place)
        self.mark(chosen)

    def mark(self, chosen: ItemId | None) -> None:
        """Choose the row of an item without telling anyone."""
        self._telling = False
        try:
            if chosen is not None and chosen in self.table.items:
                self.doItemsLayout()  # or a row that has just come cannot be scrolled to
                self.selectRow(self.table.items.index(chosen))
            else:
                self.clearSelection()
        finally:
            self._telling = True

    def _select(self, selected: QItemSelection, deselected: QItemSelection) -> None:
        del deselected
        if self._telling and (indexes := selected.indexes()):
            self.picked.emit(self.table.items[indexes[0].row()])
