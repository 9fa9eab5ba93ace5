"""Burials that are asked for: what each lacks, and its next step."""

from functools import partial

from PySide6.QtWidgets import QWidget

from plan_editor.commands.burials import (
    CAUTION,
    STEPS,
    RequestLine,
    new_request,
    request_lines,
    standing,
    step_edit,
    step_fields,
    step_note,
    told_of,
    usual,
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

EMPTY = "No burial is asked for. Press “Ask for a burial” at the first call."
CHOOSE = "Choose a burial in the list to see what it lacks and what comes next."
HEIGHT = 28 * STEP


class Burials(QWidget):
    """The requests, what the chosen one lacks, a button for its next step, and its form."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.table = ItemTable("Burials asked for", ("Name", "On", "Next"), self)
        self.table.narrow(1, 2)
        self.told = text(self, "", "soft")
        self.ask = button(self, "Ask for a burial", self._ask)
        self.next = button(self, STEPS[next(iter(STEPS))], self._begin, "main")
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
        lines.addWidget(self.table)
        lines.addWidget(self.told)
        self._buttons = side_by_side(self, self.next, self.ask)
        lines.addWidget(self._buttons)
        lines.addWidget(self.form)
        self.table.setFixedHeight(HEIGHT)

    def _refresh(self) -> None:
        self._desk.background.in_thread(
            Work(
                about="requests",
                title="",
                function=request_lines,
                arguments=(self._session.document.plan,),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, lines: tuple[RequestLine, ...]) -> None:
        cells = {s.item: (s.name, s.day, s.next) for s in lines}
        self.table.show_items(tuple(cells), cells.__getitem__, self._chosen())
        self._say()

    def _chosen(self) -> ItemId | None:
        chosen = self._session.chosen
        return chosen[0] if len(chosen) == 1 else None

    def _say(self) -> None:
        found = standing(self._session.document.plan, self._chosen())
        words = None if found is None else STEPS.get(found.next)
        self.next.setVisible(words is not None)
        self.next.setEnabled(self._session.may_edit)
        self.ask.setEnabled(self._session.may_edit)
        if words is not None:
            self.next.setText(words)
            self.next.setAccessibleName(words)
        nothing = CHOOSE if self.table.table.items else EMPTY
        self.told.setText(nothing if found is None else told_of(found))
        self._give_way()

    def _give_way(self) -> None:
        """Show the form alone while it is open."""
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
        self._desk.roomy.emit(False)  # the card has its room again
        self._say()

    def _pick(self, item: str) -> None:
        self._session.choose((ItemId(item),))

    def _ask(self) -> None:
        edit, item = new_request()
        if self._session.try_apply(edit):
            self._session.choose((item.id,))

    def _begin(self) -> None:
        document = self._session.document
        found = standing(document.plan, self._chosen())
        if found is None or found.next not in STEPS:
            return
        self.form.begin(
            f"{STEPS[found.next]}: {found.request.called()}",
            step_fields(found.next),
            usual(found),
            partial(step_edit, document, found),
            step_note(document, found),
        )
        self._desk.roomy.emit(True)  # the card gives way
        self._say()


SECTION = Section(
    name="burials",
    job="records",
    title="Burials asked for",
    order=20,
    help="Each burial from the first call until its entry is written, and what it lacks.",
    widget=Burials,
)
