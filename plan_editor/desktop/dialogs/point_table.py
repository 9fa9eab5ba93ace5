"""The first lines of a point file, and over each column what it holds."""

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QAbstractItemView, QTableWidget, QTableWidgetItem, QWidget

from plan_editor.commands.point_files import Looked
from plan_editor.desktop.parts import Choice
from plan_editor.desktop.theme import STEP
from plan_editor.exchange.point_columns import Layout, Role

LINES = 8
"""So many lines of the file are shown."""

MANY = frozenset({Role.UNUSED, Role.SD, Role.WORDS})
"""What more than one column may hold."""

LEAST_WIDTH = 38 * STEP
"""So that the longest thing a column may hold can be read."""

GPX_HEADS = ("point", "latitude", "longitude", "code", "description")


class PointTable(QTableWidget):
    """A table with a choice over each column; ``changed`` when one was made."""

    changed = Signal()

    def __init__(self, looked: Looked, parent: QWidget) -> None:
        super().__init__(parent)
        self._layout = looked.layout
        self.choices: list[Choice] = []
        self.setAccessibleName("First lines of the file")
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.verticalHeader().hide()
        self.setWordWrap(False)
        heads, rows = _shown(looked)
        self.setColumnCount(len(heads))
        self.setHorizontalHeaderLabels(list(heads))
        if self._layout is not None:
            self._choose(self._layout)
        for cells in rows:
            at = self.rowCount()
            self.insertRow(at)
            for place, cell in enumerate(cells):
                self.setItem(at, place, QTableWidgetItem(cell))
        self.resizeColumnsToContents()
        for place in range(self.columnCount()):
            self.setColumnWidth(place, max(self.columnWidth(place), LEAST_WIDTH))

    @property
    def layout_now(self) -> Layout | None:
        """What the columns hold as it is chosen now; None of a file that tells it itself."""
        if self._layout is None:
            return None
        roles = self._roles()
        as_guessed = self._layout.guessed and roles == self._layout.roles
        return replace(self._layout, roles=roles, guessed=as_guessed)

    def _roles(self) -> tuple[Role, ...]:
        return tuple(Role(choice.currentText()) for choice in self.choices)

    def _choose(self, layout: Layout) -> None:
        self.insertRow(0)
        for place, role in enumerate(layout.roles):
            choice = Choice(self)
            choice.addItems([r.value for r in Role])
            choice.setCurrentText(role.value)
            choice.setAccessibleName(f"Column {place + 1} holds")
            choice.activated.connect(self._chosen)
            self.choices.append(choice)
            self.setCellWidget(0, place, choice)
        self.setRowHeight(0, self.choices[0].sizeHint().height() + 4)

    def _chosen(self) -> None:
        """Let no other column hold what was chosen of this."""
        made = self.sender()
        for choice in self.choices:
            same = isinstance(made, Choice) and choice.currentText() == made.currentText()
            if choice is not made and same and Role(choice.currentText()) not in MANY:
                choice.setCurrentText(Role.UNUSED.value)
        self.changed.emit()


def _shown(looked: Looked) -> tuple[Sequence[str], Sequence[tuple[str, ...]]]:
    """Return the heads of the columns and the first lines."""
    if looked.table is None or looked.layout is None:
        points = looked.gpx.points[:LINES] if looked.gpx else ()
        rows = [(p.name, f"{p.y:.7f}", f"{p.x:.7f}", p.code, p.words) for p in points]
        return GPX_HEADS, rows
    heads = [name or f"column {n}" for n, name in enumerate(looked.layout.names, 1)]
    first = looked.layout.first
    return heads, [row.cells for row in looked.table.rows[first : first + LINES]]
