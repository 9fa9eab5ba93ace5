"""Spaces reserved by faculty: until when, and which to release."""

from functools import partial

from PySide6.QtWidgets import QWidget

from plan_editor.commands.reserving import (
    CAUTION,
    may_be_reserved,
    release,
    reservation_lines,
    reserve_from,
    reserving_fields,
)
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_list import Listed, StepList
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

CHOOSE = "Choose a free space on the ground to reserve it, or a reservation to release it."
HEIGHT = 28 * STEP


class Reservations(QWidget):
    """The reservations, what can be done with the chosen one or the chosen space, a form."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self._list = StepList(desk, self, _listed(), self._say)
        self.table, self.form = self._list.table, self._list.form
        self.told = text(self, CHOOSE, "soft")
        self.reserve = button(self, "Reserve the space", self._begin)
        self.release = button(self, "Release the space", self._release)
        self._lay_out()
        self._say()

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        self._buttons = side_by_side(self, self.reserve, self.release)
        for part in (self.table, self.told, self._buttons, self.form):
            lines.addWidget(part)
        self.table.setFixedHeight(HEIGHT)

    def _say(self) -> None:
        plan, chosen = self._session.document.plan, self._list.item
        may = self._session.may_edit
        self.reserve.setEnabled(may and may_be_reserved(plan, chosen))
        self.release.setEnabled(may and release(plan, chosen) is not None)
        self._list.give_way(self.told, self._buttons)

    def _begin(self) -> None:
        plan = self._session.document.plan
        if (space := self._list.item) is None:
            return
        self._list.begin(
            f"Reserve {plan.items[space].called()}",
            reserving_fields(),
            {},
            partial(reserve_from, plan, space),
        )

    def _release(self) -> None:
        if (edit := release(self._session.document.plan, self._list.item)) is not None:
            self._session.try_apply(edit)


def _listed() -> Listed:
    return Listed(
        about="reservations",
        rows=_rows,
        heads=("Space", "Faculty", "Ends"),
        called="Reservations",
        narrow=(0, 2),
    )


def _rows(plan: Plan) -> dict[ItemId, tuple[str, ...]]:
    return {s.item: (s.space, s.faculty, s.ends) for s in reservation_lines(plan)}


SECTION = Section(
    name="reservations",
    job="records",
    title="Reservations",
    order=35,
    help="Spaces reserved by faculty, until when, and which of them to release.",
    widget=Reservations,
)
