"""What refers to the thing in hand, and what it rests on: each a step to its own card."""

from typing import Any

from PySide6.QtWidgets import QWidget

from plan_editor.commands.relations import Line, lines_of
from plan_editor.desktop.parts import button, column, emptied, text
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import Item
from plan_editor.session import Session

MOST = 12
"""So many are listed; the rest is counted."""


class Related(QWidget):
    """Lists of the items that refer to one item, newest first, and of those it refers to."""

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._lines = column(self, space=STEP)

    def show_of(self, item: Item[Any] | None) -> None:
        """Show what refers to an item; nothing of none."""
        emptied(self._lines)
        groups = lines_of(self._session.document.plan, item) if item is not None else ()
        for title, lines in groups:
            self._lines.addSpacing(STEP)
            self._lines.addWidget(text(self, title, "strong"))
            for line in lines[:MOST]:
                self._lines.addWidget(self._link(line))
            if len(lines) > MOST:
                self._lines.addWidget(text(self, f"and {len(lines) - MOST} more", "soft"))

    def _link(self, line: Line) -> QWidget:
        session, item = self._session, line.item
        return button(self, line.text, lambda: session.choose((item,)), "link")
