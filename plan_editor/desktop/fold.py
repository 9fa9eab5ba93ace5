"""A part of a panel that opens and closes under its title."""

from PySide6.QtCore import QPointF, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QPushButton, QWidget
from typing_extensions import override

from plan_editor.desktop.parts import column, rule
from plan_editor.desktop.theme import STEP, role

CHEVRON_PX = 4.0
"""Half of how wide it is."""


class FoldTitle(QPushButton):
    """The title, with a chevron that points down while the part is open."""

    def __init__(self, title: str, help_: str, parent: QWidget) -> None:
        super().__init__(title, parent)
        role(self, "fold")
        self.setCheckable(True)
        self.setAccessibleName(title)
        self.setAccessibleDescription(help_)
        self.setToolTip(help_)
        self._title = title

    def note(self, words: str) -> None:
        """Say a word beside the title, such as how much there is; empty for nothing."""
        told = f"{self._title}  ·  {words}" if words else self._title
        self.setText(told)
        self.setAccessibleName(told)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.PlaceholderText), 1.5))
        long, short = CHEVRON_PX, CHEVRON_PX / 2
        painter.translate(self.width() - 5.0 * STEP, self.height() / 2.0)
        if not self.isChecked():
            painter.rotate(-90.0)
        painter.drawPolyline(
            [QPointF(-long, -short), QPointF(0.0, short), QPointF(long, -short)]
        )
        painter.end()


class Fold(QWidget):
    """A title and what it holds. ``turned`` tells that it was opened or closed by hand."""

    turned = Signal(bool)

    def __init__(self, title: str, help_: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.title = FoldTitle(title, help_, self)
        self.inside = QWidget(self)
        self._inner = column(self.inside, edge=4 * STEP)
        self._inner.setContentsMargins(4 * STEP, STEP, 4 * STEP, 4 * STEP)
        lines = column(self, space=0)
        lines.addWidget(self.title)
        lines.addWidget(self.inside)
        lines.addWidget(rule(self))
        self.inside.hide()
        self.title.clicked.connect(self.turned)

    def hold(self, widget: QWidget) -> None:
        """Take in what it holds."""
        self._inner.addWidget(widget)

    @property
    def is_open(self) -> bool:
        """Whether what it holds can be seen."""
        return not self.inside.isHidden()

    def open(self, yes: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        """Open or close it."""
        self.title.setChecked(yes)
        self.inside.setVisible(yes)
