"""What refers to the thing in hand, and what it rests on: each a step to its own card."""

from typing import Any

from PySide6.QtWidgets import QWidget

from plan_editor.commands.relations import Line, lines_of
from plan_editor.desktop.parts import button, column, emptied, text
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import Item
from plan_editor.session import Session

MOST = 4
"""So many of a group are listed at first."""


class Related(QWidget):
    """Lists of the items that refer to one item, newest first, and of those it refers to."""

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._lines = column(self, space=0)
        self._item: Item[Any] | None = None
        self._whole = False

    def show_of(self, item: Item[Any] | None) -> None:
        """Show what refers to an item; nothing of none."""
        if item is None or self._item is None or item.id != self._item.id:
            self._whole = False
        self._item = item
        emptied(self._lines)
        groups = lines_of(self._session.document.plan, item) if item is not None else ()
        for title, lines in groups:
            self._lines.addSpacing(STEP)
            self._lines.addWidget(text(self, title, "strong"))
            few = lines if self._whole else lines[:MOST]
            for line in few:
                self._lines.addWidget(self._link(line))
            if len(lines) > len(few):
                more = f"and {len(lines) - len(few)} more"
                self._lines.addWidget(button(self, more, self._show_whole, "link"))

    def _show_whole(self) -> None:
        self._whole = True
        self.show_of(self._item)

    def _link(self, line: Line) -> QWidget:
        session, item = self._session, line.item
        return button(self, line.text, lambda: session.choose((item,)), "link")
