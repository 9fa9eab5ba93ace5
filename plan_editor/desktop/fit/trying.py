"""Fits tried beside the window while points are added."""

from functools import partial
from typing import Any

from PySide6.QtCore import QObject, Signal

from plan_editor.commands.control import LEAST, Points, Trial, resolution, tried
from plan_editor.desktop.background import Background, Work
from plan_editor.edits.base_plans import paper_of
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import Item
from plan_editor.session import Session
from plan_editor.survey.fits.models import Model
from plan_editor.survey.fits.paper import Paper


class Trying(QObject):
    """``found`` brings a trial, ``failed`` a sentence, ``measured`` that more is known."""

    found = Signal(Trial)
    failed = Signal(str)
    measured = Signal()

    def __init__(self, session: Session, background: Background, parent: QObject) -> None:
        super().__init__(parent)
        self._session = session
        self._background = background
        self._item: Item[Any] | None = None
        self.paper = Paper()

    def begin(self, item: Item[Any]) -> None:
        """Take up a base plan, and look how finely it was scanned."""
        self._item = item
        self.paper = paper_of(item)
        if self._session.file is None or self.paper.upward:
            return
        self.work(
            "resolution",
            resolution,
            (self._session.file, item.details.digest, item.details.page),
            partial(self._learn, item),
        )

    def try_out(self, points: Points, model: Model | None) -> None:
        """Find out what points make of it; of those asked for meanwhile only the last."""
        if sum(p.used for p in points) < LEAST:
            self.found.emit(Trial(points=points))
        else:
            self.work("fit", tried, (points, model, self.paper), self.found.emit)

    def work(self, about: str, function: Any, arguments: tuple[Any, ...], done: Any) -> None:
        """Do something beside the window; ``done`` is told the answer."""
        self._background.in_thread(
            Work(
                about=about,
                title="",
                function=function,
                arguments=arguments,
                done=done,
                failed=self._fail,
            )
        )

    def _learn(self, item: Item[Any], dots_per_inch: tuple[float, float] | None) -> None:
        if item is self._item and dots_per_inch is not None:
            self.paper = paper_of(item, dots_per_inch)
            self.measured.emit()

    def _fail(self, error: PlanEditorError) -> None:
        self.failed.emit(str(error))
