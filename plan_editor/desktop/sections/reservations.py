"""Spaces reserved by faculty: until when, and which to release."""

from functools import partial

from PySide6.QtWidgets import QWidget

from plan_editor.commands.reserving import (
    CAUTION,
    ReservationLine,
    may_be_reserved,
    release,
    reservation_lines,
    reserve_from,
    reserving_fields,
)
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_form import StepForm
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId

CHOOSE = "Choose a free space on the ground to reserve it, or a reservation to release it."
HEIGHT = 28 * STEP


class Reservations(QWidget):
    """The reservations, what can be done with the chosen one or the chosen space, a form."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.table = ItemTable("Reservations", ("Space", "Faculty", "Ends"), self)
        self.table.narrow(0, 2)
        self.told = text(self, CHOOSE, "soft")
        self.reserve = button(self, "Reserve the space", self._begin)
        self.release = button(self, "Release the space", self._release)
        self.form = StepForm(self._session, self)
        self._lay_out()
        self.table.picked.connect(self._pick)
        self.form.closed.connect(self._end)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(self, self._session.chosen_changed.connect(self._mark))
        self._say()

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        self._buttons = side_by_side(self, self.reserve, self.release)
        for part in (self.table, self.told, self._buttons, self.form):
            lines.addWidget(part)
        self.table.setFixedHeight(HEIGHT)

    def _refresh(self) -> None:
        self._desk.background.in_thread(
            Work(
                about="reservations",
                title="",
                function=reservation_lines,
                arguments=(self._session.document.plan,),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, lines: tuple[ReservationLine, ...]) -> None:
        cells = {s.item: (s.space, s.faculty, s.ends) for s in lines}
        self.table.show_items(tuple(cells), cells.__getitem__, self._chosen())
        self._say()

    def _chosen(self) -> ItemId | None:
        chosen = self._session.chosen
        return chosen[0] if len(chosen) == 1 else None

    def _say(self) -> None:
        plan, chosen = self._session.document.plan, self._chosen()
        may = self._session.may_edit
        self.reserve.setEnabled(may and may_be_reserved(plan, chosen))
        self.release.setEnabled(may and release(plan, chosen) is not None)
        closed = self.form.isHidden()
        for part in (self.told, self._buttons):
            part.setVisible(closed)
        self.table.setVisible(closed and bool(self.table.table.items))

    def _mark(self, chosen: tuple[ItemId, ...]) -> None:
        del chosen
        self.table.mark(self._chosen())
        if self.form.isHidden():
            self._say()
        else:
            self.form.hide()
            self._end()

    def _end(self) -> None:
        self._desk.roomy.emit(False)
        self._say()

    def _pick(self, item: str) -> None:
        self._session.choose((ItemId(item),))

    def _begin(self) -> None:
        plan = self._session.document.plan
        if (space := self._chosen()) is None:
            return
        self.form.begin(
            f"Reserve {plan.items[space].called()}",
            reserving_fields(),
            {},
            partial(reserve_from, plan, space),
        )
        self._desk.roomy.emit(True)
        self._say()

    def _release(self) -> None:
        if (edit := release(self._session.document.plan, self._chosen())) is not None:
            self._session.try_apply(edit)


SECTION = Section(
    name="reservations",
    job="records",
    title="Reservations",
    order=35,
    help="Spaces reserved by faculty, until when, and which of them to release.",
    widget=Reservations,
)
