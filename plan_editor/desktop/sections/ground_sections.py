"""Sections of ground: the churchyards and sections on the plan, and what lies in each."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.ground_pieces import (
    PieceLine,
    box_of_piece,
    is_partly_shown,
    piece_in_hand,
    piece_lines,
    piece_told,
    show_all_pieces,
    show_only,
)
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId

EMPTY = (
    "The ground is not divided yet. Draw a section round what the register calls by one name,"
    " or the boundary as an area; then what lies in each is counted here."
)
ONCE = (
    "Each thing is counted once: where most of it lies, and in the smallest section that holds"
    " it. Churchyards count everything within their boundary."
)
HEIGHT = 36 * STEP


class GroundSections(QWidget):
    """The list of pieces of ground; choosing one goes there and tells what is in it."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._empty = text(self, EMPTY, "soft")
        heads = ("Section", "Graves", "Free", "Ashes")
        self.table = ItemTable("Sections of ground", heads, self)
        self.table.narrow(1, 2, 3)
        self.table.setFixedHeight(HEIGHT)
        self.figures = Figures("In this section", self)
        self.only = button(self, "Show only this section", self._only)
        self.all = button(self, "Show everything again", self._all)
        self._once = text(self, ONCE, "soft")
        lines = column(self, space=2 * STEP)
        for part in (
            self._empty,
            self.table,
            self.figures,
            side_by_side(self, self.only, self.all),
            self._once,
        ):
            lines.addWidget(part)
        self.table.picked.connect(self._pick)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(
            self,
            self._session.chosen_changed.connect(self._mark),
            self._session.showing_changed.connect(self._offer),
        )

    def _refresh(self) -> None:
        lines = {p.item: p for p in piece_lines(self._session.document.plan)}
        self.table.show_items(tuple(lines), lambda n: _cells(lines[n]), None)
        self._empty.setVisible(not lines)
        for part in (self.table, self._once):
            part.setVisible(bool(lines))
        self._mark()

    def _mark(self, chosen: object = None) -> None:
        del chosen
        if not self.isVisible():
            return
        piece = piece_in_hand(self._session)
        self.table.mark(piece)
        plan = self._session.document.plan
        self.figures.show_rows(() if piece is None else piece_told(plan, piece))
        self.figures.setVisible(piece is not None)
        self._offer()

    def _offer(self, showing: object = None) -> None:
        del showing
        self.only.setVisible(piece_in_hand(self._session) is not None)
        self.all.setVisible(is_partly_shown(self._session))

    def _pick(self, item: str) -> None:
        self._session.choose((ItemId(item),))
        if (box := box_of_piece(self._session.document.plan, ItemId(item))) is not None:
            self._desk.ground.look_at(box)

    def _only(self) -> None:
        if (piece := piece_in_hand(self._session)) is not None:
            show_only(self._session, piece)
            if (box := box_of_piece(self._session.document.plan, piece)) is not None:
                self._desk.ground.look_at(box)

    def _all(self) -> None:
        show_all_pieces(self._session)


def _cells(line: PieceLine) -> tuple[str, ...]:
    return line.name, line.graves, line.free, line.ashes


SECTION = Section(
    name="ground_sections",
    job="trace",
    title="Sections of ground",
    order=60,
    help="The churchyards and sections on the plan: what lies in each, and one shown alone.",
    widget=GroundSections,
)
