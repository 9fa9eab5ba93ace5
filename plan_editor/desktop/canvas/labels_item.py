"""What is written on the ground, over everything that is drawn on it."""

from collections.abc import Callable, Iterator

from PySide6.QtGui import QPainter
from typing_extensions import override

from plan_editor.desktop.canvas.labels import Labels, draw_labels
from plan_editor.desktop.canvas.over_all import OverAll
from plan_editor.desktop.canvas.sight import Sight


class LabelsItem(OverAll):
    """Writes the labels of all kinds, so that none is written over another."""

    def __init__(self, labels: Callable[[], Iterator[Labels]], sight: Sight) -> None:
        super().__init__()
        self._labels = labels
        self._sight = sight
        self.setZValue(700.0)

    @override
    def draw(self, painter: QPainter) -> None:
        painter.resetTransform()
        draw_labels(painter, tuple(self._labels()), self._sight)
