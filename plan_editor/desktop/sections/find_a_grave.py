"""Find a grave: a name, a year or a number is typed, and what fits is listed at once."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QLineEdit, QWidget
from typing_extensions import override

from plan_editor.commands.grave_sketch import graves_box, graves_sketch
from plan_editor.commands.size import thousands
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId
from plan_editor.printing.sheet import sheets
from plan_editor.records.looking_up import MOST, FoundGrave, Register, ready

EXAMPLE = "Part of a name, a year, a grave's number"
TYPE = "Names are found however they are spelt; several words narrow it down."
NOTHING = "Nothing fits. Try fewer letters, or the surname alone."
NOWHERE = "no grave known"
NOBODY = "nobody known"
SLIP = "slip"
"""The sheet for a visitor, where there is one."""

HEIGHT = 48 * STEP


class FindAGrave(QWidget):
    """A field, what fits, and the way to it. ``noted`` tells how much was found."""

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._register: Register | None = None
        self._found: dict[ItemId, FoundGrave] = {}
        self.field = QLineEdit(self)
        self.table = ItemTable("Found", ("Who", "Lies in"), self)
        self.table.narrow(1)
        self.said = text(self, TYPE, "soft")
        self.slip = button(self, "Slip for a visitor", self._show_slip)
        self._lay_out()
        self.field.textChanged.connect(self._look)
        self.field.returnPressed.connect(self._first)
        self.table.picked.connect(self._pick)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def _lay_out(self) -> None:
        self.field.setAccessibleName("Find a grave")
        self.field.setPlaceholderText(EXAMPLE)
        self.field.setClearButtonEnabled(True)
        self.table.setFixedHeight(HEIGHT)
        lines = column(self, space=2 * STEP)
        for part in (self.field, self.said, self.table, self.slip):
            lines.addWidget(part)
        self.table.hide()
        self.slip.hide()

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._desk.ground.show_sketch(None)

    def _refresh(self) -> None:
        self._desk.background.in_thread(
            Work(
                about="find a grave",
                title="",
                function=ready,
                arguments=(self._session.document.plan,),
                done=self._make_ready,
                failed=self._desk.say_why,
            )
        )

    def _make_ready(self, register: Register) -> None:
        self._register = register
        self._look()

    def _look(self, typed: str = "") -> None:
        del typed
        if self._register is None:
            return
        wanted = self.field.text().strip()
        self._found = {f.item: f for f in self._register.find(wanted)}
        self.table.show_items(tuple(self._found), self._cells, None)
        self.table.setVisible(bool(self._found))
        self.slip.hide()
        self._desk.ground.show_sketch(None)
        self.said.setText(self._words(wanted))

    def _words(self, wanted: str) -> str:
        if not wanted:
            self.noted.emit("")
            return TYPE
        count = len(self._found)
        self.noted.emit(thousands(count))
        if not count:
            return NOTHING
        many = f"The {MOST} that fit best" if count == MOST else f"{thousands(count)} found"
        return f"{many}. Choose one to see where it lies."

    def _cells(self, item: ItemId) -> tuple[str, str]:
        found = self._found[item]
        plan = self._session.document.plan
        lies = None if found.grave is None else plan.items.get(found.grave)
        if lies is None:
            return found.text, NOWHERE
        if found.item == found.grave:
            return NOBODY, lies.called()
        return found.text.removesuffix(f" – {lies.called()}"), lies.called()

    def _first(self) -> None:
        if self._found:
            self.table.selectRow(0)

    def _pick(self, key: str) -> None:
        found = self._found[ItemId(key)]
        plan = self._session.document.plan
        if found.item not in plan.items:
            return
        self._session.choose((found.item,))
        where = found.grave or found.item
        self._desk.ground.show_sketch(graves_sketch(plan, where))
        if (box := graves_box(plan, where)) is not None:
            self._desk.ground.look_at(box)
        self.said.setText(found.text)
        self.slip.setVisible(found.grave is not None and _slip_kinds() is not None)

    def _show_slip(self) -> None:
        chosen = self.table.currentIndex().row()
        found = tuple(self._found.values())[chosen]
        kinds = _slip_kinds() or ()
        item = self._session.document.plan.items.get(found.item)
        if item is not None and item.kind.name not in kinds and found.grave is not None:
            self._session.choose((found.grave,))
        self._desk.making.show_sheet(SLIP)


def _slip_kinds() -> tuple[str, ...] | None:
    """Return of what a visitor's slip can be made; None where there is no such sheet."""
    return next((s.about for s in sheets() if s.name == SLIP), None)


SECTION = Section(
    name="find_a_grave",
    job="records",
    title="Find a grave",
    order=10,
    help="Where somebody lies, by part of a name, a year or a number.",
    widget=FindAGrave,
)
