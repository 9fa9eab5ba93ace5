"""The form in which a base plan is placed by points: pairs, residuals, one edit at the end."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.commands.places import coordinate
from plan_editor.commands.placing import (
    ON_BASE_PLAN,
    ON_GROUND,
    Pick,
    pair_lines,
    picking,
    read_place,
)
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import button, column, row, text
from plan_editor.desktop.theme import STEP
from plan_editor.drafting.tool import Answer
from plan_editor.edits.placing import by_pairs
from plan_editor.errors import PlanEditorError
from plan_editor.ground.base_plans import Laid, laid
from plan_editor.ground.provisional import on_base_plan, provisionally
from plan_editor.plan.item import ItemId
from plan_editor.survey.fitting import Pair

LEAST = 2
MORE = "Two points place it; a third and more show how far the paper can be trusted."


class PlacingForm(QWidget):
    """``closed`` when the base plan was placed, or that was given up."""

    closed = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.item: ItemId | None = None
        self.pairs: tuple[Pair, ...] = ()
        self._laid: Laid | None = None
        self._begun: tuple[float, float] | None = None
        self._told = text(self, ON_BASE_PLAN, "strong")
        self._known = QWidget(self)
        self.east = self._field("Easting")
        self.north = self._field("Northing")
        self.take = button(self, "Take", self._take_typed)
        self._table = Figures("Points and their residuals", self)
        self._sentence = text(self, "", "danger")
        self.back = button(self, "Drop the last point", self._drop)
        self.done = button(self, "Place it", self._place, "main")
        self.cancel = button(self, "Cancel", self.leave)
        self._lay_out()
        until_gone(self, self._session.answered.connect(self._answered))
        self.hide()

    def begin(self, item: ItemId) -> None:
        """Lay the base plan across the view and ask for the first point."""
        self.item = item
        self.pairs = ()
        found = self._session.document.plan.items[item]
        placed = [b for b in laid(self._session.document.plan) if b.item == item]
        self._laid = placed[0] if placed else provisionally(found, self._desk.ground.in_view())
        self._ask_base_plan()
        self.show()

    def leave(self) -> None:
        """Give up what was begun."""
        if self.isHidden():
            return
        self.hide()
        self.item = self._laid = self._begun = None
        self._desk.ground.show_unplaced(None)
        self._desk.ground.show_things(True)
        self._session.put_down()
        self.closed.emit()

    def _field(self, name: str) -> QLineEdit:
        made = QLineEdit(self._known)
        made.setPlaceholderText(name)
        made.setAccessibleName(name)
        made.returnPressed.connect(self._take_typed)
        return made

    def _lay_out(self) -> None:
        beside = row(self._known)
        for field in (self.east, self.north, self.take):
            beside.addWidget(field)
        lines = column(self, space=2 * STEP)
        for part in (self._told, self._known, self._table, self._sentence):
            lines.addWidget(part)
        ends = QWidget(self)
        across = row(ends)
        for end in (self.done, self.back, self.cancel):
            across.addWidget(end)
        across.addStretch(1)
        lines.addWidget(ends)

    def _ask_base_plan(self) -> None:
        self._session.take_up(picking(ON_BASE_PLAN))
        self._begun = None
        self._told.setText(f"{ON_BASE_PLAN} {MORE}")
        self._known.setEnabled(False)
        self._desk.ground.show_unplaced(self._laid)
        self._desk.ground.show_things(False)
        self._show()

    def _ask_ground(self, east: float, north: float) -> None:
        if self._laid is None:
            return
        self._begun = on_base_plan(self._laid, east, north)
        self._session.take_up(picking(ON_GROUND))
        self._told.setText(ON_GROUND)
        self._known.setEnabled(True)
        self._desk.ground.show_unplaced(None)
        self._desk.ground.show_things(True)
        self.east.setFocus(Qt.FocusReason.OtherFocusReason)

    def _answered(self, answer: Answer) -> None:
        if self.isHidden():
            return
        if not isinstance(answer.tool, Pick):
            self.leave()
        elif (picked := answer.tool.picked) is not None:
            if self._begun is None:
                self._ask_ground(*picked)
            else:
                self._pair(*picked)

    def _take_typed(self) -> None:
        grid = self._session.document.plan.grid
        try:
            place = read_place(grid, self.east.text(), self.north.text())
        except PlanEditorError as error:
            self._say(str(error))
            return
        self.east.clear()
        self.north.clear()
        self._pair(*place)

    def _pair(self, east: float, north: float) -> None:
        if self._begun is not None:
            self.pairs = (*self.pairs, (self._begun, (east, north)))
            self._ask_base_plan()

    def _drop(self) -> None:
        self.pairs = self.pairs[:-1]
        self._ask_base_plan()

    def _show(self) -> None:
        if self.item is None:
            return
        grid = self._session.document.plan.grid
        self._say("")
        try:
            lines, fit = pair_lines(self._session.document.plan.items[self.item], self.pairs)
        except PlanEditorError as error:
            self._say(str(error))
            lines, fit = (), None
        rows = []
        for number, line in enumerate(lines, 1):
            e, n = grid.to_crs(*line.place)
            off = "" if line.residual_m is None else f"{line.residual_m:.2f} m"
            rows.append((f"{number}", coordinate(e), coordinate(n), off))
        if fit is not None:
            rows.append(("together", "", "", f"{fit.rmse:.2f} m"))
        self._table.show_rows(rows, ("", "easting", "northing", "off by") if rows else ())
        self.done.setEnabled(fit is not None and len(self.pairs) >= LEAST)
        self.back.setEnabled(bool(self.pairs))

    def _say(self, sentence: str) -> None:
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))

    def _place(self) -> None:
        if self.item is not None and self._session.try_apply(by_pairs(self.item, self.pairs)):
            self.leave()
