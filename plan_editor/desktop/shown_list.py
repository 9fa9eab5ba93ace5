"""What is shown on the ground, by kind and by state; each job has a set of its own."""

from collections import Counter
from collections.abc import Iterator

from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QTreeWidget,
    QTreeWidgetItem,
    QWidget,
)

from plan_editor.commands.forms import capital
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.house import House
from plan_editor.desktop.jobs import Job
from plan_editor.desktop.parts import button, column, letters, side_by_side, text
from plan_editor.desktop.swatch import swatch
from plan_editor.desktop.theme import STEP, role
from plan_editor.drawing.showing import STATUS, Showing, State, states_of, telling
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import Plan
from plan_editor.session import Session

WIDE, HIGH = 52, 110 * STEP
"""Letters across, pixels down."""

NAME, COUNT, LOCKED = range(3)
ON, OFF = Qt.CheckState.Checked, Qt.CheckState.Unchecked
HERE = Qt.ItemDataRole.UserRole

TO_THE_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class ShownList(QFrame):
    """A list with a box to tick for each kind and state; it goes when one clicks elsewhere."""

    def __init__(self, session: Session, house: House, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        role(self, "popup")
        self._session = session
        self._house = house
        self._job: Job | None = None
        self._head = text(self, "", "strong")
        self.tree = QTreeWidget(self)
        self._all = button(self, "Show everything", self._show_all)
        self._usual = button(self, "As usual", self._as_usual)
        self._dress_tree()
        lines = column(self, space=2 * STEP, edge=3 * STEP)
        lines.addWidget(self._head)
        lines.addWidget(self.tree, 1)
        lines.addWidget(side_by_side(self, self._all, self._usual))
        self.setFixedSize(letters(self, WIDE), HIGH)
        self.tree.itemChanged.connect(self._ticked)

    def begin(self, job: Job) -> None:
        """Show on the ground what this user sees in a job."""
        self._job = job
        kept = self._house.preferences.showing(job.name)
        self._session.show(usual(job) if kept is None else kept)

    def open_above(self, corner: QPoint) -> None:
        """Open it with its lower right corner at a place of the screen."""
        if self._job is None:
            return
        self._head.setText(f"Shown in {self._job.title}")
        self._fill()
        self.move(corner - QPoint(self.width(), self.height()))
        self.show()
        self.tree.setFocus(Qt.FocusReason.PopupFocusReason)

    def _dress_tree(self) -> None:
        self.tree.setAccessibleName("What is shown")
        self.tree.setHeaderLabels(("", "on the plan", "locked"))
        self.tree.setRootIsDecorated(True)
        self.tree.setIconSize(QSize(24, 24))
        self.tree.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.tree.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        header = self.tree.header()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(NAME, QHeaderView.ResizeMode.Stretch)
        for narrow in (COUNT, LOCKED):
            header.setSectionResizeMode(narrow, QHeaderView.ResizeMode.ResizeToContents)

    def _fill(self) -> None:
        blocked = self.tree.blockSignals(True)
        self.tree.clear()
        for kind in _listed(self._session):
            self._add(kind, self._house.palette)
        if (first := self.tree.topLevelItem(0)) is not None:
            self.tree.setCurrentItem(first)
        self.tree.blockSignals(blocked)

    def _add(self, kind: Kind, palette: Palette) -> None:
        plan, showing = self._session.document.plan, self._session.showing
        line = QTreeWidgetItem(self.tree, (kind.plural, str(plan.count(kind))))
        line.setIcon(NAME, swatch(kind, palette))
        line.setData(NAME, HERE, kind.name)
        line.setTextAlignment(COUNT, TO_THE_RIGHT)
        line.setCheckState(NAME, OFF if kind.name in showing.kinds else ON)
        line.setCheckState(LOCKED, ON if kind.name in self._session.locked else OFF)
        line.setToolTip(LOCKED, "Things of a locked kind are not chosen, moved or changed.")
        counted = _counted(plan, kind)
        for state in states_of(kind):
            if 0 < counted[state] < plan.count(kind) or state in showing.states:
                below = QTreeWidgetItem(line, (capital(state.value), str(counted[state])))
                below.setData(NAME, HERE, state)
                below.setTextAlignment(COUNT, TO_THE_RIGHT)
                below.setCheckState(NAME, OFF if state in showing.states else ON)

    def _ticked(self, line: QTreeWidgetItem, place: int) -> None:
        named, on = line.data(NAME, HERE), line.checkState(place) is ON
        if place == LOCKED:
            others = self._session.locked - {named}
            self._session.lock(others | {named} if on else others)
        elif isinstance(named, State):
            self._take(self._session.showing.with_state(named, shown=on))
        else:
            self._take(self._session.showing.with_kind(named, shown=on))

    def _take(self, showing: Showing) -> None:
        self._session.show(showing)
        if self._job is not None:
            kept = self._house.preferences.having_shown(self._job.name, showing)
            self._house.remember(kept)

    def _show_all(self) -> None:
        self._take(Showing())
        self._fill()

    def _as_usual(self) -> None:
        if self._job is not None:
            self._take(usual(self._job))
            self._fill()


def usual(job: Job) -> Showing:
    """Return what a job shows to a newcomer."""
    return Showing(kinds=job.hides)


def _listed(session: Session) -> Iterator[Kind]:
    for kind in kinds():
        there = session.document.plan.count(kind) or kind.name in session.showing.kinds
        if kind.drawn and not kind.pinned and there:
            yield kind


def _counted(plan: Plan, kind: Kind) -> Counter[State]:
    """Return how many items of a kind are in each state."""
    found = Counter(State(kind.name, STATUS, str(i.status)) for i in plan.of(kind))
    for detail in telling(kind):
        found += Counter(
            State(kind.name, detail.name, str(getattr(i.details, detail.name)))
            for i in plan.of(kind)
        )
    return found
