"""The form in which a base plan is fitted: points, residuals, the kind of fit, one edit."""

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.commands.control import LEAST, Point, Points, Trial, lines, mark_at
from plan_editor.commands.control_lists import (
    as_known,
    called_otherwise,
    read_sd,
    taken_in,
    with_used,
    without,
)
from plan_editor.commands.fitting import (
    ALONG,
    NOT_ALONG,
    TABLES,
    along_question,
    placing,
    read_control,
)
from plan_editor.commands.marks import MarkLine, mark_lines
from plan_editor.commands.placing import (
    ON_BASE_PLAN,
    ON_GROUND,
    Pick,
    picking,
)
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.fit.control_table import ControlTable
from plan_editor.desktop.fit.drafts import Drafts
from plan_editor.desktop.fit.place_fields import PlaceFields
from plan_editor.desktop.fit.showing import Showing
from plan_editor.desktop.fit.trying import Trying
from plan_editor.desktop.fit.verdict import Verdict
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.theme import STEP
from plan_editor.drafting.tool import Answer
from plan_editor.errors import PlanEditorError
from plan_editor.ground.base_plans import laid
from plan_editor.plan.item import ItemId
from plan_editor.survey.fits.models import Control

MORE = "Two points place it; a third and more show how far the paper can be trusted."


