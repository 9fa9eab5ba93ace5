"""What a window shows while no plan is open: what can be done first."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from plan_editor.desktop.house import House
from plan_editor.desktop.parts import button, column, row, text
from plan_editor.desktop.theme import STEP, role

WIDTH = 130 * STEP
PURPOSE = (
    "A true-to-scale plan of a churchyard: traced from old paper, measured, kept, and printed"
    " for the people who act on it."
)

SAMPLE_TOLD = "A finished plan to try everything on."
NEW_TOLD = "Then lay an old plan under the ground and trace it."
OPEN_TOLD = "A plan that was begun before."


class StartPage(QWidget):
    """The sample, a new plan, an old one."""

    def __init__(self, house: House, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "paper")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._house = house
        inner = QWidget(self)
        inner.setFixedWidth(WIDTH)
        lines = column(inner, space=3 * STEP)
        lines.addWidget(text(inner, "Churchyard Plan Editor", "heading"))
        lines.addWidget(text(inner, PURPOSE, "soft"))
        lines.addSpacing(3 * STEP)
        self._list_ways(inner, lines)
        self._list_recent(inner, lines)
        middle = QWidget(self)
        between = row(middle, space=0)
        between.addStretch(1)
        between.addWidget(inner)
        between.addStretch(1)
        outer = column(self)
        outer.addStretch(1)
        outer.addWidget(middle)
        outer.addStretch(2)

    def _list_ways(self, inner: QWidget, lines: QVBoxLayout) -> None:
        house = self._house
        for words, pressed, told, kind in (
            ("Open the sample", house.open_sample, SAMPLE_TOLD, "main"),
            ("New plan…", house.new_plan, NEW_TOLD, ""),
            ("Open…", self._open, OPEN_TOLD, ""),
        ):
            across = QWidget(inner)
            beside = row(across, space=4 * STEP)
            made = button(across, words, pressed, kind)
            made.setFixedWidth(40 * STEP)
            beside.addWidget(made)
            beside.addWidget(text(across, told, "soft"), 1)
            lines.addWidget(across)

    def _list_recent(self, inner: QWidget, lines: QVBoxLayout) -> None:
        recent = self._house.preferences.recent
        if not recent:
            return
        lines.addSpacing(3 * STEP)
        lines.addWidget(text(inner, "Opened lately", "strong"))
        for path in recent:
            link = button(inner, Path(path).name, self._open_recent, "link")
            link.setToolTip(path)
            link.setAccessibleDescription(path)
            link.setProperty("path", path)
            lines.addWidget(link)

    def _open(self) -> None:
        self._house.ask_open(self.window())

    def _open_recent(self) -> None:
        self._house.open_plan(Path(self.sender().property("path")))
