"""A photograph in a window of its own, as large as the window; the plan can be worked on."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QDialog, QWidget
from typing_extensions import override

from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.theme import STEP


class _Picture(QWidget):
    """A picture that fills its room and keeps its shape."""

    def __init__(self, content: bytes, told: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._pixmap = QPixmap()
        self._pixmap.loadFromData(content)
        self.setAccessibleName(told)

    @override
    def sizeHint(self) -> QSize:
        most = QSize(180 * STEP, 150 * STEP)
        return self._pixmap.size().boundedTo(most)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        size = self._pixmap.size().scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        left, top = (self.width() - size.width()) // 2, (self.height() - size.height()) // 2
        painter.drawPixmap(left, top, size.width(), size.height(), self._pixmap)
        painter.end()


def show_picture(parent: QWidget, content: bytes, told: str) -> QDialog:
    """Show a photograph with what is said of it."""
    dialog = QDialog(parent)
    dialog.setWindowTitle(told.split("\n", maxsplit=1)[0])
    lines = column(dialog, space=3 * STEP, edge=4 * STEP)
    lines.addWidget(_Picture(content, told, dialog), 1)
    lines.addWidget(text(dialog, told, "soft"))
    lines.addWidget(button(dialog, "Close", dialog.accept), 0, Qt.AlignmentFlag.AlignLeft)
    dialog.finished.connect(dialog.deleteLater)
    dialog.show()
    return dialog
