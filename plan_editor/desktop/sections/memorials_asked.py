"""Memorials that are asked for: the answer by the regulations, and the stone once fixed."""

from functools import partial

from PySide6.QtWidgets import QWidget

from plan_editor.commands.memorials import (
    CAUTION,
    ApplicationLine,
    answer_told,
    application_lines,
    application_on,
    fixing,
    fixing_fields,
    new_application,
)
from plan_editor.commands.today import today
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_form import StepForm
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import Item, ItemId
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
        self.table = ItemTable("Memorials asked for", ("Grave", "Received", "Decision"), self)
        self.table.narrow(1, 2)
        self.told = text(self, "", "strong")
        self.answer = text(self, "", "soft")
        self.enter = button(self, "Enter an application", self._enter)
        self.fix = button(self, "Fix the stone", self._begin)
        self.print = button(self, "Print the answer", self._print)
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
        for part in (self.table, self.told, self.answer):
            lines.addWidget(part)
        self._buttons = side_by_side(self, self.fix, self.print)
        lines.addWidget(self._buttons)
        lines.addWidget(side_by_side(self, self.enter))
        lines.addWidget(self.form)
        self.table.setFixedHeight(HEIGHT)

    def _refresh(self) -> None:
        self._desk.background.in_thread(
            Work(
                about="applications",
                title="",
                function=application_lines,
                arguments=(self._session.document.plan,),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, lines: tuple[ApplicationLine, ...]) -> None:
        cells = {s.item: (s.grave, s.received, s.decision) for s in lines}
        self.table.show_items(tuple(cells), cells.__getitem__, self._chosen())
        self._say()

    def _chosen(self) -> ItemId | None:
        chosen = self._session.chosen
        return chosen[0] if len(chosen) == 1 else None

    def _say(self) -> None:
        plan = self._session.document.plan
        asked = application_on(plan, self._chosen())
        words, lines = ("", "") if asked is None else answer_told(plan, asked)
        nothing = CHOOSE if self.table.table.items else EMPTY
        self.told.setText(words or nothing)
        self.answer.setText(lines)
        self._give_way(bool(lines))
        self.fix.setEnabled(self._session.may_edit and _may_be_fixed(asked))
        self.enter.setEnabled(self._session.may_edit)

    def _give_way(self, answered: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        """Show the form alone while it is open."""
        closed = self.form.isHidden()
        self.told.setVisible(closed)
        self.enter.setVisible(closed)
        for part in (self.answer, self._buttons):
            part.setVisible(closed and answered)
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
        self._desk.roomy.emit(False)  # the card has its room again
        self._say()

    def _pick(self, item: str) -> None:
        self._session.choose((ItemId(item),))

    def _enter(self) -> None:
        edit, item = new_application()
        if self._session.try_apply(edit):
            self._session.choose((item.id,))

    def _begin(self) -> None:
        plan = self._session.document.plan
        if (asked := application_on(plan, self._chosen())) is None:
            return
        self.form.begin(
            "The stone is fixed",
            fixing_fields(),
            {"fixed": today()},
            partial(fixing, plan, asked),
            "It joins the plan at the head of its grave; measure its place when you can.",
        )
        self._desk.roomy.emit(True)  # the card gives way
        self._say()

    def _print(self) -> None:
        if (item := self._chosen()) is not None:
            self._desk.making.print_sheet(SHEET, Asked(date=today(), item=item))


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
