"""Check of the plan: what is worth a look, with a place to jump to and, where safe, a mend."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.commands.check_sketch import box_of, check_sketch
from plan_editor.commands.checking import (
    CAUTION,
    NOTHING_FOUND,
    Checked,
    Told,
    check,
    counted,
    counts,
    let_stand,
    mend,
    mend_all,
    tell_again,
)
from plan_editor.commands.forms import capital
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.long_look import LongLook
from plan_editor.desktop.parts import Choice, button, column, row, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.change import Change
from plan_editor.plan.item import ItemId

LOOKING = "Looking through the plan…"
CHOOSE = "Choose a finding: the ground shows it, and what can be done about it stands here."
ALL = "All findings"
HEIGHT = 48 * STEP


class Check(QWidget):
    """The list of findings, of all rules or of one, and what can be done with one of them.

    ``noted`` tells what is to stand beside the section's title: how much was found.
    """

    noted = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._checked: Checked | None = None
        self._rows: dict[ItemId, Told] = {}
        self.told: Told | None = None
        self._said = text(self, LOOKING, "strong")
        self.rules = Choice(self)
        self.table = ItemTable("Findings", ("Sort", "What is found"), self)
        self.table.narrow(0)
        self._words = text(self, CHOOSE, "soft")
        self._about = text(self, "", "soft")
        self.mend = button(self, "Mend", self._mend, "main")
        self.mend_all = button(self, "Mend all of this sort", self._mend_all)
        self.stand = button(self, "Let it stand", self._let_stand)
        self._done = text(self, "", "soft")
        self.again = button(self, "Tell them again", self._tell_again, "link")
        self._lay_out()
        self._listen()

    def _lay_out(self) -> None:
        self.rules.setAccessibleName("Findings of which rule")
        self.table.setFixedHeight(HEIGHT)
        self.stand.setToolTip("Keep in the plan that this is right as it is, until it changes")
        self._ways = QWidget(self)
        beside = row(self._ways)
        for way in (self.mend, self.mend_all, self.stand):
            beside.addWidget(way)
        beside.addStretch(1)
        lines = column(self, space=2 * STEP)
        for part in (
            self._said,
            self.rules,
            self.table,
            self._words,
            self._ways,
            self._about,
            self._done,
            self.again,
            text(self, CAUTION, "caution"),
        ):
            lines.addWidget(part)
        for hidden in (self.rules, self.table, self._words, self._ways, self._about):
            hidden.hide()
        self._done.hide()
        self.again.hide()

    def _listen(self) -> None:
        self.rules.currentIndexChanged.connect(self._show_rows)
        self.table.picked.connect(self._pick)
        self._look = LongLook(
            self,
            self._desk,
            about="plan check",
            look=lambda plan, stopped: check(plan, cancelled=stopped),
            done=self._show,
        )
        until_gone(self, self._session.document.changed.connect(self._outdated))

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._done.hide()
        self._desk.roomy.emit(False)

    def _outdated(self, changes: tuple[Change, ...]) -> None:
        del changes
        if not self.isVisible():
            self.noted.emit("")

    def _show(self, checked: Checked) -> None:
        self._checked = checked
        found = bool(checked.told)
        self._said.setText(f"{capital(counted(checked))}." if found else NOTHING_FOUND)
        self.noted.emit(str(len(checked.told)) if found else "nothing found")
        self.again.setText(_again(checked.stand))
        self.again.setVisible(bool(checked.stand) and self._session.may_edit)
        self._offer_rules(checked)
        for part in (self.rules, self.table):
            part.setVisible(found)
        self._show_rows()

    def _offer_rules(self, checked: Checked) -> None:
        chosen = self.rules.currentData()
        blocked = self.rules.blockSignals(True)  # Qt's own setter
        self.rules.clear()
        self.rules.addItem(f"{ALL} ({len(checked.told)})", "")
        for rule, count in counts(checked):
            self.rules.addItem(f"{rule.title} ({count})", rule.name)
        self.rules.setCurrentIndex(max(0, self.rules.findData(chosen)))
        self.rules.blockSignals(blocked)

    def _show_rows(self, index: int = 0) -> None:
        del index
        told = () if self._checked is None else self._checked.told
        wanted = self.rules.currentData()
        self._rows = {ItemId(t.key): t for t in told if wanted in (t.rule.name, "", None)}
        cells = {k: (str(t.finding.severity), t.finding.text) for k, t in self._rows.items()}
        key = None if self.told is None else ItemId(self.told.key)
        self.table.show_items(tuple(cells), cells.__getitem__, key)
        self._take_in_hand(self._rows.get(key) if key is not None else None)

    def _take_in_hand(self, told: Told | None) -> None:
        self.told = told
        there = bool(self._rows)
        self._words.setVisible(there)
        self._words.setText(CHOOSE if told is None else _words(told))
        self._ways.setVisible(told is not None and self._session.may_edit)
        self._about.setVisible(told is not None)
        self._desk.roomy.emit(told is not None and self.isVisible())
        if told is None:
            self._desk.ground.show_sketch(None)
            return
        self._about.setText(f"{told.rule.help} Source: {told.rule.source}")
        self.mend.setVisible(told.finding.mend is not None)
        self.mend_all.setVisible(sum(t.finding.mend is not None for t in self._sort()) > 1)
        plan = self._session.document.plan
        self._desk.ground.show_sketch(check_sketch(plan, told.finding))

    def _sort(self) -> tuple[Told, ...]:
        """Return the findings of the rule in hand."""
        if self._checked is None or self.told is None:
            return ()
        return tuple(t for t in self._checked.told if t.rule == self.told.rule)

    def _pick(self, key: str) -> None:
        told = self._rows[ItemId(key)]
        self._done.hide()
        self._session.choose(told.finding.items)
        self._take_in_hand(told)
        if (box := box_of(self._session.document.plan, told.finding)) is not None:
            self._desk.ground.look_at(box)

    def _mend(self) -> None:
        if (told := self.told) is not None:
            self._do(lambda: mend(self._session, told))

    def _mend_all(self) -> None:
        self._do(lambda: mend_all(self._session, self._sort()))

    def _let_stand(self) -> None:
        if (told := self.told) is not None:
            self._do(lambda: let_stand(self._session, (told,)))

    def _tell_again(self) -> None:
        self._do(lambda: tell_again(self._session))

    def _do(self, wish: Callable[[], str | None]) -> None:
        try:
            said = wish() or ""
        except PlanEditorError as error:
            said = str(error)
        self._done.setText(said)
        self._done.setVisible(bool(said))


def _words(told: Told) -> str:
    made = told.finding.mend
    return told.finding.text if made is None else f"{told.finding.text}\nMend: {made.title}."


def _again(stand: int) -> str:
    many = "1 more finding was" if stand == 1 else f"{stand} more findings were"
    return f"{many} let stand. Tell {'it' if stand == 1 else 'them'} again"


SECTION = Section(
    name="check",
    job="trace",
    title="Check of the plan",
    order=40,
    help="Graves over one another, gaps, odd sizes, numbers borne twice: what is worth a look.",
    widget=Check,
)
