"""Register and ground: likely graves for entries without one, and what is to be looked into."""

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QLineEdit, QWidget
from typing_extensions import override

from plan_editor.commands.forms import capital
from plan_editor.commands.grave_sketch import graves_box, graves_sketch
from plan_editor.commands.matching import (
    CAUTION,
    Compared,
    accepted,
    compare_or_stop,
    counted,
    row_of,
    why,
)
from plan_editor.commands.proposing import score_from
from plan_editor.commands.size import thousands
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.long_look import LongLook
from plan_editor.desktop.parts import Choice, button, column, row, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import CannotUse
from plan_editor.plan.item import ItemId
from plan_editor.records.matching import ACCEPT_FROM, GraveProposal
from plan_editor.records.work_list import Task

LOOKING = "Comparing register and ground…"
AGREE = "Register and ground agree."
CHOOSE = "Choose a line: the ground shows the grave, and what speaks for it stands here."
LIKELY = "Likely graves"
HEIGHT = 48 * STEP


class RegisterAndGround(QWidget):
    """Likely graves and the work list, and what can be done with a line of them."""

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._compared = Compared(proposals=(), tasks=())
        self._proposals: dict[ItemId, GraveProposal] = {}
        self._tasks: dict[ItemId, Task] = {}
        self.proposal: GraveProposal | None = None
        self.said = text(self, LOOKING, "strong")
        self.which = Choice(self)
        self.likely = ItemTable("Likely graves", ("Score", "Entry", "Grave"), self)
        self.likely.narrow(0, 2)
        self.tasks = ItemTable("To be looked into", ("What is found",), self)
        self._words = text(self, CHOOSE, "soft")
        self.accept = button(self, "Accept this grave", self._accept, "main")
        self.least = QLineEdit(f"{ACCEPT_FROM:g}", self)
        self.accept_all = button(self, "Accept all above", self._accept_all)
        self._fault = text(self, "", "danger")
        self._lay_out()
        self._listen()

    def _lay_out(self) -> None:
        self.which.setAccessibleName("Likely graves, or what is to be looked into")
        self.least.setAccessibleName("Least score")
        for table in (self.likely, self.tasks):
            table.setFixedHeight(HEIGHT)
        self._all = QWidget(self)
        beside = row(self._all)
        label = text(self._all, "Least score", "soft")
        label.setWordWrap(False)
        label.setBuddy(self.least)
        for small in (label, self.least, self.accept_all):
            beside.addWidget(small)
        self._caution = text(self, CAUTION, "caution")
        self._but_said = (self.which, self.likely, self.tasks, self._words, self.accept)
        lines = column(self, space=2 * STEP)
        for part in (self.said, *self._but_said, self._all, self._fault, self._caution):
            lines.addWidget(part)
        for hidden in (*self._but_said, self._all, self._fault):
            hidden.hide()

    def _listen(self) -> None:
        self.which.currentIndexChanged.connect(self._show_rows)
        self.likely.picked.connect(self._pick_grave)
        self.tasks.picked.connect(self._pick_task)
        self.least.textChanged.connect(self._count_sure)
        self._look = LongLook(
            self,
            self._desk,
            about="register and ground",
            look=compare_or_stop,
            done=self._show,
        )

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._desk.ground.show_sketch(None)
        self._desk.roomy.emit(False)

    def _show(self, compared: Compared) -> None:
        self._compared = compared
        there = bool(compared.tasks or compared.proposals)
        self.said.setText(_summed(compared) if there else AGREE)
        self.noted.emit(thousands(len(compared.tasks)) if compared.tasks else "")
        self._offer(compared)
        self.which.setVisible(there)
        self._show_rows()

    def _offer(self, compared: Compared) -> None:
        chosen = self.which.currentData()
        blocked = self.which.blockSignals(True)  # Qt's own setter
        self.which.clear()
        if compared.proposals:
            self.which.addItem(f"{LIKELY} ({thousands(len(compared.proposals))})", "")
        for sort, count in counted(compared.tasks):
            self.which.addItem(f"{capital(str(sort))} ({thousands(count)})", str(sort))
        self.which.setCurrentIndex(max(0, self.which.findData(chosen)))
        self.which.blockSignals(blocked)

    def _show_rows(self, index: int = 0) -> None:
        del index
        wanted = self.which.currentData()
        self._proposals = _by_key(self._compared.proposals)
        plan = self._session.document.plan
        cells = {k: row_of(plan, p) for k, p in self._proposals.items()}
        self.likely.show_items(tuple(cells), cells.__getitem__, None)
        told = [t for t in self._compared.tasks if str(t.sort) == wanted]
        self._tasks = {ItemId(str(n)): t for n, t in enumerate(told)}
        self.tasks.show_items(tuple(self._tasks), lambda k: (self._tasks[k].says,), None)
        likely = wanted == ""
        self.likely.setVisible(likely)
        self.tasks.setVisible(bool(told))
        self._words.setVisible(likely or bool(told))
        self._all.setVisible(likely and self._session.may_edit)
        self._words.setText(CHOOSE)
        self._take_in_hand(None)
        self._count_sure()

    def _take_in_hand(self, proposal: GraveProposal | None) -> None:
        self.proposal = proposal
        self.accept.setVisible(proposal is not None and self._session.may_edit)

    def _pick_grave(self, key: str) -> None:
        proposal = self._proposals[ItemId(key)]
        self._words.setText(why(proposal))
        self._take_in_hand(proposal)
        self._go_to((proposal.entry,), proposal.grave)

    def _pick_task(self, key: str) -> None:
        task = self._tasks[ItemId(key)]
        self._words.setText(task.says)
        self._go_to(task.items[:1], *task.items)

    def _go_to(self, chosen: tuple[ItemId, ...], *shown: ItemId) -> None:
        plan = self._session.document.plan
        self._session.choose(tuple(i for i in chosen if i in plan.items))
        self._desk.roomy.emit(True)
        self._desk.ground.show_sketch(graves_sketch(plan, *shown))
        if (box := graves_box(plan, *shown)) is not None:
            self._desk.ground.look_at(box)

    def _accept(self) -> None:
        if self.proposal is not None:
            self._take((self.proposal,))

    def _accept_all(self) -> None:
        self._take(self._sure())

    def _take(self, chosen: tuple[GraveProposal, ...]) -> None:
        if chosen and self._session.try_apply(accepted(chosen)):
            self._take_in_hand(None)
            self._look.now()

    def _sure(self) -> tuple[GraveProposal, ...]:
        try:
            return self._compared.sure(score_from(self.least.text()))
        except CannotUse as error:
            self._fault.setText(str(error))
            return ()

    def _count_sure(self, typed: str = "") -> None:
        del typed
        self._fault.setText("")
        count = len(self._sure())
        self.accept_all.setText(f"Accept all above ({thousands(count)})")
        self.accept_all.setEnabled(bool(count))
        self._fault.setVisible(bool(self._fault.text()))


def _by_key(proposals: Iterable[GraveProposal]) -> dict[ItemId, GraveProposal]:
    return {ItemId(f"{p.entry} {p.grave}"): p for p in proposals}


def _summed(compared: Compared) -> str:
    likely, tasks = len(compared.best), len(compared.tasks)
    entries = "1 entry has" if likely == 1 else f"{thousands(likely)} entries have"
    things = "1 thing is" if tasks == 1 else f"{thousands(tasks)} things are"
    return f"{entries} a likely grave; {things} to be looked into."


SECTION = Section(
    name="register_and_ground",
    job="records",
    title="Register and ground",
    order=40,
    help="Likely graves for entries without one, and where register and ground disagree.",
    widget=RegisterAndGround,
)
