"""An item that paints what it likes over all of the ground, and never raises."""

import sys

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget
from typing_extensions import override

EVERYWHERE = QRectF(-1e6, -1e6, 2e6, 2e6)
"""Which piece of it is seen, an item looks up itself; Qt need not ask."""


class OverAll(QGraphicsItem):
    """One layer of the ground. Each kind of it says in ``draw`` what it paints.

    What goes wrong there is reported, once, and the layer is then left out: our mistake in one
    layer must not take the program down.

    WORKAROUND: an exception that leaves a paint method in Python ends the whole process in
    PySide6 6.11 (seen as a segmentation fault).
    """

    def __init__(self) -> None:
        super().__init__()
        self._failed = False

    def draw(self, painter: QPainter) -> None:
        """Paint it, in metres unless it resets the painter."""
        raise NotImplementedError

    @override
    def boundingRect(self) -> QRectF:
        return EVERYWHERE

    @override
    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionGraphicsItem,
        widget: QWidget | None = None,
    ) -> None:
        if self._failed:
            return
        painter.save()
        try:
            self.draw(painter)
        except Exception as fault:  # noqa: BLE001  # handed on whole, to be reported
            self._failed = True
            sys.excepthook(type(fault), fault, fault.__traceback__)
        painter.restore()
