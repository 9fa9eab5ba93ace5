"""The table of control points: used or left out, how far each is missed, how well known."""

from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QItemSelection,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QBrush, QColor, QFont, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget
from typing_extensions import override

from plan_editor.commands.control import Line
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.parts import as_plain_table

At = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
ROLE = Qt.ItemDataRole

HEADS = ("Mark", "Off, m", "Left out, m", "± m")
HELP = (
    "Ticked points take part in the fit. F2 changes the name.",
    "By how much the fit misses the point, in metres on the ground.",
    "By how much the fit to all the other points misses it.",
    "Its standard deviation, of mark and of reading the paper together. F2 changes it.",
)
NAME, OFF, LEFT_OUT, SD = range(4)
MOST_ROWS = 8


class ControlRows(QAbstractTableModel):
    """The points as Qt wants them. Signals tell what the user asked for; it changes nothing."""

    use = Signal(int, bool)
    call = Signal(int, str)
    know = Signal(int, str)

    def __init__(self, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        self.palette = palette
        self.lines: tuple[Line, ...] = ()

    def show_lines(self, lines: tuple[Line, ...]) -> None:
        """Show other points."""
        if lines and len(lines) == len(self.lines):
            self.lines = lines
            last = self.index(len(lines) - 1, len(HEADS) - 1)
            self.dataChanged.emit(self.index(0, 0), last)
        else:
            self.beginResetModel()
            self.lines = lines
            self.endResetModel()

    @override
    def rowCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.lines)

    @override
    def columnCount(self, parent: At = NOWHERE) -> int:
        return 0 if parent.isValid() else len(HEADS)

    @override
    def flags(self, index: At) -> Qt.ItemFlag:
        usual = super().flags(index)
        if index.column() == NAME:
            return usual | Qt.ItemFlag.ItemIsUserCheckable | Qt.ItemFlag.ItemIsEditable
        return usual | Qt.ItemFlag.ItemIsEditable if index.column() == SD else usual

    @override
    def data(self, index: At, role: int = ROLE.DisplayRole) -> Any:
        line, column = self.lines[index.row()], index.column()
        if role in (ROLE.DisplayRole, ROLE.EditRole):
            return (line.name, line.off, line.left_out, line.sd)[column]
        if role == ROLE.CheckStateRole and column == NAME:
            return Qt.CheckState.Checked if line.used else Qt.CheckState.Unchecked
        if role == ROLE.TextAlignmentRole and column != NAME:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return self._dress(line, role)

    @override
    def setData(self, index: At, value: Any, role: int = ROLE.EditRole) -> bool:
        row, column = index.row(), index.column()
        if role == ROLE.CheckStateRole:
            self.use.emit(row, Qt.CheckState(value) is Qt.CheckState.Checked)
        elif column == NAME:
            self.call.emit(row, str(value))
        else:
            self.know.emit(row, str(value))
        return True

    @override
    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = ROLE.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == ROLE.TextAlignmentRole and section != NAME:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        if role == ROLE.ToolTipRole:
            return HELP[section]
        return HEADS[section] if role == ROLE.DisplayRole else None

    def _dress(self, line: Line, role: int) -> Any:
        if role == ROLE.ForegroundRole and line.suspect:
            return QBrush(QColor(self.palette.rust))
        if role == ROLE.ForegroundRole and not line.used:
            return QBrush(QColor(self.palette.soft))
        if role == ROLE.FontRole and (line.suspect or not line.used):
            font = QFont()
            font.setBold(line.suspect)
            font.setStrikeOut(not line.used)
            return font
        return None


class ControlTable(QTableView):
    """The table. ``picked`` tells the row that was chosen, ``dropped`` the one to remove."""

    picked = Signal(int)
    dropped = Signal(int)

    def __init__(self, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Points of the fit")
        self.rows = ControlRows(palette, self)
        self.setModel(self.rows)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        edits = QAbstractItemView.EditTrigger
        self.setEditTriggers(edits.EditKeyPressed | edits.DoubleClicked)
        self._high = as_plain_table(self)
        across = self.horizontalHeader()
        across.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        across.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        across.setSectionResizeMode(NAME, QHeaderView.ResizeMode.Stretch)
        self.selectionModel().selectionChanged.connect(self._select)

    @property
    def chosen(self) -> int | None:
        """The row that is chosen, or None."""
        chosen = self.selectionModel().selectedRows()
        return chosen[0].row() if chosen else None

    def show_lines(self, lines: tuple[Line, ...]) -> None:
        """Show other points; the table is as high as they need, up to some rows."""
        more = len(lines) > len(self.rows.lines)
        self.rows.show_lines(lines)
        shown = min(max(len(lines), 1), MOST_ROWS)
        self.setFixedHeight(
            self.horizontalHeader().sizeHint().height() + shown * self._high + 4
        )
        self.setVisible(bool(lines))
        if more:
            self.scrollToBottom()

    @override
    def event(self, event: QEvent) -> bool:
        # here Delete means a point; the window's own would take the base plan off the plan
        ours = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Delete
        if ours and event.type() is QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        return super().event(event)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        # Qt ticks only where the key falls on the first cell; here the row is one thing
        if event.key() == Qt.Key.Key_Space and self.chosen is not None:
            self.rows.use.emit(self.chosen, not self.rows.lines[self.chosen].used)
        elif event.key() == Qt.Key.Key_Delete and self.chosen is not None:
            self.dropped.emit(self.chosen)
        else:
            super().keyPressEvent(event)

    def _select(self, selected: QItemSelection, deselected: QItemSelection) -> None:
        del selected, deselected
        self.picked.emit(-1 if self.chosen is None else self.chosen)
