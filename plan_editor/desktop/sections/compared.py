"""Compare: this plan with another, or with itself as it was known on a day."""

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.commands.change_sketch import change_sketch, place_of
from plan_editor.commands.comparing import (
    Compared,
    Row,
    compare_with_day,
    compare_with_file,
    counted,
    may_take_over,
    rows_of,
    take_over,
)
from plan_editor.commands.past import read_day
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import ItemId

ABOUT = (
    "The plan in this window is compared with another plan, or with what it knew on a day:"
    " what came, what went, what is not as it was."
)
SAME = "They are the same."
HEIGHT = 44 * STEP


class ComparedSection(QWidget):
    """What to compare with, the list of differences, and the one in hand."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._of: Compared | None = None
        self._rows: dict[ItemId, Row] = {}
        self._row: Row | None = None
        self.plan = button(self, "Compare with another plan…", self._with_plan)
        self.day = QLineEdit(self)
        self.then = button(self, "Compare with what was known then", self._with_day)
        self._wrong = text(self, "", "danger")
        self._said = text(self, "", "strong")
        self.table = ItemTable("Differences", ("What", "How"), self)
        self.table.narrow(1)
        self._told = text(self, "")
        self.over = button(self, "Take this over", self._take_over)
        self._remarks = text(self, "", "caution")
        self._lay_out()
        self.table.picked.connect(self._pick)
        self.day.textEdited.connect(self._wrong.hide)

    def _lay_out(self) -> None:
        self.day.setAccessibleName("Day to compare with")
        self.day.setPlaceholderText("a day: 2026-05-03, 3.5.2026 or 2026-05")
        self.table.setFixedHeight(HEIGHT)
        self.over.setToolTip("Give the thing the state that it has in the other plan")
        lines = column(self, space=2 * STEP)
        for part in (text(self, ABOUT, "soft"), self.plan, self.day, self.then, self._wrong):
            lines.addWidget(part)
        found = (self._said, self._remarks, self.table, self._told, self.over)
        for shown in found:
            lines.addWidget(shown)
            shown.hide()
        self._wrong.hide()
        lines.addStretch(1)

    def _with_plan(self) -> None:
        file = self._session.file
        other = self._desk.ask.file_to_open("Compare with", (".gpkg",))
        if file is not None and other is not None:
            plan = self._session.document.plan
            self._compare(compare_with_file, (other, plan, file.path.name))

    def _with_day(self) -> None:
        file = self._session.file
        try:
            day = read_day(self.day.text())
        except PlanEditorError as error:
            self._say_wrong(error)
            return
        if file is not None:
            plan = self._session.document.plan
            self._compare(compare_with_day, (file.working_copy, plan, file.path.name, day))

    def _compare(self, function: Callable[..., Compared], arguments: tuple[Any, ...]) -> None:
        self._wrong.hide()
        self._desk.background.in_thread(
            Work(
                about="comparing",
                title="Comparing",
                function=function,
                arguments=arguments,
                done=self._show,
                failed=self._say_wrong,
            )
        )

    def _say_wrong(self, error: PlanEditorError) -> None:
        self._wrong.setText(str(error))
        self._wrong.show()

    def _show(self, of: Compared) -> None:
        self._of = of
        # one thing may have gone and another of its id have come
        self._rows = {ItemId(str(n)): row for n, row in enumerate(rows_of(of))}
        differs = of.found.differs
        how = f"{counted(of.found)}." if differs else SAME
        self._said.setText(f"From {of.names[0]} to {of.names[1]}: {how}")
        self._remarks.setText(" ".join(of.remarks))
        self._said.show()
        self._remarks.setVisible(bool(of.remarks))
        self.table.setVisible(differs)
        self._drop()
        cells = {n: (row.name, row.how) for n, row in self._rows.items()}
        self.table.show_items(tuple(cells), cells.__getitem__, None)
        pairs = [(r.before, r.after) for r in self._rows.values()]
        self._desk.ground.show_sketch(change_sketch(pairs))

    def _pick(self, number: str) -> None:
        assert self._of is not None  # noqa: S101  # there are no rows before
        self._row = row = self._rows[ItemId(number)]
        pair = [(row.before, row.after)]
        self._desk.ground.show_sketch(change_sketch(pair))
        if (box := place_of(pair)) is not None:
            self._desk.ground.look_at(box)
        self._told.setText("\n".join(row.told))
        self._told.setVisible(bool(row.told))
        self.over.setVisible(may_take_over(row, self._of) and self._session.may_edit)

    def _take_over(self) -> None:
        if self._of is None or self._row is None:
            return
        if self._session.try_apply(take_over(self._row, self._of)):
            taken = self._row
            self._rows = {n: r for n, r in self._rows.items() if r is not taken}
            cells = {n: (row.name, row.how) for n, row in self._rows.items()}
            self.table.show_items(tuple(cells), cells.__getitem__, None)
            self._drop()

    def _drop(self) -> None:
        self._row = None
        self._desk.ground.show_sketch(None)
        self._told.hide()
        self.over.hide()


SECTION = Section(
    name="compared",
    job="trace",
    title="Compare",
    order=88,
    help="In what this plan differs from another, or from what it knew on a day.",
    widget=ComparedSection,
)
