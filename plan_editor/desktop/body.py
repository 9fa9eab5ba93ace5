"""The body of a window with a plan: job strip, ground, the card with the panel under it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QSplitter, QWidget
from typing_extensions import override

from plan_editor.commands.command import Ask, Part
from plan_editor.desktop.background import Background
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.ground import GroundArea
from plan_editor.desktop.house import House
from plan_editor.desktop.job_strip import JobStrip
from plan_editor.desktop.jobs import jobs
from plan_editor.desktop.laying import Laying
from plan_editor.desktop.locks_kept import LocksKept
from plan_editor.desktop.making import Making
from plan_editor.desktop.panels_column import WIDTH, PanelsColumn
from plan_editor.desktop.parts import row
from plan_editor.desktop.shown_list import ShownList
from plan_editor.plan.signal import Signal
from plan_editor.session import Session

GROUND_WIDTH = 1160


class Body(QWidget):
    """Everything between the top line and the status line."""

    def __init__(
        self,
        session: Session,
        ask: Ask,
        background: Background,
        house: House,
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        palette = house.palette
        self.jobs = {job.name: job for job in jobs()}
        self.strip = JobStrip(tuple(self.jobs.values()), palette, self)
        self.ground = GroundArea(session, background, palette, self)
        self._locks = LocksKept(session, house, self)
        self._dressed: Signal[Palette] = Signal()
        self.laying = Laying(session, background, ask, self)
        self.making = Making(session, background, ask, self)
        desk = Desk(
            session=session,
            house=house,
            ask=ask,
            background=background,
            palette=palette,
            dressed=self._dressed,
            roomy=Signal(),
            ground=self.ground,
            making=self.making,
            laying=self.laying,
        )
        self._split = QSplitter(Qt.Orientation.Horizontal, self)
        self._split.setHandleWidth(1)
        self._split.setChildrenCollapsible(False)
        self._split.addWidget(self.ground)
        self.side = self._side(desk)
        self.shown = ShownList(session, house, self)
        across = row(self, space=0)
        across.addWidget(self.strip)
        across.addWidget(self._split, 1)

    def go(self, job: str) -> str:
        """Turn to a job; return its title."""
        self.strip.show_job(job)
        self.shown.begin(self.jobs[job])
        self.ground.show_job(self.jobs[job])
        self.side.show_job(job)
        return self.jobs[job].title

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ground.canvas.setFocus(Qt.FocusReason.OtherFocusReason)

    def reach(self, part: Part) -> None:
        """Take the keys to a part."""
        match part:
            case Part.CARD:
                self.side.card.focus_first()
            case Part.PANEL:
                self.side.reach_panel()
            case _:
                self.ground.canvas.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def dress(self, palette: Palette) -> None:
        """Take on other colours."""
        self._dressed.emit(palette)
        self.strip.dress(palette)
        self.ground.dress(palette)

    def _side(self, desk: Desk) -> PanelsColumn:
        side = PanelsColumn(desk, tuple(self.jobs.values()), self)
        self._split.addWidget(side)
        self._split.setStretchFactor(0, 1)
        self._split.setSizes([GROUND_WIDTH, WIDTH])
        return side
