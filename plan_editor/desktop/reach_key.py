"""The key to the map of how well pegs can be set out: a swatch, words and a share each."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QWidget
from typing_extensions import override

from plan_editor.commands.reaching import CLASSES, ErrorClass, share
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.canvas.sight import Sight
from plan_editor.desktop.canvas.sketch_style import colour, hatch, level_of, tint
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import text
from plan_editor.desktop.theme import STEP

WIDE, HIGH = 10 * STEP, 5 * STEP


class Swatch(QWidget):
    """A piece of ground of one class, as the canvas fills it."""

    def __init__(self, wanted: ErrorClass, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        self._class = wanted
        self._palette = palette
        self.setFixedSize(WIDE, HIGH)

    def dress(self, palette: Palette) -> None:
        """Take on other colours."""
        self._palette = palette
        self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        tone, level = self._class.tone, level_of(self._class.strength)
        sight = Sight(palette=self._palette, ratio=self.devicePixelRatioF())
        painter = QPainter(self)
        box = QRectF(0.5, 0.5, self.width() - 1.0, self.height() - 1.0)
        painter.fillRect(box, self._palette.ground)
        painter.fillRect(box, tint(tone, level, self._palette))
        painter.fillRect(box, hatch(tone, level, sight))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(colour(tone, self._palette), 1.0))
        painter.drawRect(box)
        painter.end()


class ReachKey(QWidget):
    """A line for each class, with the share of the ground that is of it."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Error of a peg")
        self._swatches = [Swatch(c, desk.palette, self) for c in CLASSES]
        self._shares = [text(self, "", "figure") for _ in CLASSES]
        lines = QGridLayout(self)
        lines.setContentsMargins(0, 0, 0, 0)
        lines.setHorizontalSpacing(3 * STEP)
        lines.setVerticalSpacing(STEP)
        lines.setColumnStretch(1, 1)
        for line, wanted in enumerate(CLASSES):
            lines.addWidget(self._swatches[line], line, 0)
            lines.addWidget(text(self, wanted.title, "soft"), line, 1)
            lines.addWidget(self._shares[line], line, 2, Qt.AlignmentFlag.AlignRight)
        until_gone(self, desk.dressed.connect(self._dress))

    def show_shares(self, shares: tuple[tuple[ErrorClass, float], ...]) -> None:
        """Show other shares."""
        for label, (_, part) in zip(self._shares, shares, strict=True):
            label.setText(share(part))

    def _dress(self, palette: Palette) -> None:
        for swatch in self._swatches:
            swatch.dress(palette)
