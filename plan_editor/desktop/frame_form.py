"""The form in which the whole plan is moved to another grid: marks, residuals, one edit."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QPlainTextEdit, QWidget
from typing_extensions import override

from plan_editor.commands.frame import (
    HOW_KNOWN,
    RESIDUALS,
    SCALES,
    Wanted,
    bearings_told,
    framing_told,
    residual_rows,
    to_be_filled_in,
    typed_known,
)
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.dialogs.new_plan import LOCAL_GRID, NATIONAL
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import Choice, button, column, side_by_side, text
from plan_editor.desktop.theme import STEP
from plan_editor.edits.framing import Scale
from plan_editor.errors import PlanEditorError
from plan_editor.plan.change import Change
from plan_editor.plan.item import Method
from plan_editor.survey.grids.crs import checked
from plan_editor.survey.grids.grid import LOCAL

HELP = (
    "Type or paste the coordinates of the plan's marks in that system, one mark a line: its"
    " number, easting, northing, and the standard deviation in metres if it is known."
)
EXAMPLE = "M1   553112.480   421034.915   0.02"
LINES = 6


class FrameForm(QWidget):
    """``closed`` when the plan was moved, or that was given up."""

    closed = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self._wanted: Wanted | None = None
        self.crs = self._choice("Coordinate system", (LOCAL_GRID, NATIONAL), editable=True)
        self.typed = QPlainTextEdit(self)
        self.known_by = self._choice("How they were measured", tuple(HOW_KNOWN))
        self.scale = self._choice("A metre of the plan", tuple(SCALES))
        self.table = Figures("Marks and their residuals", self)
        self.told = text(self, "", "soft")
        self.sentence = text(self, "", "danger")
        self.done = button(self, "Move the whole plan", self._move, "main")
        self.cancel = button(self, "Cancel", self.leave)
        self._dress()
        self._lay_out()
        until_gone(self, self._session.document.changed.connect(self._changed))
        self.hide()

    def begin(self) -> None:
        """Ask for the system and the marks."""
        plan = self._session.document.plan
        national = plan.grid.crs == LOCAL
        self.crs.setCurrentText(NATIONAL if national else LOCAL_GRID)
        self.typed.setPlainText(to_be_filled_in(plan))
        self.show()
        self.typed.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Give up what was begun."""
        if not self.isHidden():
            self.hide()
            self._wanted = None
            self.closed.emit()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)

    def _choice(self, name: str, words: tuple[str, ...], *, editable: bool = False) -> Choice:
        made = Choice(self)
        made.setEditable(editable)
        made.addItems(words)
        made.setAccessibleName(name)
        return made

    def _dress(self) -> None:
        self.typed.setAccessibleName("Marks and their coordinates")
        self.typed.setPlaceholderText(EXAMPLE)
        self.typed.setTabChangesFocus(True)
        self.typed.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.typed.setFixedHeight(LINES * self.typed.fontMetrics().lineSpacing() + 5 * STEP)
        self.typed.textChanged.connect(self._show)
        for choice in (self.crs, self.known_by, self.scale):
            choice.currentTextChanged.connect(self._show)

    def _lay_out(self) -> None:
        lines = column(self, space=STEP)
        for part, below in (
            (self.crs, HELP),
            (self.typed, ""),
            (self.known_by, ""),
            (self.scale, ""),
        ):
            label = text(self, part.accessibleName(), "soft")
            label.setBuddy(part)
            lines.addWidget(label)
            lines.addWidget(part)
            lines.addSpacing(STEP)
            if below:
                lines.addWidget(text(self, below, "soft"))
        for shown in (self.table, self.told, self.sentence):
            lines.addWidget(shown)
        ends = side_by_side(self, self.done, self.cancel)
        lines.addSpacing(STEP)
        lines.addWidget(ends)

    def _changed(self, changes: tuple[Change, ...]) -> None:
        del changes
        if not self.isHidden():
            self._show()

    def _show(self) -> None:
        """Show how the plan would lie by what is typed now, or why it cannot."""
        framing, why = None, ""
        try:
            self._wanted = self._read()
            if self._wanted.marks:
                framing = self._wanted.framing(self._session.document.plan)
        except PlanEditorError as error:
            why = str(error)
        plan = self._session.document.plan
        told = (
            ()
            if framing is None
            else (*framing_told(framing, self._scale), *bearings_told(plan, framing))
        )
        self.told.setText("\n".join(told))
        self.sentence.setText(why)
        for label in (self.told, self.sentence):
            label.setVisible(bool(label.text()))
        rows = () if framing is None else residual_rows(framing)
        self.table.show_rows(rows, RESIDUALS if rows else ())
        self.done.setEnabled(framing is not None)

    @property
    def _scale(self) -> Scale:
        return SCALES[self.scale.currentText()]

    def _read(self) -> Wanted:
        words = self.crs.currentText()
        return Wanted(
            crs=LOCAL if words == LOCAL_GRID else checked(words.split("  ")[0]),
            marks=typed_known(self._session.document.plan, self.typed.toPlainText()),
            scale=self._scale,
            method=HOW_KNOWN.get(self.known_by.currentText(), Method.UNKNOWN),
        )

    def _move(self) -> None:
        if self._wanted is not None and self._session.try_apply(self._wanted.edit()):
            self.leave()
