"""Where the thing in hand lies, as numbers: coordinates, size, bearing, or corners."""

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from plan_editor.commands.typed_places import (
    Corner,
    HeldBy,
    Numeral,
    Place,
    corners,
    numerals,
    with_corner,
    with_numeral,
)
from plan_editor.desktop.card.field_row import FieldRow
from plan_editor.desktop.parts import Choice, as_plain_table, column, text
from plan_editor.desktop.theme import STEP
from plan_editor.edits.chosen import called
from plan_editor.edits.places import Reshape
from plan_editor.errors import PlanEditorError
from plan_editor.plan.detail import About, Detail, Value
from plan_editor.plan.item import Item
from plan_editor.session import Session

HEADS = ("Corner", "E", "N")
AXES = ("", "east", "north")
MOST_ROWS = 8
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
PLAIN = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
TYPED = PLAIN | Qt.ItemFlag.ItemIsEditable
MANY = "It has too many corners to list. The tool Reshape moves them by hand."


class PlaceForm(QWidget):
    """Each number that is typed over is one edit. It reads the plan and keeps no copy of it."""

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._item: Item[Any] | None = None
        self.rows: dict[str, FieldRow] = {}
        self.held = Choice(self)
        self.corners = CornersTable(self)
        self._told = text(self, "", "soft")
        self._sentence = text(self, "", "danger")
        self._lines = column(self, space=2 * STEP)
        for part in (self.held, self.corners, self._told, self._sentence):
            self._lines.addWidget(part)
        for way in HeldBy:
            self.held.addItem(f"Rectangle held {way.value}", way)
        self.held.setAccessibleName("By which place the rectangle is held")
        self.held.activated.connect(self._again)
        self.corners.itemChanged.connect(self._corner)

    @property
    def sentence(self) -> str:
        """Why what was typed for a corner will not do; empty where it does."""
        return self._sentence.text()

    def show_of(self, item: Item[Any] | None) -> bool:
        """Show where an item lies; return whether it has a place to be shown."""
        same = item is not None and self._item is not None and item.id == self._item.id
        self._item = item
        if not same:
            self._say("")
        numbers: tuple[Numeral, ...] = ()
        listed: tuple[Corner, ...] = ()
        if item is not None:
            grid = self._session.document.plan.grid
            numbers, listed = numerals(item, grid, self._way), corners(item, grid)
        has_place = item is not None and item.shape is not None and not item.kind.pinned
        self._show_numbers(numbers)
        self.held.setVisible(item is not None and item.rectangle is not None)
        self.corners.show_corners(listed, editable=self._session.may_edit)
        self._told.setText(MANY if has_place and not numbers and not listed else "")
        self._told.setVisible(bool(self._told.text()))
        return has_place

    @property
    def _way(self) -> HeldBy:
        return HeldBy(self.held.currentData() or HeldBy.CORNER)

    def _show_numbers(self, numbers: tuple[Numeral, ...]) -> None:
        if tuple(self.rows) != tuple(n.name for n in numbers):
            self._make_rows(numbers)
        for number in numbers:
            row = self.rows[number.name]
            if not (row.unfinished or row.sentence):
                row.show_text(number.text)
            row.set_editable(self._session.may_edit)

    def _make_rows(self, numbers: tuple[Numeral, ...]) -> None:
        for row in self.rows.values():
            row.hide()
            row.deleteLater()
        self.rows = {}
        for place, number in enumerate(numbers, 1):
            row = FieldRow(_detail(number), self)
            row.left.connect(self._take)
            self.rows[number.name] = row
            self._lines.insertWidget(place, row)

    def _again(self, index: int) -> None:
        del index
        for row in self.rows.values():
            row.show_text("")  # what was typed was meant for the other place
        self.show_of(self._item)

    def _take(self, name: str, typed: str) -> None:
        item, row = self._item, self.rows.get(name)
        if item is None or row is None or self.sender() is not row:
            return  # the field goes, with what it was about
        row.say("")
        try:
            grid = self._session.document.plan.grid
            self._give(item, with_numeral(item, grid, self._way, name, typed))
        except PlanEditorError as error:
            row.say(str(error))
        else:
            self.show_of(self._session.document.plan.items.get(item.id))

    def _corner(self, cell: QTableWidgetItem) -> None:
        if self.corners.telling or (item := self._item) is None:
            return
        grid = self._session.document.plan.grid
        self._say("")
        try:
            axis = AXES[cell.column()]
            self._give(item, with_corner(item, grid, cell.row(), axis, cell.text()))
        except PlanEditorError as error:
            self._say(str(error))
        self.show_of(self._session.document.plan.items.get(item.id))

    def _give(self, item: Item[Any], place: Place) -> None:
        self._session.apply(Reshape(id=item.id, place=place, called=called((item,))))

    def _say(self, sentence: str) -> None:
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))


class CornersTable(QTableWidget):
    """The corners of a line or an area; each coordinate can be typed over."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(0, len(HEADS), parent)
        self.telling = False
        self.setAccessibleName("Corners")
        self.setHorizontalHeaderLabels(HEADS)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        self._high = as_plain_table(self)
        across = self.horizontalHeader()
        across.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)

    def show_corners(self, listed: tuple[Corner, ...], *, editable: bool) -> None:
        """Show other corners; the table is as high as they need, up to some."""
        self.telling = True
        self.setRowCount(len(listed))
        for row, corner in enumerate(listed):
            for place, words in enumerate((corner.name, corner.east, corner.north)):
                cell = self._cell(row, place)
                cell.setText(words)
                cell.setFlags(TYPED if place and editable else PLAIN)
        self.telling = False
        self.setVisible(bool(listed))
        shown = min(len(listed), MOST_ROWS) + 1
        self.setFixedHeight(shown * self._high + 2 * STEP)

    def _cell(self, row: int, place: int) -> QTableWidgetItem:
        # one that was just typed into is not replaced while it tells so
        there = self.item(row, place)
        if there is not None:
            return there
        made = QTableWidgetItem()
        made.setTextAlignment(RIGHT)
        self.setItem(row, place, made)
        return made


def _detail(number: Numeral) -> Detail:
    return Detail(
        name=number.name,
        value=Value.TEXT,
        default="",
        optional=False,
        choices=(),
        about=About(title=number.title, unit=number.unit, help=number.help),
    )
