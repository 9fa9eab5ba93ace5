"""Works: the programme by priority with its running total, and works and quotes to be added."""

from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.programme_lines import (
    CAUTION,
    FaultFound,
    ProgrammeLine,
    Which,
    add_quote,
    add_work,
    fault_found,
    programme_lines,
    quote_fields,
    sums_told,
    work_fields,
)
from plan_editor.commands.today import today
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import Choice, button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_form import StepForm
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId

LIST_HEIGHT = 48 * STEP
NONE = "Nothing is listed here yet. Add what is wanted, and it goes by its priority."
CHOOSE = "Choose a work to see its leave and quotes, or to add a quote."
MAKE = "Make a work of it"


class Works(QWidget):
    """Works with amounts, sums by priority, what stands behind the chosen one, two forms."""

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self._lines: dict[ItemId, ProgrammeLine] = {}
        self.which = Choice(self)
        self.works = ItemTable("Works", ("Work", "Amount", "Together"), self)
        self._told = text(self, "", "soft")
        self.sums = Figures("Sums by priority", self)
        self.add = button(self, "Add a work", self._begin_work)
        self.quote = button(self, "Add a quote", self._begin_quote)
        self.make = button(self, MAKE, self._make)
        self.make.setToolTip("Of the fault that the latest inspection of what is chosen found.")
        self.form = StepForm(self._session, self)
        self._lay_out()
        self.which.currentIndexChanged.connect(self._turn)
        self._row = ChosenRow(self.works, self._session, self._show_chosen)
        self.form.closed.connect(self._show_chosen)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def _lay_out(self) -> None:
        self.which.setAccessibleName("Which works")
        for which in Which:
            self.which.addItem(which.value, which)
        self.works.narrow(1, 2)
        self.works.setFixedHeight(LIST_HEIGHT)
        self._buttons = side_by_side(self, self.add, self.quote)
        self._of_a_fault = side_by_side(self, self.make)
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        for part in (
            self.which,
            self.works,
            self._told,
            self._of_a_fault,
            self._buttons,
            self.form,
            self.sums,
        ):
            lines.addWidget(part)

    def _turn(self, index: int) -> None:
        del index
        self._follow.now()

    def _refresh(self) -> None:
        plan, which = self._session.document.plan, self.which.currentData()
        self._lines = {x.item: x for x in programme_lines(plan, which)}
        self._row.show_items(tuple(self._lines), self._cells)
        self.sums.show_rows(sums_told(plan, which))
        wanted = programme_lines(plan, Which.WANTED)
        self.noted.emit(wanted[-1].running if wanted else "")
        self._show_chosen()

    def _cells(self, item: ItemId) -> tuple[str, ...]:
        line = self._lines[item]
        return line.what, line.amount, line.running

    def _show_chosen(self) -> None:
        chosen = self._row.listed
        fault = self._fault()
        self._told.setText(self._words(chosen, fault))
        self.make.setEnabled(self._session.may_edit and fault is not None)
        self.add.setEnabled(self._session.may_edit)
        self.quote.setEnabled(self._session.may_edit and chosen is not None)
        rows = (self._of_a_fault, self._buttons)
        for part in (self.which, self.works, self._told, *rows, self.sums):
            part.setVisible(self.form.isHidden())

    def _words(self, chosen: ItemId | None, fault: FaultFound | None) -> str:
        if chosen is not None:
            return self._lines[chosen].told
        none = CHOOSE if self._lines else NONE
        return none if fault is None else f"{fault.told}\n{_already(fault)}".strip()

    def _fault(self) -> FaultFound | None:
        item = self._row.item
        return None if item is None else fault_found(self._session.document.plan, item)

    def _make(self) -> None:
        """Make a work of the fault of what is chosen, or choose the one that was made."""
        if (fault := self._fault()) is None:
            return
        if fault.work is not None or self._session.try_apply(fault.edit):
            self._session.choose((fault.work or fault.makes,))

    def _begin_work(self) -> None:
        self.form.begin("A work that is wanted", work_fields(), self._on_chosen(), add_work)
        self._show_chosen()

    def _on_chosen(self) -> dict[str, Any]:
        """Return what a new work begins with: what is chosen, where works may be done to it."""
        chosen, plan = self._session.chosen, self._session.document.plan
        target = next(d for d in work_fields() if d.name == "target")
        if len(chosen) != 1 or plan.items[chosen[0]].kind.name not in target.about.refers_to:
            return {}
        return {"target": chosen[0]}

    def _begin_quote(self) -> None:
        if (chosen := self._row.listed) is None:
            return
        self.form.begin(
            f"A quote for: {self._lines[chosen].what}",
            quote_fields(),
            {"date": today()},
            partial(add_quote, chosen),
        )
        self._show_chosen()


def _already(fault: FaultFound) -> str:
    return "" if fault.work is None else "A work was made of it already."


SECTION = Section(
    name="works",
    job="safety",
    title="Works",
    order=40,
    help="What is wanted by priority, what it comes to, whose leave it takes.",
    widget=Works,
)
