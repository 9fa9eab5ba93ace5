"""What keys do on the ground: for the tool in hand first, then for the view."""

from typing import Protocol

from PySide6.QtCore import QPoint, Qt, SignalInstance
from PySide6.QtGui import QKeyEvent

from plan_editor.desktop.canvas.grip import Grip
from plan_editor.desktop.canvas.hand import Hand
from plan_editor.desktop.canvas.keys import (
    ARROWS,
    ZOOMS,
    act_of,
    is_figure,
    offer_of,
    takes_figures,
)
from plan_editor.session import Session

ARROW_PX = 80
"""An arrow key pans so far."""


class Looks(Protocol):
    """The view, as keys see it."""

    @property
    def typing_begun(self) -> SignalInstance:
        """Tells a digit that was typed where a length or a blank may be."""
        ...

    def take(self, offer: str) -> None:
        """Take up what the tool in hand offers."""
        ...

    def zoom(self, factor: float) -> None:
        """Show the ground so much larger."""
        ...

    def pan(self, by: QPoint) -> None:
        """Move the view over the ground, in pixels right and down."""
        ...

    def whole(self) -> None:
        """Show all that there is."""
        ...


class KeyHand:
    """Takes the keys of the ground, and says whether it had a use for them."""

    def __init__(self, view: Looks, session: Session, hand: Hand, grip: Grip) -> None:
        self._view = view
        self._session = session
        self._hand = hand
        self._grip = grip

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key asks for."""
        return self._for_the_tool(event) or self._for_the_view(event)

    def release(self, event: QKeyEvent) -> None:
        """Let a key go that was held."""
        self._grip.key_up(event)
        if event.key() == Qt.Key.Key_Alt:
            self._keep_straight(False)

    def _for_the_tool(self, event: QKeyEvent) -> bool:
        answer = self._session.answer
        act = act_of(event, begun=self._hand.begun)
        if offer := offer_of(event, answer):
            self._view.take(offer)
        elif act is not None:
            self._hand.act(act)
        elif takes_figures(answer) and is_figure(event):
            self._view.typing_begun.emit(event.text())
        elif event.key() == Qt.Key.Key_Alt:
            self._keep_straight(True)
        else:
            return False
        return True

    def _for_the_view(self, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        if key in ZOOMS:
            self._view.zoom(ZOOMS[key])
        elif key in ARROWS:
            x, y = ARROWS[key]
            self._view.pan(QPoint(x * ARROW_PX, y * ARROW_PX))
        elif key is Qt.Key.Key_Home:
            self._view.whole()
        else:
            return self._grip.key_down(event)
        return True

    def _keep_straight(self, straight: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        self._hand.straight = straight
        self._hand.look_again()
