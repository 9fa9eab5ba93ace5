"""This month: what needs doing, overdue first, and how much the months to come hold."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTreeWidget,
    QTreeWidgetItem,
    QWidget,
)

from plan_editor.commands.month import box_to_show
from plan_editor.commands.today import today
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.month_strip import MonthStrip
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.month_words import CAUTION, KEY, day_told, group_title, headline
from plan_editor.printing.sheet import Asked
from plan_editor.records.due import Due
from plan_editor.records.month import Ahead, Group, Part, ahead

HEIGHT = 80 * STEP
FOLDED = 40
"""Longer groups are shown closed."""

CHOOSE = "Choose a line, and the window goes to its thing."

DAY, WHAT = range(2)
HERE = Qt.ItemDataRole.UserRole


class ThisMonth(QWidget):
    """Twelve months as a strip, and what is due in the chosen one, group by group."""

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._found: Ahead | None = None
        self._dues: tuple[Due, ...] = ()
        self._said = text(self, "", "strong")
        self.strip = MonthStrip(desk.palette, self)
        self.tree = QTreeWidget(self)
        self._month = text(self, "", "soft")
        self._about = text(self, CHOOSE, "soft")
        self.write = button(self, "Calendar file…", self._write)
        self.print = button(self, "Print this month…", self._print)
        self._lay_out()
        self._listen()

    def _lay_out(self) -> None:
        self.tree.setAccessibleName("What is due")
        self.tree.setHeaderLabels(("Day", "What"))
        self.tree.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.tree.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.tree.setIndentation(4 * STEP)
        self.tree.setFixedHeight(HEIGHT)
        across = self.tree.header()
        across.setSectionResizeMode(DAY, QHeaderView.ResizeMode.ResizeToContents)
        across.setSectionResizeMode(WHAT, QHeaderView.ResizeMode.Stretch)
        self.write.setToolTip("Write all that is due for the calendar of another program")
        lines = column(self, space=2 * STEP)
        for part in (
            self._said,
            self.strip,
            text(self, KEY, "soft"),
            self._month,
            self.tree,
            self._about,
            side_by_side(self, self.write, self.print),
            text(self, CAUTION, "caution"),
        ):
            lines.addWidget(part)

    def _listen(self) -> None:
        self.strip.picked.connect(self._show_month)
        self.tree.currentItemChanged.connect(self._pick)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(self, self._desk.dressed.connect(self.strip.dress))

    def _refresh(self) -> None:
        self._desk.background.in_thread(
            Work(
                about="this month",
                title="",
                function=ahead,
                arguments=(self._session.document.plan, today()),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, found: Ahead) -> None:
        self._found = found
        self._said.setText(headline(found))
        overdue = found.counts[0].overdue
        self.noted.emit(f"{overdue} overdue" if overdue else "")
        self.strip.show_counts(found.counts)
        self._show_month(self.strip.month)

    def _show_month(self, month: str) -> None:
        groups = () if self._found is None else self._found.of(month)
        self._dues = tuple(d for g in groups for d in g.dues)
        blocked = self.tree.blockSignals(True)  # Qt's own setter
        self.tree.clear()
        first = 0
        for group in groups:
            self._add(group, first)
            first += len(group.dues)
        self.tree.blockSignals(blocked)
        self.tree.setVisible(bool(groups))
        self._about.setText(CHOOSE)
        self._about.setVisible(bool(groups))
        named = in_words(month)
        self._month.setText(named if groups else f"{named}: nothing is due.")

    def _add(self, group: Group, first: int) -> None:
        head = QTreeWidgetItem(self.tree, (group_title(group),))
        head.setFirstColumnSpanned(True)
        bold = QFont(self.tree.font())
        bold.setWeight(QFont.Weight.DemiBold)
        head.setFont(DAY, bold)
        for place, due in enumerate(group.dues, first):
            line = QTreeWidgetItem(head, (day_told(due), due.title))
            line.setData(DAY, HERE, place)
            line.setToolTip(WHAT, f"{due.title}\n{due.says}")
        head.setExpanded(len(group.dues) <= FOLDED and group.part is not Part.UNDATED)

    def _pick(self, line: QTreeWidgetItem | None, before: QTreeWidgetItem | None) -> None:
        del before
        place = None if line is None else line.data(DAY, HERE)
        if place is None:
            self._about.setText(CHOOSE)
            return
        due = self._dues[place]
        self._about.setText(due.says or due.title)
        plan = self._session.document.plan
        if due.item is None or due.item not in plan.items:
            return
        self._session.choose((due.item,))
        if (box := box_to_show(plan, due.item)) is not None:
            self._desk.ground.look_at(box)

    def _write(self) -> None:
        self._desk.making.write_calendar(today())

    def _print(self) -> None:
        self._desk.making.print_sheet("month", Asked(date=today()))


SECTION = Section(
    name="this_month",
    job="records",
    title="This month",
    order=5,
    help="What needs doing, overdue first, and how much the twelve months to come hold.",
    widget=ThisMonth,
)
