"""Burials that are asked for: what each lacks, and its next step."""

from functools import partial

from PySide6.QtWidgets import QWidget

from plan_editor.commands.burials import (
    CAUTION,
    STEPS,
    new_request,
    request_lines,
    standing,
    step_edit,
    step_fields,
    step_note,
    told_of,
    usual,
)
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_list import Listed, StepList
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

EMPTY = "No burial is asked for. Press “Ask for a burial” at the first call."
CHOOSE = "Choose a burial in the list to see what it lacks and what comes next."
HEIGHT = 28 * STEP


class Burials(QWidget):
    """The requests, what the chosen one lacks, a button for its next step, and its form."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self._list = StepList(desk, self, _listed(), self._say)
        self.table, self.form = self._list.table, self._list.form
        self.told = text(self, "", "soft")
        self.ask = button(self, "Ask for a burial", self._ask)
        self.next = button(self, STEPS[next(iter(STEPS))], self._begin, "main")
        self._lay_out()
        self._say()

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        lines.addWidget(self.table)
        lines.addWidget(self.told)
        self._buttons = side_by_side(self, self.next, self.ask)
        lines.addWidget(self._buttons)
        lines.addWidget(self.form)
        self.table.setFixedHeight(HEIGHT)

    def _say(self) -> None:
        found = standing(self._session.document.plan, self._list.item)
        words = None if found is None else STEPS.get(found.next)
        self.next.setVisible(words is not None)
        self.next.setEnabled(self._session.may_edit)
        self.ask.setEnabled(self._session.may_edit)
        if words is not None:
            self.next.setText(words)
            self.next.setAccessibleName(words)
        nothing = CHOOSE if self.table.table.items else EMPTY
        self.told.setText(nothing if found is None else told_of(found))
        self._list.give_way(self.told, self._buttons)

    def _ask(self) -> None:
        edit, item = new_request()
        if self._session.try_apply(edit):
            self._session.choose((item.id,))

    def _begin(self) -> None:
        document = self._session.document
        found = standing(document.plan, self._list.item)
        if found is None or found.next not in STEPS:
            return
        self._list.begin(
            f"{STEPS[found.next]}: {found.request.named()}",
            step_fields(found.next),
            usual(found),
            partial(step_edit, document, found),
            step_note(document, found),
        )


def _listed() -> Listed:
    return Listed(
        about="requests",
        rows=_rows,
        heads=("Name", "On", "Next"),
        called="Burials asked for",
        narrow=(1, 2),
    )


def _rows(plan: Plan) -> dict[ItemId, tuple[str, ...]]:
    return {s.item: (s.name, s.day, s.next) for s in request_lines(plan)}


SECTION = Section(
    name="burials",
    job="records",
    title="Burials asked for",
    order=20,
    help="Each burial from the first call until its entry is written, and what it lacks.",
    widget=Burials,
)
