"""Marks: which there are, how well they are known, and what can be set out from them."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.marks import MarkLine, mark_lines
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.mark_form import MarkForm
from plan_editor.desktop.parts import button, column, rule, text
from plan_editor.desktop.reach_map import ReachMap
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId

EMPTY = (
    "No mark yet. A mark is a point that will be there in thirty years, such as a corner of the"
    " church or a gatepost; pegs are taped from it."
)
HEIGHT = 44 * STEP


class Marks(QWidget):
    """The list of marks, the form for one, and the map of what they reach."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self._empty = text(self, EMPTY, "soft")
        self.table = ItemTable("Marks", ("Mark", "How to find it", "Stays", "Known to"), self)
        self.table.narrow(0, 2, 3)
        self.table.setFixedHeight(HEIGHT)
        self.new = button(self, "New mark", self._new)
        self.again = button(self, "Give it other coordinates", self._again)
        self.form = MarkForm(desk, self)
        self._said = text(self, "", "caution")
        self.map = ReachMap(desk, self)
        self._lay_out()
        self._row = ChosenRow(self.table, self._session, self._say)
        self.form.closed.connect(self._closed)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    @property
    def chosen(self) -> ItemId | None:
        """The mark that is chosen, or None."""
        return self._row.listed

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        for part in (self._empty, self.table, self.new, self.again, self.form, self._said):
            lines.addWidget(part)
        self._said.hide()
        lines.addSpacing(STEP)
        lines.addWidget(rule(self))
        lines.addSpacing(STEP)
        lines.addWidget(self.map)

    def _refresh(self) -> None:
        cells = {m.item: _cells(m) for m in mark_lines(self._session.document.plan)}
        self._row.show_items(tuple(cells), cells.__getitem__)
        self._say()

    def _say(self) -> None:
        there = bool(self.table.table.items)
        idle = self.form.isHidden()
        self._empty.setVisible(not there)
        self.table.setVisible(there and idle)
        self.new.setVisible(idle and self._session.may_edit)
        self.again.setVisible(idle and self._session.may_edit and self.chosen is not None)
        self.map.setVisible(there and idle)

    def _new(self) -> None:
        self._begin(None)

    def _again(self) -> None:
        if (item := self.chosen) is not None:
            self._begin(item)

    def _begin(self, item: ItemId | None) -> None:
        self._said.hide()
        self.form.begin(item)
        self._say()

    def _closed(self, said: str) -> None:
        self._said.setText(said)
        self._said.setVisible(bool(said))
        self._say()


def _cells(line: MarkLine) -> tuple[str, ...]:
    return line.number, line.description, "yes" if line.permanent else "no", line.sd


SECTION = Section(
    name="marks",
    title="Marks",
    order=20,
    help="Fixed points to measure from: add them, and see how well pegs can be set out.",
    widget=Marks,
)
