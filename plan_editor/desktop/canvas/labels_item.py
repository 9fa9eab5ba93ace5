"""What is written on the ground, over everything that is drawn on it."""

from collections.abc import Callable, Iterator

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget
from typing_extensions import override

from plan_editor.desktop.canvas.careful import careful
from plan_editor.desktop.canvas.kind_item import EVERYWHERE
from plan_editor.desktop.canvas.labels import Labels, draw_labels
from plan_editor.desktop.canvas.sight import Sight


class LabelsItem(QGraphicsItem):
    """Writes the labels of all kinds, so that none is written over another."""

    def __init__(self, labels: Callable[[], Iterator[Labels]], sight: Sight) -> None:
        super().__init__()
        self._labels = labels
        self._sight = sight
        self.setZValue(700.0)

    @override
    def boundingRect(self) -> QRectF:
        return EVERYWHERE

    @override
    @careful
    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionGraphicsItem,
        widget: QWidget | None = None,
    ) -> None:
        painter.resetTransform()
        draw_labels(painter, tuple(self._labels()), self._sight)
