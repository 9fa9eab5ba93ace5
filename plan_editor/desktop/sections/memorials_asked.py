"""Memorials that are asked for: the answer by the regulations, and the stone once fixed."""

from functools import partial

from PySide6.QtWidgets import QWidget

from plan_editor.commands.memorials import (
    CAUTION,
    answer_told,
    application_lines,
    application_on,
    fixing,
    fixing_fields,
    new_application,
)
from plan_editor.commands.today import today
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_list import Listed, StepList
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked

EMPTY = "No memorial is asked for. Press “Enter an application” when one comes."
CHOOSE = "Choose an application in the list to have it held against the regulations."
HEIGHT = 28 * STEP
SHEET = "memorial"


class MemorialsAsked(QWidget):
    """The applications, the answer to the chosen one, and what can be done with it."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._list = StepList(desk, self, _listed(), self._say)
        self.table, self.form = self._list.table, self._list.form
        self.told = text(self, "", "strong")
        self.answer = text(self, "", "soft")
        self.enter = button(self, "Enter an application", self._enter)
        self.fix = button(self, "Fix the stone", self._begin)
        self.print = button(self, "Print the answer", self._print)
        self._lay_out()
        self._say()

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        for part in (self.table, self.told, self.answer):
            lines.addWidget(part)
        self._buttons = side_by_side(self, self.fix, self.print)
        lines.addWidget(self._buttons)
        lines.addWidget(side_by_side(self, self.enter))
        lines.addWidget(self.form)
        self.table.setFixedHeight(HEIGHT)

    def _say(self) -> None:
        plan = self._session.document.plan
        asked = application_on(plan, self._list.item)
        words, lines = ("", "") if asked is None else answer_told(plan, asked)
        nothing = CHOOSE if self.table.table.items else EMPTY
        self.told.setText(words or nothing)
        self.answer.setText(lines)
        self._list.give_way(self.told, self.enter)
        for part in (self.answer, self._buttons):
            part.setVisible(self._list.idle and bool(lines))
        self.fix.setEnabled(self._session.may_edit and _may_be_fixed(asked))
        self.enter.setEnabled(self._session.may_edit)

    def _enter(self) -> None:
        edit, item = new_application()
        if self._session.try_apply(edit):
            self._session.choose((item.id,))

    def _begin(self) -> None:
        plan = self._session.document.plan
        if (asked := application_on(plan, self._list.item)) is None:
            return
        self._list.begin(
            "The stone is fixed",
            fixing_fields(),
            {"fixed": today()},
            partial(fixing, plan, asked),
            "It joins the plan at the head of its grave; measure its place when you can.",
        )

    def _print(self) -> None:
        if (item := self._list.item) is not None:
            self._desk.making.print_sheet(SHEET, Asked(date=today(), item=item))


def _listed() -> Listed:
    return Listed(
        about="applications",
        rows=_rows,
        heads=("Grave", "Received", "Decision"),
        called="Memorials asked for",
        narrow=(1, 2),
    )


def _rows(plan: Plan) -> dict[ItemId, tuple[str, ...]]:
    return {s.item: (s.grave, s.received, s.decision) for s in application_lines(plan)}


def _may_be_fixed(asked: Item | None) -> bool:
    return asked is not None and not asked.details.fixed


SECTION = Section(
    name="memorials_asked",
    job="records",
    title="Memorials asked for",
    order=30,
    help="Applications held against the parish's regulations; the stone once it is fixed.",
    widget=MemorialsAsked,
)
