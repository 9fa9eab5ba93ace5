"""A list of things that go step by step: one is chosen, and a form records its next step."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from plan_editor.desktop.background import Work
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.step_form import Made, StepForm
from plan_editor.plan.detail import Detail
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """What a list shows.

    Args:
        about: what the work of finding it is about.
        rows: returns of a plan the items in their order, each with the texts of its row.
        heads: of the columns.
        called: the accessible name of the list.
        narrow: columns that are as wide as what stands in them.
    """

    about: str
    rows: Callable[[Plan], dict[ItemId, tuple[str, ...]]]
    heads: tuple[str, ...]
    called: str
    narrow: tuple[int, ...] = ()


class StepList(QObject):
    """A table and a form that stands alone while it is open; ``told`` says what is chosen."""

    def __init__(
        self, desk: Desk, section: QWidget, listed: Listed, told: Callable[[], None]
    ) -> None:
        super().__init__(section)
        self._desk = desk
        self._listed = listed
        self._told = told
        self.table = ItemTable(listed.called, listed.heads, section)
        self.table.narrow(*listed.narrow)
        self.form = StepForm(desk.session, section)
        self.form.closed.connect(self._end)
        self._row = ChosenRow(self.table, desk.session, self._turn)
        self._follow = Follow(section, self._refresh, desk.session.document.changed)

    @property
    def item(self) -> ItemId | None:
        """The one thing that is chosen, in the list or not."""
        return self._row.item

    @property
    def idle(self) -> bool:
        """Whether no form is open."""
        return self.form.isHidden()

    def begin(
        self,
        title: str,
        fields: tuple[Detail, ...],
        usual: dict[str, Any],
        made: Made,
        note: str = "",
    ) -> None:
        """Open the form, as ``StepForm.begin`` says."""
        self.form.begin(title, fields, usual, made, note)
        self._desk.roomy.emit(True)  # the card gives way
        self._told()

    def give_way(self, *parts: QWidget) -> None:
        """Show the form alone while it is open, else the list, if there is any, and parts."""
        for part in parts:
            part.setVisible(self.idle)
        self.table.setVisible(self.idle and bool(self.table.table.items))

    def _refresh(self) -> None:
        self._desk.background.in_thread(
            Work(
                about=self._listed.about,
                title="",
                function=self._listed.rows,
                arguments=(self._desk.session.document.plan,),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, rows: dict[ItemId, tuple[str, ...]]) -> None:
        self._row.show_items(tuple(rows), rows.__getitem__)
        self._told()

    def _turn(self) -> None:
        if self.idle:
            self._told()
        else:
            self.form.hide()
            self._end()

    def _end(self) -> None:
        self._desk.roomy.emit(False)  # the card has its room again
        self._told()
