"""All entries of the register, kind by kind."""

from typing import Any

from PySide6.QtWidgets import QWidget

from plan_editor.commands.register import entries, line, new_entry, register_kinds
from plan_editor.commands.size import thousands
from plan_editor.desktop.background import Work
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import Choice, button, column, row, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Kind

HEIGHT = 80 * STEP


class Entries(QWidget):
    """A kind of entry to choose, its entries, and a button that adds one."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self._background = desk.background
        self._say_why = desk.say_why
        self._kinds = register_kinds()
        self._which = Choice(self)
        self._which.setAccessibleName("Which entries")
        self.table = ItemTable("Entries", ("Date", "About", "Says"), self)
        self.table.narrow(0, 1)
        self._empty = text(self, "", "soft")
        self.add = button(self, "Add an entry", self._add)
        self._lay_out()
        counts = [self._session.document.plan.count(k) for k in self._kinds]
        self._which.setCurrentIndex(next((n for n, c in enumerate(counts) if c), 0))
        self._which.currentIndexChanged.connect(self._turn)
        self._row = ChosenRow(self.table, self._session)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    @property
    def kind(self) -> Kind:
        """The kind whose entries are listed."""
        return self._kinds[max(self._which.currentIndex(), 0)]

    def show_kind(self, name: str) -> None:
        """List the entries of another kind."""
        self._which.setCurrentIndex(self._which.findData(name))

    def _lay_out(self) -> None:
        for kind in self._kinds:
            self._which.addItem(kind.plural, kind.name)
        lines = column(self, space=2 * STEP)
        across = QWidget(self)
        beside = row(across)
        beside.addWidget(self._which, 1)
        beside.addWidget(self.add)
        lines.addWidget(across)
        lines.addWidget(self._empty)
        lines.addWidget(self.table)
        self.table.setFixedHeight(HEIGHT)

    def _count(self) -> None:
        counts = [self._session.document.plan.count(k) for k in self._kinds]
        for number, kind in enumerate(self._kinds):
            self._which.setItemText(number, f"{kind.plural} ({thousands(counts[number])})")

    def _turn(self, index: int) -> None:
        del index
        self._follow.now()

    def _refresh(self) -> None:
        plan = self._session.document.plan
        self._count()
        self._background.in_thread(
            Work(
                about="records",
                title="",
                function=entries,
                arguments=(plan, self.kind),
                done=self._show,
                failed=self._say_why,
            )
        )

    def _show(self, found: tuple[Item[Any], ...]) -> None:
        self._row.show_items([i.id for i in found], self._line)
        self.table.setVisible(bool(found))
        self._empty.setVisible(not found)
        self._empty.setText(f"No {self.kind.plural.lower()} yet. {self.kind.help}")
        self.add.setEnabled(self._session.may_edit)

    def _line(self, item: ItemId) -> tuple[str, ...]:
        plan = self._session.document.plan
        there = plan.items.get(item)
        return ("", "", "") if there is None else line(plan, there)

    def _add(self) -> None:
        edit, item = new_entry(self.kind)
        self._session.try_apply(edit)
        self._session.choose((item.id,))


SECTION = Section(
    name="entries",
    job="records",
    title="All entries",
    order=90,
    help="Every entry without a place of its own, kind by kind, to be read and written.",
    widget=Entries,
)