class FitForm(QWidget):
    """``closed`` when the base plan was placed, or that was given up.

    What was begun is kept while the window is open: giving up loses no point.
    """

    closed = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._showing = Showing(desk.ground)
        self._drafts = Drafts()
        self._trying = Trying(self._session, desk.background, self)
        self.item: ItemId | None = None
        self.trial = Trial(points=())
        self._begun: tuple[float, float] | None = None
        self._told = text(self, ON_BASE_PLAN, "strong")
        self.fields = PlaceFields(self)
        self.table = ControlTable(desk.palette, self)
        self.file = button(self, "From a file…", self._ask_file)
        self.file.setToolTip("A table with the columns mark, px, py, E, N and perhaps sd.")
        self.remove = button(self, "Remove", self._remove)
        self.verdict = Verdict(self)
        self._sentence = text(self, "", "danger")
        self.done = button(self, "Place it", self._place, "main")
        self.cancel = button(self, "Cancel", self.leave)
        self._lay_out()
        self._listen()
        self.hide()

    @property
    def points(self) -> Points:
        """The points, those left out too."""
        return self._drafts.of(self.item).points

    def begin(self, item: ItemId) -> None:
        """Show the base plan alone and ask for a point; start from those that there are."""
        plan = self._session.document.plan
        found = plan.items[item]
        self.item = item
        self.trial = Trial(points=())
        kept = self._drafts.begin(found, mark_lines(plan), plan.grid)
        self.verdict.begin(kept.model)
        self._showing.begin(found, next((b for b in laid(plan) if b.item == item), None))
        self.show()
        self._desk.roomy.emit(True)
        self._trying.begin(found)
        self._ask_paper()
        self._try()

    def leave(self) -> None:
        """Give up, for now, what was begun."""
        if self.isHidden():
            return
        self.hide()
        self.item = self._begun = None
        self._showing.end()
        self._desk.roomy.emit(False)
        self._session.put_down()
        self.closed.emit()

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        # another section or job was turned to; not so where the whole window goes
        if not event.spontaneous() and self.window().isVisible():
            self.leave()

    # the form

    def _lay_out(self) -> None:
        beside = side_by_side(self, self.file, self.remove)
        ends = side_by_side(self, self.done, self.cancel)
        down = column(self, space=2 * STEP)
        for part in (self._told, self.fields, self.table, beside, self.verdict):
            down.addWidget(part)
        for part in (self._sentence, ends, self.verdict.told):
            down.addWidget(part)

    def _listen(self) -> None:
        self.fields.given.connect(self._take_typed)
        self.table.picked.connect(self._choose)
        self.table.dropped.connect(self._drop)
        self.table.rows.use.connect(self._use)
        self.table.rows.call.connect(self._call)
        self.table.rows.know.connect(self._know)
        self.verdict.turned.connect(self._turn)
        self.verdict.leave_out.connect(partial(self._use, used=False))
        self._trying.found.connect(self._heed)
        self._trying.failed.connect(self._say)
        self._trying.measured.connect(self._try)
        until_gone(self, self._session.answered.connect(self._answered))

    def _show(self) -> None:
        self.table.show_lines(lines(self.trial))
        self.verdict.show_trial(self.trial)
        self.remove.setVisible(bool(self.points))
        self.remove.setEnabled(self.table.chosen is not None)
        self.done.setEnabled(self.trial.fit is not None)
        self._say(self.trial.refused)

    def _say(self, sentence: str) -> None:
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))

    # a point on the base plan, then on the ground

    def _ask_paper(self) -> None:
        self._begun = None
        self._session.take_up(picking(ON_BASE_PLAN))
        more = "" if len(self.points) > LEAST else f" {MORE}"
        self._told.setText(f"{ON_BASE_PLAN}{more}")
        self.fields.ask_paper(upward=self._trying.paper.upward)
        self._showing.paper(self.trial, self.table.chosen)

    def _ask_ground(self, x: float, y: float) -> None:
        self._begun = (x, y)
        self._session.take_up(picking(ON_GROUND))
        self._told.setText(ON_GROUND)
        taken = {p.control.name for p in self.points}
        marks = mark_lines(self._session.document.plan)
        self.fields.ask_ground(tuple(m for m in marks if m.number not in taken))
        self._showing.field(self.trial, self.table.chosen)

    def _answered(self, answer: Answer) -> None:
        if not self.isVisible():
            return
        tool = answer.tool
        if isinstance(tool, Pick):
            if tool.picked is not None:
                self._clicked(tool, *tool.picked)
        elif self._begun is not None and self._session.button.name == "select":
            self._ask_paper()  # Esc gives up the point that was begun
        else:
            self.leave()

    def _clicked(self, tool: Pick, east: float, north: float) -> None:
        if self._begun is not None:
            found = mark_at(self._session.document.plan, tool.hits, (east, north))
            mark, place = (None, (east, north)) if found is None else found
            self._pair(*place, mark)
            return
        there = self._showing.point_at(self.trial, east, north, tool.reach)
        paper = self._showing.on_paper(east, north)
        if there is not None or paper is None:
            self._session.take_up(picking(ON_BASE_PLAN))
            if there is not None:
                self.table.selectRow(there)
        else:
            self._ask_ground(*paper)

    def _take_typed(self) -> None:
        try:
            if self._begun is None:
                self._ask_ground(*self.fields.paper())
            else:
                place = self.fields.ground(self._session.document.plan.grid)
                self._pair(*place, self.fields.mark)
        except PlanEditorError as error:
            self._say(str(error))

    def _pair(self, east: float, north: float, mark: MarkLine | None) -> None:
        if self._begun is None:
            return
        x, y = self._begun
        name, sd = ("", None) if mark is None else (mark.number, mark.sd_m)
        control = Control(x=x, y=y, east=east, north=north, sd=sd, name=name)
        self._change((*self.points, Point(control=control, read=mark is None)))
        self._ask_paper()

    # the points

    def _ask_file(self) -> None:
        path = self._desk.ask.file_to_open("Read the points of a fit", TABLES)
        if path is not None:
            grid = self._session.document.plan.grid
            self._trying.work("points", read_control, (path, grid), self._take_in)

    def _take_in(self, control: tuple[Control, ...]) -> None:
        self._change(taken_in(self.points, control))

    def _change(self, points: Points) -> None:
        if self.item is not None:
            self._drafts.change(self.item, points, self.verdict.model)
            self._try()

    def _choose(self, at: int) -> None:
        self.remove.setEnabled(at >= 0)
        if self.item is not None:
            self._showing.sketch(self.trial, self.table.chosen)

    def _remove(self) -> None:
        if (at := self.table.chosen) is not None:
            self._drop(at)

    def _drop(self, at: int) -> None:
        self._change(without(self.points, at))

    def _use(self, at: int, used: bool) -> None:  # noqa: FBT001  # a signal of Qt
        self._change(with_used(self.points, at, used=used))

    def _call(self, at: int, name: str) -> None:
        self._change(called_otherwise(self.points, at, name))

    def _know(self, at: int, sd: str) -> None:
        try:
            self._change(as_known(self.points, at, read_sd(sd)))
        except PlanEditorError as error:
            self._say(str(error))

    def _turn(self) -> None:
        self._change(self.points)

    # what they make of it

    def _try(self) -> None:
        self.done.setEnabled(False)
        self._trying.try_out(self.points, self.verdict.model)

    def _heed(self, trial: Trial) -> None:
        if self.item is None or trial.points != self.points:
            return
        self.trial = trial
        self._show()
        self._showing.fit(trial)
        self._showing.again(trial, self.table.chosen)

    def _place(self) -> None:
        if self.item is None or (fit := self.trial.fit) is None:
            return
        along = self._ask_along(self.item)
        if along is None:
            return
        plan = self._session.document.plan
        if self._session.try_apply(placing(plan, self.item, fit, along=along)):
            self._drafts.placed(self._session.document.plan.items[self.item])
            self.leave()

    def _ask_along(self, item: ItemId) -> bool | None:
        """Return whether what was traced is to go along; None to leave everything for now."""
        question = along_question(self._session.document.plan, item)
        if not question:
            return False
        answer = self._desk.ask.which(question, (ALONG, NOT_ALONG))
        return None if answer is None else answer == 0
