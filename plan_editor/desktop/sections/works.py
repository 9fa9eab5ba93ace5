"""Works: the programme by priority with its running total, and works and quotes to be added."""

from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.programme_lines import (
    CAUTION,
    ProgrammeLine,
    Which,
    add_quote,
    add_work,
    programme_lines,
    quote_fields,
    sums_told,
    work_fields,
)
from plan_editor.commands.today import today
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import Choice, button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_form import StepForm
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId

LIST_HEIGHT = 48 * STEP
NONE = "Nothing is listed here yet. Add what is wanted, and it goes by its priority."
CHOOSE = "Choose a work to see its leave and quotes, or to add a quote."


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
        self.form = StepForm(self._session, self)
        self._lay_out()
        self.which.currentIndexChanged.connect(self._turn)
        self.works.picked.connect(self._pick)
        self.form.closed.connect(self._show_chosen)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(self, self._session.chosen_changed.connect(self._mark))

    def _lay_out(self) -> None:
        self.which.setAccessibleName("Which works")
        for which in Which:
            self.which.addItem(which.value, which)
        self.works.narrow(1, 2)
        self.works.setFixedHeight(LIST_HEIGHT)
        self._buttons = side_by_side(self, self.add, self.quote)
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        for part in (
            self.which,
            self.works,
            self._told,
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
        self.works.show_items(tuple(self._lines), self._cells, self._chosen())
        self.sums.show_rows(sums_told(plan, which))
        wanted = programme_lines(plan, Which.WANTED)
        self.noted.emit(wanted[-1].running if wanted else "")
        self._show_chosen()

    def _cells(self, item: ItemId) -> tuple[str, ...]:
        line = self._lines[item]
        return line.what, line.amount, line.running

    def _chosen(self) -> ItemId | None:
        chosen = self._session.chosen
        return chosen[0] if len(chosen) == 1 and chosen[0] in self._lines else None

    def _show_chosen(self) -> None:
        chosen = self._chosen()
        none = CHOOSE if self._lines else NONE
        self._told.setText(none if chosen is None else self._lines[chosen].told)
        self.add.setEnabled(self._session.may_edit)
        self.quote.setEnabled(self._session.may_edit and chosen is not None)
        for part in (self.which, self.works, self._told, self._buttons, self.sums):
            part.setVisible(self.form.isHidden())

    def _mark(self, chosen: tuple[ItemId, ...]) -> None:
        del chosen
        self.works.mark(self._chosen())
        self._show_chosen()

    def _pick(self, item: str) -> None:
        self._session.choose((ItemId(item),))

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
        if (chosen := self._chosen()) is None:
            return
        self.form.begin(
            f"A quote for: {self._lines[chosen].what}",
            quote_fields(),
            {"date": today()},
            partial(add_quote, chosen),
        )
        self._show_chosen()


SECTION = Section(
    name="works",
    job="safety",
    title="Works",
    order=40,
    help="What is wanted by priority, what it comes to, whose leave it takes.",
    widget=Works,
)
