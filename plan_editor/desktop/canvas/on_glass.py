"""All that stands on the glass: in the corners of the ground, and beside the pointer."""

from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import QWidget

from plan_editor.desktop.canvas.furniture import BESIDE, MARGIN, NEAR, Furniture, Prompt
from plan_editor.desktop.canvas.key_plan import KeyPlan
from plan_editor.desktop.canvas.palette import Palette


class OnGlass:
    """All of them: in the corners of a viewport, and what was caught beside the pointer."""

    def __init__(self, viewport: QWidget, palette: Palette) -> None:
        self._viewport = viewport
        self._furniture = Furniture(viewport, palette)
        self.prompt = Prompt(viewport, palette)
        self.caught = Prompt(viewport, palette)
        self.caught.hide()
        self.key = KeyPlan(viewport, palette)
        self._pointer = QPoint()

    def set_palette(self, palette: Palette) -> None:
        """Change colours."""
        self._furniture.set_palette(palette)
        self.prompt.set_palette(palette)
        self.caught.set_palette(palette)
        self.key.set_palette(palette)

    def set_scale(self, scale: float) -> None:
        """Show another scale, in pixels to a metre."""
        self._furniture.set_scale(scale)

    def say(self, words: str) -> None:
        """Say what the next click does."""
        self.prompt.say(words)
        self.place()

    def say_caught(self, words: str, at: QPoint) -> None:
        """Say what the pointer has caught, beside it; nothing hides it."""
        self.caught.say(words)
        self._pointer = at
        self.place()
        right, below = at.x() + BESIDE[0], at.y() + BESIDE[1]
        if right + self.caught.width() > self._viewport.width():
            right = at.x() - BESIDE[0] - self.caught.width()
        if below + self.caught.height() > self._viewport.height():
            below = at.y() - BESIDE[1] - self.caught.height()
        self.caught.move(right, below)

    def place(self) -> None:
        """Put them into their corners; the prompt goes up where the pointer comes near it."""
        right = self._viewport.width() - MARGIN
        bottom = self._viewport.height() - MARGIN
        self._furniture.move(MARGIN, bottom - self._furniture.height())
        self.key.move(MARGIN, MARGIN)
        self.prompt.fit()
        corner = QPoint(right - self.prompt.width(), bottom - self.prompt.height())
        near = QRect(corner, self.prompt.size()).adjusted(-NEAR, -NEAR, NEAR, NEAR)
        up = near.contains(self._pointer)
        self.prompt.move(corner.x(), MARGIN if up else corner.y())
