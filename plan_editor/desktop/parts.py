"""Small pieces that the window's parts are put together from."""

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen, QWheelEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QBoxLayout,
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QTableView,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from plan_editor.desktop.theme import STEP, role

_FEW_LETTERS = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon

B = TypeVar("B", bound=QBoxLayout)
W = TypeVar("W", bound=QWidget)


class Choice(QComboBox):
    """One of a few. The wheel scrolls what it stands in and changes nothing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(_FEW_LETTERS)
        self.setMinimumContentsLength(6)

    @override
    def setAccessibleName(self, name: str) -> None:
        super().setAccessibleName(name)
        if (line := self.lineEdit()) is not None:
            line.setAccessibleName(name)

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colour = self.palette().color(QPalette.ColorRole.PlaceholderText)
        painter.setPen(QPen(colour, 1.5))
        x, y = self.width() - 14.0, self.height() / 2.0
        painter.drawPolyline([QPointF(x - 4, y - 2), QPointF(x, y + 2), QPointF(x + 4, y - 2)])
        painter.end()


def letters(widget: QWidget, count: int) -> int:
    """Return the width of so many letters: what is sized so grows with the type."""
    return count * widget.fontMetrics().averageCharWidth()


def column(parent: QWidget, *, space: int = STEP, edge: int = 0) -> QVBoxLayout:
    """Lay a widget's children out from top to bottom."""
    return _laid(QVBoxLayout(parent), space, edge)


def row(parent: QWidget, *, space: int = 2 * STEP, edge: int = 0) -> QHBoxLayout:
    """Lay a widget's children out from left to right."""
    return _laid(QHBoxLayout(parent), space, edge)


def side_by_side(parent: QWidget, *parts: QWidget) -> QWidget:
    """Return some small parts in a row from the left, each as wide as it likes to be."""
    made = QWidget(parent)
    across = row(made)
    for part in parts:
        across.addWidget(part)
    across.addStretch(1)
    return made


def text(parent: QWidget, words: str = "", kind: str = "") -> QLabel:
    """Return a line or paragraph of plain text that can be selected and wraps."""
    label = QLabel(words, parent)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return _as(label, kind)


def button(
    parent: QWidget, words: str, pressed: Callable[[], None], kind: str = ""
) -> QPushButton:
    """Return a button that says what it does."""
    made = QPushButton(words, parent)
    made.setAccessibleName(words)
    made.clicked.connect(pressed)
    return _as(made, kind)


def rule(parent: QWidget) -> QFrame:
    """Return a hairline."""
    line = QFrame(parent)
    line.setFixedHeight(1)
    return _as(line, "rule")


def scrolled(parent: QWidget, inside: QWidget, called: str) -> QScrollArea:
    """Return a widget in an area that scrolls up and down where it is too long."""
    area = QScrollArea(parent)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setAccessibleName(called)
    # what is too wide is squeezed, never cut off
    inside.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    area.setWidget(inside)
    area.viewport().setAutoFillBackground(False)
    inside.setAutoFillBackground(False)
    return area


def emptied(layout: QLayout) -> None:
    """Take everything out of a layout and let it go."""
    while (place := layout.takeAt(0)) is not None:
        if (widget := place.widget()) is not None:
            widget.hide()
            widget.deleteLater()
        elif (inner := place.layout()) is not None:
            emptied(inner)


def _laid(layout: B, space: int, edge: int) -> B:
    layout.setContentsMargins(edge, edge, edge, edge)
    layout.setSpacing(space)
    return layout


def _as(widget: W, kind: str) -> W:
    if kind:
        role(widget, kind)
    return widget


def as_plain_table(table: QTableView) -> int:
    """Give a table rows of one line each, without grid or numbers; return how high one is.

    Tab leads on past it, and one row or cell of it is chosen at a time.
    """
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setShowGrid(False)
    table.setTabKeyNavigation(False)
    table.setWordWrap(False)
    table.horizontalHeader().setHighlightSections(False)
    table.verticalHeader().hide()
    high = table.fontMetrics().lineSpacing() + 10
    table.verticalHeader().setDefaultSectionSize(high)
    return high
