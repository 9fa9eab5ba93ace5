"""A small table of computed figures: words at the left, figures at the right."""

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from plan_editor.desktop.parts import emptied
from plan_editor.desktop.theme import STEP, role


class Figures(QWidget):
    """Rows of text; the first column takes the room, the others stand at the right."""

    def __init__(self, called: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(called)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(4 * STEP)
        self._grid.setVerticalSpacing(STEP)
        self._grid.setColumnStretch(0, 1)

    def show_rows(self, rows: Iterable[tuple[str, ...]], heads: tuple[str, ...] = ()) -> None:
        """Show other rows."""
        emptied(self._grid)
        lines = [heads, *rows] if heads else list(rows)
        for line, cells in enumerate(lines):
            for place, words in enumerate(cells):
                kind = "figure" if place and not (heads and line == 0) else "soft"
                self._grid.addWidget(self._cell(words, place, kind), line, place)

    def _cell(self, words: str, place: int, kind: str) -> QLabel:
        label = QLabel(words, self)
        label.setTextFormat(Qt.TextFormat.PlainText)
        side = Qt.AlignmentFlag.AlignRight if place else Qt.AlignmentFlag.AlignLeft
        label.setAlignment(side | Qt.AlignmentFlag.AlignVCenter)
        if kind:
            role(label, kind)
        return label
