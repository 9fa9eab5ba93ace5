"""The right side: the card, and under it the panel of the job."""

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QScrollArea, QSplitter, QStackedWidget, QWidget
from typing_extensions import override

from plan_editor.desktop.card.card import Card
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.jobs import Job
from plan_editor.desktop.parts import scrolled
from plan_editor.desktop.sections_column import SectionsColumn
from plan_editor.desktop.theme import STEP, role
from plan_editor.plan.item import ItemId

WIDTH = 352
CARD_SHARE = 0.55
"""Of the height, while something is chosen."""

EMPTY_CARD = 28 * STEP


class PanelsColumn(QSplitter):
    """The card above, the panel below; the card takes room when something is chosen."""

    def __init__(self, desk: Desk, jobs: tuple[Job, ...], parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        role(self, "bar")
        self.setMinimumWidth(75 * STEP)
        self.setChildrenCollapsible(False)
        self.setHandleWidth(1)
        self.card = Card(desk.session, self)
        self._card_area = scrolled(self, self.card, "Card")
        self.panels = {job.name: job.panel(desk, self) for job in jobs}
        self._stack = QStackedWidget(self)
        self._areas = {n: scrolled(self._stack, p, n) for n, p in self.panels.items()}
        for area in self._areas.values():
            self._stack.addWidget(area)
        self.addWidget(self._card_area)
        self.addWidget(self._stack)
        self.setStretchFactor(0, 0)
        self.setStretchFactor(1, 1)
        for _, panel in self._columns():
            panel.unfolded.connect(self._show_unfolded)
        self._filled = self._roomy = False
        until_gone(
            self,
            desk.session.chosen_changed.connect(self._chosen),
            desk.roomy.connect(self._give_room),
        )

    def show_job(self, name: str) -> None:
        """Show the panel of a job."""
        self._stack.setCurrentWidget(self._areas[name])

    def job_of(self, section: str) -> str:
        """Return the name of the job whose panel has a section; empty for none."""
        return next((name for name, p in self._columns() if section in p.folds), "")

    def unfold(self, job: str, section: str) -> None:
        """Open a section of a job's panel, and take the keys to its first field."""
        for name, panel in self._columns():
            if name == job:
                panel.open(section)
                _reach_first(panel.sections[section])
                _show_from_top(self._areas[name], panel.folds[section])

    def _show_unfolded(self, section: str) -> None:
        """Bring a section that its title opened into sight: the one above it has closed."""
        name, panel = next((n, p) for n, p in self._columns() if p is self.sender())
        _show_from_top(self._areas[name], panel.folds[section])

    def reach_panel(self) -> None:
        """Take the keys to the first field of the panel."""
        _reach_first(self._stack)

    def _columns(self) -> list[tuple[str, SectionsColumn]]:
        return [(n, p) for n, p in self.panels.items() if isinstance(p, SectionsColumn)]

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._share()

    def _chosen(self, chosen: tuple[ItemId, ...]) -> None:
        if bool(chosen) != self._filled:
            self._filled = bool(chosen)
            self._share()

    def _give_room(self, wanted: bool) -> None:  # noqa: FBT001  # a signal
        self._roomy = wanted
        self._share()

    def _share(self) -> None:
        large = self._filled and not self._roomy
        card = int(self.height() * CARD_SHARE) if large else EMPTY_CARD
        self.setSizes([card, self.height() - card])


def _show_from_top(area: QScrollArea, part: QWidget) -> None:
    """Scroll so that a part is seen from its top, also one that was opened a moment ago."""
    for _ in range(2):  # what lies inside first, and then what it lies in
        QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)
    area.verticalScrollBar().setValue(part.y())


def _reach_first(inside: QWidget) -> None:
    for child in inside.findChildren(QWidget):
        if child.isVisible() and child.focusPolicy() & Qt.FocusPolicy.TabFocus:
            child.setFocus(Qt.FocusReason.ShortcutFocusReason)
            return
