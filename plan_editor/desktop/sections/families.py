"""Families: for each unsafe stone what was done to find whose it is, and what comes next."""

from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QWidget

from plan_editor.commands.families import (
    CAUTION,
    RECKONING,
    FamilyLine,
    family_lines,
    next_told,
    record_step,
    step_fields,
    steps_told,
    usual_values,
    word_yourself,
    words_in_use,
)
from plan_editor.commands.today import today
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.step_form import StepForm
from plan_editor.desktop.theme import STEP
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.printing.sheet import Asked

LIST_HEIGHT = 40 * STEP
NONE = "No stone is unsafe today, so no family is looked for."
CHOOSE = "Choose a stone in the list to see what was done, and to record a step."
SHEETS = (
    ("notice", "Notice on the stone…"),
    ("letter", "Letter…"),
    ("public", "Notice in public…"),
)


class Families(QWidget):
    """Stones, the steps for the chosen one, a form for a step, and what can be printed."""

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._lines: dict[ItemId, FamilyLine] = {}
        self.stones = ItemTable("Unsafe stones", ("Stone", "Family", "Runs until"), self)
        self._told = text(self, "", "soft")
        self._next = text(self, "", "strong")
        self.steps = text(self)
        self.add = button(self, "Record a step", self._begin)
        self.form = StepForm(self._session, self)
        self.prints = {
            name: button(self, words, partial(self._print, name)) for name, words in SHEETS
        }
        self.names = QCheckBox("With name and address on the letter", self)
        self.words = button(self, "Change the words…", self._word)
        self.words.setToolTip(
            "Keep the words of notices and letters with the plan, and change them"
        )
        self._reckoned = text(self, RECKONING, "soft")
        self._lay_out()
        self._row = ChosenRow(self.stones, self._session, self._turn)
        self.form.closed.connect(self._show_chosen)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def _lay_out(self) -> None:
        self.steps.setAccessibleName("What was done")
        self.names.setAccessibleName("With name and address on the letter")
        self.stones.setFixedHeight(LIST_HEIGHT)
        notice, letter, public = self.prints.values()
        self._printing = (
            side_by_side(self, notice, letter),
            side_by_side(self, public, self.words),
        )
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, CAUTION, "caution"))
        for part in (
            self.stones,
            self._told,
            self._next,
            self.steps,
            self.add,
            self.form,
            *self._printing,
            self.names,
            self._reckoned,
        ):
            lines.addWidget(part)

    def _refresh(self) -> None:
        lines = family_lines(self._session.document.plan)
        self._lines = {x.item: x for x in lines}
        self._row.show_items(tuple(self._lines), self._cells)
        self.noted.emit(str(len(lines)) if lines else "")
        self._show_chosen()

    def _cells(self, item: ItemId) -> tuple[str, ...]:
        line = self._lines[item]
        return line.number, line.family, line.ends

    def _line(self) -> FamilyLine | None:
        chosen = self._row.item
        return None if chosen is None else self._lines.get(chosen)

    def _show_chosen(self) -> None:
        line = self._line()
        if line is None:
            self.form.hide()
        self._told.setText(CHOOSE if self._lines else NONE)
        self._told.setVisible(line is None)
        self._next.setText("" if line is None else next_told(line))
        self.steps.setText("" if line is None else steps_told(line))
        self.add.setEnabled(self._session.may_edit)
        recording = not self.form.isHidden()
        self.stones.setVisible(bool(self._lines) and not recording)
        of_chosen = (self._next, self.steps, self._reckoned, self.add, self.names)
        for part in (*of_chosen, *self._printing):
            part.setVisible(line is not None and not recording)

    def _turn(self) -> None:
        self.form.hide()
        self._show_chosen()

    def _begin(self) -> None:
        if (line := self._line()) is None:
            return
        plan = self._session.document.plan
        self.form.begin(
            f"A step for {plan.items[line.item].called()}",
            step_fields(),
            usual_values(plan, line.item),
            partial(self._made, line.item),
        )
        self._show_chosen()

    def _made(self, stone: ItemId, values: dict[str, Any]) -> Edit:
        return record_step(self._session.document, stone, values)

    def _word(self) -> None:
        document = self._session.document
        edit = word_yourself(document.plan) if self._session.may_edit else None
        if edit is not None and not self._session.try_apply(edit):
            return
        if there := words_in_use(document.plan):
            self._session.choose(there[:1])

    def _print(self, name: str) -> None:
        if (line := self._line()) is not None:
            asked = Asked(date=today(), item=line.item, contacts=self.names.isChecked())
            self._desk.making.print_sheet(name, asked)


SECTION = Section(
    name="families",
    job="safety",
    title="Families",
    order=30,
    help="Whose the unsafe stones are: letters, notices with their last days, replies.",
    widget=Families,
)
