"""Kept places: the pieces of the ground that somebody wants to come back to."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.kept_places import keep_place, kept_places
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import Item, ItemId

EMPTY = (
    "No place is kept yet. Look at a piece of the ground and keep it: later it is found by its"
    " name, here or in the field above."
)
HEIGHT = 36 * STEP


class Places(QWidget):
    """The list of kept places; choosing one goes there."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._empty = text(self, EMPTY, "soft")
        self.table = ItemTable("Kept places", ("Name", "Remarks"), self)
        self.table.narrow(0)
        self.table.setFixedHeight(HEIGHT)
        self.keep = button(self, "Keep what is seen now", self._keep)
        lines = column(self, space=2 * STEP)
        for part in (self._empty, self.table, self.keep):
            lines.addWidget(part)
        self._row = ChosenRow(self.table, self._session)
        self.table.picked.connect(self._go_there)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def _refresh(self) -> None:
        items = {i.id: i for i in kept_places(self._session)}
        self._row.show_items(tuple(items), lambda n: _cells(items[n]))
        self._empty.setVisible(not items)
        self.table.setVisible(bool(items))
        self.keep.setVisible(self._session.may_edit)

    def _go_there(self, item: str) -> None:
        there = self._session.document.plan.items[ItemId(item)]
        if (box := there.kind.view_m(there.details)) is not None:
            self._desk.ground.look_at(box)

    def _keep(self) -> None:
        try:
            keep_place(self._session, self._desk.ask)
        except PlanEditorError as error:
            self._desk.say_why(error)


def _cells(item: Item) -> tuple[str, ...]:
    return str(getattr(item.details, item.kind.label)), " ".join(
        str(item.details.remarks).split()
    )


SECTION = Section(
    name="places",
    job="trace",
    title="Kept places",
    order=70,
    help="Pieces of the ground to come back to, by a name.",
    widget=Places,
)
