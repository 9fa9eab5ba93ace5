"""Photographs and papers of the thing that is chosen: seen, added, written out."""

from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon, QPixmap
from PySide6.QtWidgets import QListView, QListWidget, QListWidgetItem, QWidget

from plan_editor.commands.papers import (
    PAPERS,
    PHOTOGRAPHS,
    Ready,
    Words,
    attach,
    made_ready,
    papers_shown,
)
from plan_editor.commands.papers_out import file_name, write_paper
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.picture_window import show_picture
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import DamagedPlan, PlanEditorError
from plan_editor.plan.item import Item, ItemId

CHOOSE = "Choose a stone, a grave, a tree or anything else to see what is kept of it."
NONE = "No photograph or paper of {thing} is kept yet."
PRIVATE = (
    "A photograph is made smaller, and the place that the camera wrote into it is taken out of"
    " the file. Say on its card whether it concerns somebody living."
)
SIDE = 24 * STEP
HEIGHT = 72 * STEP
_ITEM = Qt.ItemDataRole.UserRole


class Papers(QWidget):
    """Pictures in a grid; the one in hand can be seen large and written out."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._thing: ItemId | None = None
        self._shown: tuple[ItemId | None, tuple[Item[Any], ...]] | None = None
        self._said = text(self, CHOOSE, "soft")
        self.pictures = QListWidget(self)
        self.add = button(self, "Add a photograph or paper…", self._add)
        self.large = button(self, "Look at it", self._look)
        self.write = button(self, "Write it out…", self._write)
        self._private = text(self, PRIVATE, "soft")
        self._lay_out()
        self.pictures.currentRowChanged.connect(self._offer)
        self.pictures.itemActivated.connect(self._look)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(self, self._session.chosen_changed.connect(self._chosen))

    @property
    def in_hand(self) -> Item[Any] | None:
        """The paper that is in hand."""
        if (row := self.pictures.currentRow()) < 0:
            return None
        item = ItemId(self.pictures.item(row).data(_ITEM))
        return self._session.document.plan.items.get(item)

    def _lay_out(self) -> None:
        self.pictures.setAccessibleName("Photographs and papers")
        self.pictures.setViewMode(QListView.ViewMode.IconMode)
        self.pictures.setResizeMode(QListView.ResizeMode.Adjust)
        self.pictures.setMovement(QListView.Movement.Static)
        self.pictures.setIconSize(QSize(SIDE, SIDE))
        self.pictures.setWordWrap(True)
        self.pictures.setSpacing(STEP)
        self.pictures.setFixedHeight(HEIGHT)
        lines = column(self, space=2 * STEP)
        ways = side_by_side(self, self.large, self.write)
        for part in (self._said, self.pictures, ways, self.add, self._private):
            lines.addWidget(part)

    def _chosen(self, chosen: tuple[ItemId, ...]) -> None:
        del chosen
        self._follow.now()

    def _refresh(self) -> None:
        plan = self._session.document.plan
        self._thing, papers = papers_shown(plan, self._session.chosen)
        shown = self._shown == (self._thing, papers)
        self._shown = self._thing, papers
        there = None if self._thing is None else plan.items[self._thing]
        self._said.setText(
            CHOOSE
            if there is None
            else f"Of {there.named()}"
            if papers
            else NONE.format(thing=there.named())
        )
        self.add.setEnabled(there is not None and self._session.may_edit)
        if not shown:
            self._list(papers)

    def _list(self, papers: tuple[Item[Any], ...]) -> None:
        self.pictures.clear()
        for paper in papers:
            self.pictures.addItem(_row(paper))
        self.pictures.setVisible(bool(papers))
        self._offer()
        self._fetch(papers)

    def _fetch(self, papers: tuple[Item[Any], ...]) -> None:
        """Read the pictures in a thread, and show them as they are there."""
        if (file := self._session.file) is None or not papers:
            return
        self._desk.background.in_thread(
            Work(
                about="papers",
                title="",
                function=_pictures,
                arguments=(file, papers),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, found: dict[str, bytes]) -> None:
        for n in range(self.pictures.count()):
            row = self.pictures.item(n)
            if (content := found.get(row.data(_ITEM))) is not None:
                row.setIcon(_icon(content))

    def _offer(self, row: int = 0) -> None:
        del row
        paper = self.in_hand
        self.large.setEnabled(paper is not None and _is_picture(paper))
        self.write.setEnabled(paper is not None)

    def _add(self) -> None:
        path = self._desk.ask.file_to_open("A photograph or paper", (*PHOTOGRAPHS, *PAPERS))
        if path is None or self._thing is None or (file := self._session.file) is None:
            return
        self._desk.background.in_thread(
            Work(
                about="reading paper",
                title=f"Reading {path.name}",
                function=made_ready,
                arguments=(file, self._session.document.plan.grid, path, Words()),
                done=partial(self._attach, self._thing),
                failed=self._desk.say_why,
            )
        )

    def _attach(self, thing: ItemId, ready: Ready) -> None:
        try:
            attach(self._session.document, thing, (ready,))
        except PlanEditorError as error:
            self._desk.say_why(error)

    def _look(self, row: object = None) -> None:
        del row
        paper, file = self.in_hand, self._session.file
        if paper is None or file is None or not _is_picture(paper):
            return
        try:
            show_picture(self, file.read(paper.details.digest), _told(paper))
        except PlanEditorError as error:
            self._desk.say_why(error)

    def _write(self) -> None:
        paper, file = self.in_hand, self._session.file
        if paper is None or file is None:
            return
        name = file_name(paper)
        path = self._desk.ask.file_to_write("Write it out", Path(name).suffix, name)
        if path is None:
            return
        try:
            write_paper(paper, file, path)
        except PlanEditorError as error:
            self._desk.say_why(error)


def _row(paper: Item[Any]) -> QListWidgetItem:
    row = QListWidgetItem(_told(paper))
    row.setData(_ITEM, paper.id)
    row.setSizeHint(QSize(SIDE + 4 * STEP, SIDE + 12 * STEP))
    row.setToolTip(_told(paper))
    return row


def _told(paper: Item[Any]) -> str:
    return "\n".join(filter(None, (paper.details.says or paper.named(), paper.details.date)))


def _is_picture(paper: Item[Any]) -> bool:
    return bool(paper.details.content_type == "image/jpeg")


def _pictures(file: Any, papers: tuple[Item[Any], ...]) -> dict[str, bytes]:
    return dict(_read(file, papers))


def _read(file: Any, papers: tuple[Item[Any], ...]) -> Iterator[tuple[str, bytes]]:
    for paper in papers:
        if _is_picture(paper):
            with suppress(DamagedPlan):  # the others are shown all the same
                yield paper.id, file.read(paper.details.digest)


def _icon(content: bytes) -> QIcon:
    pixmap = QPixmap()
    pixmap.loadFromData(content)
    kept = Qt.AspectRatioMode.KeepAspectRatio
    smooth = Qt.TransformationMode.SmoothTransformation
    return QIcon(pixmap.scaled(2 * SIDE, 2 * SIDE, kept, smooth))


SECTION = Section(
    name="papers",
    job="records",
    title="Photographs and papers",
    order=70,
    help="What is kept of the thing that is chosen: pictures, letters, faculties.",
    widget=Papers,
)
