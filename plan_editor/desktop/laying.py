"""A scan or drawing laid under the ground: read beside the window, kept as one edit."""

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QObject

from plan_editor.commands.command import Ask, View
from plan_editor.commands.laying import LaidDown, Ready, add, made_ready, pages_in
from plan_editor.desktop.background import Background, Work
from plan_editor.errors import PlanEditorError
from plan_editor.plan.media import Media
from plan_editor.session import Session
from plan_editor.survey.grids.grid import Grid

MOST = 4
"""So many of the things that were left out are named."""

HOW_TO_PLACE = "Press “Place by points” at the right and click two points that are known."


class Laying(QObject):
    """Lays files under the ground of one window."""

    def __init__(
        self, session: Session, background: Background, ask: Ask, parent: QObject
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._background = background
        self._ask = ask

    def lay(self, path: Path) -> None:
        """Read a file in a thread, then add it to the plan; of several pages one is chosen."""
        self._background.in_thread(
            Work(
                about="laying",
                title=f"Looking into {path.name}",
                function=_looked_into,
                arguments=(path,),
                done=self._choose_page,
                failed=self._fail,
            )
        )

    def _choose_page(self, found: tuple[Path, int]) -> None:
        path, pages = found
        page: int | None = 1
        if pages > 1:
            question = f"{path.name} has {pages} pages. Which one is the plan?"
            page = self._ask.number(question, 1, pages)
        if page is not None:
            self._read(path, page)

    def _read(self, path: Path, page: int) -> None:
        session = self._session
        self._background.in_thread(
            Work(
                about="laying",
                title=f"Reading {path.name}",
                function=_read,
                arguments=(session.file, session.document.plan.grid, path, page),
                done=self._add,
                failed=self._fail,
            )
        )

    def _add(self, ready: Ready) -> None:
        try:
            laid = add(self._session.document, ready)
        except PlanEditorError as error:
            self._fail(error)
            return
        self._session.choose((laid.item,))
        if laid.placed:
            self._ask.view(View.CHOSEN)
        self._ask.tell(" ".join(_told(laid)))

    def _fail(self, error: PlanEditorError) -> None:
        self._ask.tell(str(error))


def _looked_into(path: Path) -> tuple[Path, int]:
    return path, pages_in(path)


def _read(media: Media, grid: Grid, path: Path, page: int) -> Ready:
    return made_ready(media, grid, path, name=path.stem, page=page)


def _told(laid: LaidDown) -> Iterator[str]:
    yield laid.text
    if not laid.placed:
        yield HOW_TO_PLACE
    if laid.report is not None:
        yield from _listed("Taken for granted", laid.report.guessed)
        yield from _listed("Left out", laid.report.passed_over)


def _listed(what: str, told: tuple[str, ...]) -> Iterator[str]:
    if told:
        more = f"; and {len(told) - MOST} more" if len(told) > MOST else ""
        yield f"{what}: {'; '.join(told[:MOST])}{more}."
