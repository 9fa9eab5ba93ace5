"""The panel of a job as a column of sections, one of them open at a time."""

from dataclasses import replace

from PySide6.QtCore import Signal, SignalInstance
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.desktop.desk import Desk
from plan_editor.desktop.fold import Fold
from plan_editor.desktop.parts import column
from plan_editor.desktop.section import Section, sections
from plan_editor.desktop.section_ground import SectionGround


class SectionsColumn(QWidget):
    """Opens and closes its sections, and remembers which was opened last.

    ``unfolded`` tells the name of a section that was opened by its title.
    """

    unfolded = Signal(str)

    def __init__(self, job: str, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._house = desk.house
        self.folds: dict[str, Fold] = {}
        self.sections: dict[str, QWidget] = {}
        self._grounds: dict[str, SectionGround] = {}
        self._lines = column(self, space=0)
        for section in sections(job):
            self._take_in(section, desk)
        self._lines.addStretch(1)
        kept = (s for s in self._house.preferences.sections if s in self.folds)
        self.open(next(kept, next(iter(self.folds))))

    def open(self, name: str) -> None:
        """Open a section and close the others."""
        for other in self.folds:
            if other != name:
                self._turn(other, to=False)
        self._turn(name, to=True)

    @property
    def opened(self) -> tuple[str, ...]:
        """The names of the sections that are open, from top to bottom."""
        return tuple(name for name, fold in self.folds.items() if fold.is_open)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        for name in self.opened:
            self._grounds[name].open()

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        for name in self.opened:
            self._grounds[name].close()

    def _take_in(self, section: Section, desk: Desk) -> None:
        ground = SectionGround(desk.ground)
        fold = Fold(section.title, section.help, self)
        made = section.widget(replace(desk, ground=ground), fold.inside)
        fold.setObjectName(section.name)
        fold.hold(made)
        fold.turned.connect(self._turned)
        if isinstance(noted := getattr(made, "noted", None), SignalInstance):
            noted.connect(fold.title.note)
        self._lines.addWidget(fold)
        self.folds[section.name] = fold
        self.sections[section.name] = made
        self._grounds[section.name] = ground

    def _turned(self, opened: bool) -> None:  # noqa: FBT001  # a signal of Qt
        name = self.sender().objectName()
        if not opened:
            self._turn(name, to=False)
            return
        self.open(name)
        self._house.remember(self._house.preferences.having_unfolded(name, self.folds))
        self.unfolded.emit(name)

    def _turn(self, name: str, *, to: bool) -> None:
        self.folds[name].open(to)
        if to and self.isVisible():
            self._grounds[name].open()
        elif not to:
            self._grounds[name].close()
