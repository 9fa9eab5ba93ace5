"""What is found in a scan: looked for where, how many came out, and what becomes of them."""

from collections.abc import Callable

from PySide6.QtWidgets import QLineEdit, QProgressBar, QVBoxLayout, QWidget

from plan_editor.commands.command import Part
from plan_editor.commands.proposing import (
    accepted,
    propose_in,
    proposed_kinds,
    scans_placed,
    score_from,
    waiting,
    walk_tool,
)
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.parts import Choice, button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.ground.proposals import SURE_ENOUGH, Proposal, apart_from
from plan_editor.plan.item import ItemId

NO_SCAN = "No scan is placed yet. Lay an old plan under the ground and place it by points."
LEARNT = (
    "Sizes and bearings are learnt from those that are drawn already: trace three or more of"
    " each sort first."
)
CAUTION = (
    "A scan shows what somebody drew, and the search can miss or mistake it. Look at each one;"
    " check by tape before anything is dug."
)
ABOUT = "proposals"
PERCENT = 100


class Proposals(QWidget):
    """Looks for graves in a scan beside the window; then they are gone through by key."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._empty = text(self, NO_SCAN, "soft")
        self._inside = QWidget(self)
        self.scans = Choice(self._inside)
        self.kinds = Choice(self._inside)
        self.look = button(self._inside, "Look for graves", self._look)
        self.progress = QProgressBar(self._inside)
        self.stop = button(self._inside, "Stop looking", desk.background.stop)
        self.said = text(self._inside, "", "strong")
        self._fault = text(self._inside, "", "danger")
        self.least = QLineEdit(str(SURE_ENOUGH), self._inside)
        self.go = button(self._inside, "Go through them", self._go, "main")
        self.accept = button(self._inside, "Accept all above", self._accept)
        self._searched = False
        self._found: tuple[Proposal, ...] = ()
        self._dress()
        self._lay_out()
        self._follow = Follow(
            self, self._refresh, self._session.document.changed, self._session.proposed
        )
        desk.background.changed.connect(self._show_work)
        self._show_work()

    def waiting(self) -> tuple[Proposal, ...]:
        """Return what is still to be decided.

        Raises:
            CannotUse: the least score is none.
        """
        session = self._session
        least = score_from(self.least.text())
        return waiting(session.document.plan, self._found, session.left_out, least)

    def _dress(self) -> None:
        for kind in proposed_kinds():
            self.kinds.addItem(kind.plural, kind.name)
        self.scans.setAccessibleName("Scan")
        self.kinds.setAccessibleName("What to look for")
        self.least.setAccessibleName("Least score")
        self.progress.setAccessibleName("How far the scan is looked through")
        self.progress.setRange(0, PERCENT)
        self.progress.setTextVisible(False)
        self.kinds.setCurrentIndex(max(0, self.kinds.findData("grave")))
        self.kinds.currentIndexChanged.connect(self._name_button)
        self.least.textChanged.connect(self._refresh)
        self.least.returnPressed.connect(self._go)
        self._name_button()

    def _lay_out(self) -> None:
        lines = column(self._inside, space=2 * STEP)
        for field in (self.scans, self.kinds):
            self._labelled(field, lines)
        lines.addWidget(text(self._inside, LEARNT, "soft"))
        for part in (self.look, self.progress, self.stop, self.said, self.go):
            lines.addWidget(part)
        self._labelled(self.least, lines)
        for part in (self._fault, self.accept):
            lines.addWidget(part)
        lines.addWidget(text(self._inside, CAUTION, "caution"))
        over_all = column(self, space=2 * STEP)
        over_all.addWidget(self._empty)
        over_all.addWidget(self._inside)

    def _labelled(self, field: QWidget, lines: QVBoxLayout) -> None:
        label = text(self._inside, field.accessibleName(), "soft")
        label.setBuddy(field)
        lines.addWidget(label)
        lines.addWidget(field)

    def _name_button(self, place: int = 0) -> None:
        del place
        name = f"Look for {self.kinds.currentText().lower()}"
        self.look.setText(name)
        self.look.setAccessibleName(name)

    def _refresh(self, notice: object = None) -> None:
        del notice
        scans = scans_placed(self._session.document.plan)
        held = self.scans.currentData()
        self.scans.clear()
        for scan in scans:
            self.scans.addItem(scan.name, scan.item)
        self.scans.setCurrentIndex(max(0, self.scans.findData(held)))
        self._empty.setVisible(not scans)
        self._inside.setVisible(bool(scans))
        self._show_found()

    def _show_found(self) -> None:
        fault = ""
        left: tuple[Proposal, ...] = ()
        try:
            left = self.waiting()
        except PlanEditorError as error:
            fault = str(error) if self.least.text() else ""
        self._fault.setText(fault)
        self._fault.setVisible(bool(fault))
        if self._searched:
            self.said.setText(f"{len(self._found)} found, {len(left)} of them to go through")
        self.said.setVisible(self._searched)
        ready = bool(left) and self._session.may_edit
        self.go.setEnabled(ready)
        self.accept.setEnabled(ready)

    def _show_work(self) -> None:
        looks = self._desk.background.goes_on(ABOUT)
        self.progress.setVisible(looks)
        self.stop.setVisible(looks)
        self.look.setEnabled(not looks and self._session.may_edit)

    def _look(self) -> None:
        file = self._session.file
        scan: ItemId | None = self.scans.currentData()
        if file is None or scan is None:
            return
        self.progress.setValue(0)
        self._desk.background.in_process(
            Work(
                about=ABOUT,
                title=self.look.text().replace("Look", "Looking"),
                function=propose_in,
                arguments=(file.working_copy, scan, self.kinds.currentData()),
                done=self._show,
                failed=self._desk.say_why,
                told=self._tell,
            )
        )

    def _tell(self, share: float) -> None:
        self.progress.setValue(round(PERCENT * share))

    def _show(self, found: tuple[Proposal, ...]) -> None:
        self._searched, self._found = True, apart_from(self._session.left_out, found)
        self._show_found()
        if self.go.isEnabled():
            self._session.propose(self.waiting())

    def _go(self) -> None:
        self._try(self._walk)

    def _walk(self, left: tuple[Proposal, ...]) -> None:
        self._session.propose(left)
        self._session.take_up(walk_tool())
        self._desk.ask.reach(Part.GROUND)

    def _accept(self) -> None:
        self._try(self._draw)

    def _draw(self, left: tuple[Proposal, ...]) -> None:
        plan = self._session.document.plan
        self._session.apply(accepted(plan, left, left[0].kind))

    def _try(self, do: Callable[[tuple[Proposal, ...]], None]) -> None:
        try:
            left = self.waiting()
            if left:
                do(left)
        except PlanEditorError as error:
            self._desk.say_why(error)


SECTION = Section(
    name="proposals",
    job="trace",
    title="Found in the scan",
    order=30,
    help="Graves that a scan seems to show: looked for beside the window, then gone through.",
    widget=Proposals,
)
