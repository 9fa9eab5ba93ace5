"""A register before it is taken in: which column is what, and every doubtful cell."""

from dataclasses import dataclass, replace

from PySide6.QtWidgets import QDialog, QLabel, QWidget
from typing_extensions import override

from plan_editor.commands.register_files import (
    LookedRegister,
    ReadyRegister,
    Shown,
    counted,
    in_words,
    ready_register,
    worth_a_look,
)
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.dialogs.register_table import MOST, RegisterTable
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.theme import STEP
from plan_editor.edits.burial_register import TakeInRegister
from plan_editor.errors import CannotUse, PlanEditorError
from plan_editor.exchange.register_columns import RegisterLayout, missing
from plan_editor.plan.plan import Plan

READ = (
    "What each column holds was read from its name. Put it right over the column; it is"
    " remembered for tables with the same names."
)
REMEMBERED = "The columns are taken as they were the last time with such a table."
CAUTION = (
    "What is doubtful is marked with a question mark and told beside the line. A date that"
    " cannot be read whole is kept in the remarks as it is written. Compare with the book"
    " itself before you rely on an entry."
)
SAME = "The plan has all of it already."
ABOUT = "register preview"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worked:
    """What becomes of a table, and the rows to be shown."""

    ready: ReadyRegister
    rows: tuple[Shown, ...]


class RegisterDialog(QDialog):
    """Shows what would be taken in, and takes it in when the button is pressed."""

    def __init__(self, desk: Desk, looked: LookedRegister, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._looked = looked
        self._plan = desk.session.document.plan
        self._edit: TakeInRegister | None = None
        self._over = False
        layout, remembered = self._remembered()
        self.setWindowTitle(f"Register from {looked.name}")
        self.table = RegisterTable(looked, layout, self)
        self.about = text(self, REMEMBERED if remembered else READ, "soft")
        self.doubt = text(self, "")
        self.comes = text(self, "", "strong")
        self.left = text(self, "", "soft")
        self.fault = text(self, "", "danger")
        self.take = button(self, "Take in", self._take, "main")
        self._lay_out()
        self.table.changed.connect(self._ask)
        self.table.currentCellChanged.connect(self._tell_doubt)
        self._ask()

    def _remembered(self) -> tuple[RegisterLayout, bool]:
        layout = self._looked.layout
        names = self._desk.house.preferences.columns_of(layout.key)
        if len(names) != len(layout.names) or missing(names):
            return layout, False
        return replace(layout, names=names), names != layout.names

    def _lay_out(self) -> None:
        self.resize(280 * STEP, 170 * STEP)
        lines = column(self, space=2 * STEP, edge=5 * STEP)
        lines.addWidget(text(self, f"Register from {self._looked.name}", "heading"))
        lines.addWidget(self.about)
        lines.addWidget(self.table, 1)
        for part in (
            self.doubt,
            self.comes,
            self.left,
            self.fault,
            text(self, CAUTION, "caution"),
        ):
            lines.addWidget(part)
        lines.addWidget(side_by_side(self, self.take, button(self, "Cancel", self.reject)))

    def _ask(self) -> None:
        """Work out beside the window what would become of the table as it is taken now."""
        self._edit = None
        self.take.setEnabled(False)
        layout = self.table.layout_now
        if fault := missing(layout.names):
            self._fail(CannotUse(fault))
            return
        self._desk.background.in_thread(
            Work(
                about=ABOUT,
                title="",
                function=_worked_out,
                arguments=(self._plan, self._looked, layout),
                done=self._show,
                failed=self._fail,
            )
        )

    @override
    def done(self, result: int) -> None:
        # what still works beside the window answers to nobody
        self._over = True
        super().done(result)

    def _show(self, found: _Worked) -> None:
        if self._over:
            return
        ready = found.ready
        self._edit = ready.edit
        self.table.show_rows(found.rows)
        self._tell_doubt(1)
        count = counted(ready.new + ready.updated, "entry", "entries")
        self.take.setText("Take in" if ready.edit is None else f"Take in {count}")
        self.take.setEnabled(ready.edit is not None)
        self._tell(self.comes, in_words(ready) + ("" if ready.edit else f" {SAME}"))
        left = ", ".join(f"“{head}”" for head in ready.left)
        self._tell(self.left, f"Columns that are not taken: {left}." if left else "")
        self._tell(self.fault, "")

    def _tell(self, label: QLabel, words: str) -> None:
        label.setText(words)
        label.setVisible(bool(words))

    def _tell_doubt(self, row: int, *_: int) -> None:
        self._tell(self.doubt, self.table.doubt_at(row))

    def _fail(self, error: PlanEditorError) -> None:
        if self._over:
            return
        self._edit = None
        self.take.setEnabled(False)
        self._tell(self.comes, "")
        self._tell(self.left, "")
        self._tell(self.fault, str(error))

    def _take(self) -> None:
        if self._edit is None or not self._desk.session.try_apply(self._edit):
            return
        layout = self.table.layout_now
        house = self._desk.house
        house.remember(house.preferences.having_columns(layout.key, layout.names))
        self.accept()


def _worked_out(plan: Plan, looked: LookedRegister, layout: RegisterLayout) -> _Worked:
    ready = ready_register(plan, looked, layout)
    return _Worked(ready=ready, rows=worth_a_look(looked, ready, MOST))
