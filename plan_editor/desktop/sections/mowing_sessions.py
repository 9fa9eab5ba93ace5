"""Mowing sessions: what was mown and how long it took, and the rates that follow from it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.mowing_sessions import (
    WANTED,
    SessionLine,
    add_session,
    in_use,
    interval_told,
    may_take_over,
    rates_of,
    rates_told,
    session_fields,
    session_lines,
    take_over,
)
from plan_editor.commands.today import today
from plan_editor.desktop.background import Work
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_form import StepForm
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId
from plan_editor.records.mowing_rates import Fitted

LIST_HEIGHT = 40 * STEP
CAUTION = (
    "Look for stones, guy wires and nests before a machine runs; keep out of marked zones."
)


class MowingSessions(QWidget):
    """Sessions, a form for one, the rates that they tell beside those in use."""

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._lines: dict[ItemId, SessionLine] = {}
        self._rates: tuple[Fitted, ...] = ()
        self.sessions = ItemTable("Mowing sessions", ("Date", "Where", "Time"), self)
        self.add = button(self, "Record a session", self._begin)
        self.form = StepForm(self._session, self)
        self.rates = Figures("Rates that your sessions tell", self)
        self.basis = text(self, "", "soft")
        self.used = Figures("Rates in use", self)
        self.take = button(self, "Take the rates over", self._take)
        self._lay_out()
        self._row = ChosenRow(self.sessions, self._session)
        self.form.closed.connect(self._show_form)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def _lay_out(self) -> None:
        self.sessions.narrow(0, 2)
        self.sessions.setFixedHeight(LIST_HEIGHT)
        self.take.setToolTip(
            "Write them into the parish's own figures, with where they are from"
        )
        self._told = text(self, "Your sessions tell", "strong")
        self._use = text(self, "In use", "strong")
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        for part in (
            self.sessions,
            self.add,
            self.form,
            self._told,
            self.rates,
            self.basis,
            self._use,
            self.used,
            self.take,
        ):
            lines.addWidget(part)

    def _refresh(self) -> None:
        plan = self._session.document.plan
        self._lines = {x.item: x for x in session_lines(plan)}
        self._row.show_items(tuple(self._lines), self._cells)
        self.noted.emit(str(len(self._lines)) if self._lines else "")
        self.used.show_rows(in_use(plan))
        self._desk.background.in_thread(
            Work(
                about="mowing rates",
                title="",
                function=rates_of,
                arguments=(plan,),
                done=self._show_rates,
                failed=self._desk.say_why,
            )
        )
        self._show_form()

    def _cells(self, item: ItemId) -> tuple[str, ...]:
        line = self._lines[item]
        return line.date, line.where, line.time

    def _show_rates(self, rates: tuple[Fitted, ...]) -> None:
        self._rates = rates
        self.rates.show_rows(rates_told(rates))
        self.rates.setVisible(bool(rates))
        self.basis.setText(interval_told() if rates else WANTED)
        self._show_form()

    def _show_form(self) -> None:
        self.add.setEnabled(self._session.may_edit)
        self.take.setEnabled(self._session.may_edit and may_take_over(self._rates))
        for part in (self.sessions, self.add):
            part.setVisible(self.form.isHidden())

    def _begin(self) -> None:
        self.form.begin("A mowing session", session_fields(), {"date": today()}, add_session)
        self._show_form()

    def _take(self) -> None:
        self._session.try_apply(take_over(self._rates))


SECTION = Section(
    name="mowing_sessions",
    job="safety",
    title="Mowing sessions",
    order=50,
    help="What was mown and how long it took, and your own rates from it.",
    widget=MowingSessions,
)
