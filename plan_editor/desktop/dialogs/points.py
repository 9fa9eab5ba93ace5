"""A point file before it comes on the plan: which column is what, and what becomes of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QLabel, QWidget
from typing_extensions import override

from plan_editor.commands.point_files import Looked, usual_crs
from plan_editor.commands.point_words import accuracy, by_code, in_words
from plan_editor.commands.points import Ready, codes_of, ready
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.dialogs.point_table import PointTable
from plan_editor.desktop.parts import Choice, button, column, row, scrolled, text
from plan_editor.desktop.theme import STEP
from plan_editor.edits.codes import Code
from plan_editor.edits.points import AddPoints
from plan_editor.errors import CannotUse, PlanEditorError
from plan_editor.exchange.point_columns import Layout, missing
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.crossing import ETRS89, WGS84
from plan_editor.survey.grids.crs import described
from plan_editor.survey.grids.grid import LOCAL

TOLD = "Choose the coordinate system"
RTK = f"{ETRS89}  latitude and longitude, with corrections (RTK)"
PLAIN = f"{WGS84}  latitude and longitude, plain GPS"
GUESSED = (
    "The file does not name its columns: what they hold is guessed from the values. Look, and"
    " put it right over each column."
)
NAMED = "What each column holds was read from its name. Put it right over the column."
ABOUT = "points preview"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What is asked of a file: how its columns, its system and its codes are taken."""

    plan: Plan
    looked: Looked
    crs: str
    layout: Layout | None
    codes: Mapping[str, Code]


class PointsDialog(QDialog):
    """Shows what would come on the plan, and puts it there when the button is pressed."""

    def __init__(self, desk: Desk, looked: Looked, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._looked = looked
        self._plan = desk.session.document.plan
        self._codes = codes_of(None)
        self._edit: AddPoints | None = None
        self._over = False
        self.setWindowTitle(f"Points of {looked.name}")
        self.table = PointTable(looked, self)
        self.crs = Choice(self)
        self.way = text(self, "", "soft")
        self.codes = text(self, "Codes: the table that comes with the program", "soft")
        self.comes = text(self, "", "strong")
        self.by_code = text(self, "", "figure")
        self.fault = text(self, "", "danger")
        self.warnings = text(self, "", "caution")
        self.choose_codes = button(self, "Use a table of your own…", self._choose_codes, "link")
        self.put = button(self, "Put on the plan", self._put, "main")
        self._fill()
        self._lay_out()
        self.table.changed.connect(self._ask)
        self.crs.currentTextChanged.connect(self._ask)
        self._ask()

    def _fill(self) -> None:
        self.crs.setEditable(True)
        self.crs.setAccessibleName("Coordinate system of the file")
        usual = usual_crs(self._looked, self._plan.grid)
        own = self._plan.grid.crs
        known = [RTK, PLAIN, own if own == LOCAL else f"{own}  {described(own).name}"]
        self.crs.addItems(known if usual else [TOLD, *known])
        self.crs.setCurrentIndex(
            next((n for n, k in enumerate(known) if usual == _number(k)), 0)
        )

    def _lay_out(self) -> None:
        self.resize(240 * STEP, 170 * STEP)
        lines = column(self, space=2 * STEP, edge=5 * STEP)
        lines.addWidget(text(self, f"Points of {self._looked.name}", "heading"))
        layout = self._looked.layout
        if layout is not None:
            lines.addWidget(text(self, GUESSED if layout.guessed else NAMED, "soft"))
        lines.addWidget(self.table, 3)
        lines.addWidget(self._labelled("Coordinate system of the file", self.crs))
        lines.addWidget(self.way)
        lines.addWidget(self._beside(self.codes, self.choose_codes))
        lines.addWidget(self.comes)
        lines.addWidget(self.by_code)
        lines.addWidget(self.fault)
        lines.addWidget(scrolled(self, self.warnings, "Warnings"), 2)
        ends = QWidget(self)
        across = row(ends)
        across.addWidget(self.put)
        across.addWidget(button(ends, "Cancel", self.reject))
        across.addStretch(1)
        lines.addWidget(ends)
        self.warnings.setAlignment(Qt.AlignmentFlag.AlignTop)

    def _labelled(self, words: str, field: QWidget) -> QWidget:
        label = text(self, words)
        label.setBuddy(field)
        return self._beside(label, field)

    def _beside(self, label: QLabel, field: QWidget) -> QWidget:
        made = QWidget(self)
        across = row(made, space=3 * STEP)
        label.setWordWrap(False)
        across.addWidget(label)
        across.addWidget(field, 1 if isinstance(field, Choice) else 0)
        if not isinstance(field, Choice):
            across.addStretch(1)
        return made

    def _choose_codes(self) -> None:
        path = self._desk.ask.file_to_open("Use a table of codes", (".toml",))
        if path is not None:
            self.use_codes(path)

    def use_codes(self, path: Path) -> None:
        """Take another table of codes, and say whether it can be read."""
        try:
            self._codes = codes_of(path)
        except PlanEditorError as error:
            self._fail(error)
            return
        self.codes.setText(f"Codes: {path.name}")
        self._ask()

    def _ask(self, *_: object) -> None:
        """Work out beside the window what would become of the file as it is taken now."""
        self._edit = None
        self.put.setEnabled(False)
        layout = self.table.layout_now
        fault = "" if layout is None else missing(layout.roles)
        if fault:
            self._fail(CannotUse(fault))
            return
        typed = self.crs.currentText()
        asked = _Asked(
            plan=self._plan,
            looked=self._looked,
            crs="" if typed == TOLD else _number(typed),
            layout=layout,
            codes=self._codes,
        )
        self._desk.background.in_thread(
            Work(
                about=ABOUT,
                title="",
                function=_worked_out,
                arguments=(asked,),
                done=self._show,
                failed=self._fail,
            )
        )

    @override
    def done(self, result: int) -> None:
        # what still works beside the window answers to nobody
        self._over = True
        super().done(result)

    def _show(self, found: Ready) -> None:
        if self._over:
            return
        self._edit = found.edit
        count = 0 if found.edit is None else len(found.edit.items)
        things = "1 thing" if count == 1 else f"{count} things"
        self.put.setText(f"Put {things} on the plan")
        self.put.setEnabled(found.edit is not None)
        self._tell(self.way, accuracy(found))
        self._tell(self.comes, in_words(found, dry=True))
        self._tell(self.by_code, f"Points by their codes — {by_code(found)}")
        self._tell(self.fault, "")
        self._tell(self.warnings, "\n".join(found.sentences))

    def _tell(self, label: QLabel, words: str) -> None:
        label.setText(words)
        label.setVisible(bool(words))

    def _fail(self, error: PlanEditorError) -> None:
        if self._over:
            return
        self._edit = None
        self.put.setEnabled(False)
        for label in (self.way, self.comes, self.by_code, self.warnings):
            self._tell(label, "")
        self._tell(self.fault, str(error))

    def _put(self) -> None:
        if self._edit is not None and self._desk.session.try_apply(self._edit):
            self._desk.session.choose(tuple(item.id for item in self._edit.items))
            self.accept()


def _worked_out(asked: _Asked) -> Ready:
    return ready(
        asked.plan, asked.looked, crs=asked.crs, layout=asked.layout, codes=asked.codes
    )


def _number(words: str) -> str:
    return words.split("  ")[0].strip()
