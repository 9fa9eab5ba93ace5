"""The ground on the screen: pan, zoom, point, and repaint only what has changed.

Keys: Esc cancels, Enter or a double click finishes, Backspace takes back the last corner (so
does Delete while something is begun), arrows pan, + and - zoom, Home shows the whole ground,
space or the middle button drags it; Ctrl held down suspends snapping, Shift adds to what is
chosen, Alt keeps to right angles; the keys of what the tool offers go before all others.
The canvas itself shows the scale bar, the north point, the key plan and the tool's prompt.
"""

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.desktop.canvas.base_plan_item import Under
from plan_editor.desktop.canvas.furniture import BETWEEN
from plan_editor.desktop.canvas.grip import Grip
from plan_editor.desktop.canvas.hand import Hand
from plan_editor.desktop.canvas.key_hand import KeyHand
from plan_editor.desktop.canvas.keys import is_ours
from plan_editor.desktop.canvas.kind_item import REACH_PX
from plan_editor.desktop.canvas.layers import Layers
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.canvas.panned_view import PannedView
from plan_editor.desktop.canvas.pointing import FINGER_PX, Place, boxes_of, coordinates
from plan_editor.desktop.canvas.sight import Sight
from plan_editor.desktop.canvas.zones_item import Shown
from plan_editor.desktop.follow import until_gone
from plan_editor.drafting.tool import Act, Answer
from plan_editor.drawing.showing import Showing
from plan_editor.drawing.sketch import Sketch
from plan_editor.geometry.nearby import Box
from plan_editor.plan.change import Change
from plan_editor.plan.item import ItemId
from plan_editor.session import Session


class Canvas(PannedView):
    """The ground, with everything on it, and the pointer on the ground."""

    pointer_moved = Signal(str, str)
    """Coordinates, and what was caught (``on a corner of Wall W 3``); both may be empty."""

    typing_begun = Signal(str)
    """A digit was typed where a length or a blank may be; ``typed`` and ``fill`` take it."""

    def __init__(
        self, session: Session, palette: Palette, parent: QWidget | None = None
    ) -> None:
        super().__init__(Sight(plan=session.document.plan, palette=palette), parent)
        self._session = session
        self._layers = Layers(self.scene(), self._sight)
        self._hand = Hand(session, self._sight, self._layers)
        self._grip = Grip(self.viewport(), self._navigation)
        self._keys = KeyHand(self, session, self._hand, self._grip)
        self._layers.take_in(session.document.plan)
        self._layers.choose(session.chosen)
        self._layers.show(session.showing)
        self._navigation.reach_over(self.extent)
        self._glass.key.take_in(session.document.plan)
        self._looked_at: Box | None = None
        self._answer(session.answer)
        self._ends = (
            session.document.changed.connect(self._follow),
            session.chosen_changed.connect(self._choose),
            session.showing_changed.connect(self._show),
            session.answered.connect(self._answer),
        )
        until_gone(self, *self._ends)

    # what the window asks for

    def show_kinds(self, names: Iterable[str] | None) -> None:
        """Show the kinds of these names only; all of them for None."""
        self._layers.show_kinds(None if names is None else frozenset(names))
        self.viewport().update()

    def set_zones(self, zones: Iterable[Shown]) -> None:
        """Show these computed zones in place of those before."""
        self._layers.set_zones(zones)
        self.viewport().update()

    def set_sketch(self, sketch: Sketch) -> None:
        """Show a sketch in place of the last."""
        self._layers.set_sketch(sketch)
        self.viewport().update()

    def set_backdrops(self, unders: Iterable[Under]) -> None:
        """Lay these base plans under the ground in place of those before."""
        self._layers.set_backdrops(unders)
        self.viewport().update()

    def go_to(self, ids: Iterable[ItemId]) -> None:
        """Show these items; nothing happens where none of them has a place."""
        boxes = boxes_of(self._session, ids)
        if boxes:
            self.go(boxes)

    def bring_into_sight(self, ids: Iterable[ItemId]) -> None:
        """Move the view, at its scale, over these items, unless they are seen already."""
        if boxes := boxes_of(self._session, ids):
            self.bring_boxes(boxes)

    @property
    @override
    def extent(self) -> Box | None:
        return self._session.document.index.boxes.extent()

    @property
    def pointed_at(self) -> tuple[float, float] | None:
        """Where the pointer is on the ground, or was last, in metres; None before it came."""
        place = self._hand.place
        return (place.east, place.north) if self._hand.met else None

    @property
    def under_pointer(self) -> tuple[ItemId, ...]:
        """What lies under the pointer, the top one first."""
        return self._hand.hits()

    @property
    def begun(self) -> bool:
        """Whether the tool in hand has something begun."""
        return self._hand.begun

    def act_at(
        self,
        act: Act,
        at: QPointF,
        keys: Qt.KeyboardModifier,
        *,
        finger_px: float = FINGER_PX,
    ) -> None:
        """Do something with the tool in hand at a place of the view, as the pointer would.

        What lies within ``finger_px`` of it, in logical pixels, is meant.
        """
        self._hand.finger_px = finger_px
        free = bool(keys & Qt.KeyboardModifier.ControlModifier)
        self._hand.straight = bool(keys & Qt.KeyboardModifier.AltModifier)
        place = self._hand.point(*self._navigation.ground(at), catching=not free)
        self._show_place(place)
        self._hand.act(act, add=bool(keys & Qt.KeyboardModifier.ShiftModifier))

    def typed(self, length: str, bearing: str) -> None:
        """Hand the tool the place at a typed length and bearing from where it stands.

        An empty bearing is that towards the pointer.

        Raises:
            CannotUse: they cannot be read, or nothing can be typed now; nothing was changed.
        """
        self._hand.type(length, bearing)

    def take(self, offer: str) -> None:
        """Take up what the tool in hand offers, by its name, at the place of the pointer."""
        self._hand.act(Act.TAKE, offer=offer)

    def fill(self, filled: tuple[tuple[str, str], ...]) -> None:
        """Hand the tool what was typed into its blanks: the name of each with the text."""
        self._hand.act(Act.FILL, filled=filled)

    def let_go(self) -> None:
        """Follow the session no longer, though the window is still there."""
        for end in self._ends:
            end()

    # what the session says

    def _follow(self, changes: tuple[Change, ...]) -> None:
        moved = self._sight.plan.grid != self._session.document.plan.grid
        self._sight.plan = self._session.document.plan
        boxes = self._layers.follow(changes)
        for box in boxes:
            self._navigation.reach_over(box)
        if self._glass.key.concerns(changes):
            self._glass.key.take_in(self._session.document.plan)
        self.repaint_boxes(boxes, REACH_PX + self._layers.label_reach())
        if moved:
            self._look_elsewhere()
        elif (place := self._hand.point_again()) is not None:
            self._show_place(place)
        self._hand.look_again()

    def _look_elsewhere(self) -> None:
        """Show the whole ground where it lies now; the pointer is nowhere until it moves."""
        self._hand.leave()
        self.pointer_moved.emit("", "")
        self.whole()

    def _choose(self, chosen: tuple[ItemId, ...]) -> None:
        self.repaint_boxes(self._layers.choose(chosen), REACH_PX)
        self._hand.look_again()

    def _show(self, showing: Showing) -> None:
        self._layers.show(showing)
        self.viewport().update()
        self._hand.look_again()

    def _answer(self, answer: Answer) -> None:
        shown = self._layers.preview.show_shapes(answer.preview, answer.lightly)
        self.repaint_boxes(shown, REACH_PX)
        if answer.look_at is not None and answer.look_at != self._looked_at:
            self.bring_boxes([answer.look_at])
        self._looked_at = answer.look_at
        self._glass.say(BETWEEN.join((answer.prompt, *answer.figures)).strip())

    # pointer in

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if not self._grip.press(event) and event.button() is Qt.MouseButton.LeftButton:
            self._pointer_event(Act.PRESS, event)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._grip.move(event):
            self.touched()
        else:
            self._pointer_event(Act.MOVE, event)

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if not self._grip.release() and event.button() is Qt.MouseButton.LeftButton:
            self._pointer_event(Act.RELEASE, event)

    @override
    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if event.button() is Qt.MouseButton.LeftButton:
            self._pointer_event(Act.FINISH, event)

    def _pointer_event(self, act: Act, event: QMouseEvent) -> None:
        self.act_at(act, event.position(), event.modifiers())

    def _show_place(self, place: Place) -> None:
        caught = (place.east, place.north) if place.caught else None
        self.repaint_boxes(self._layers.preview.catch(caught), REACH_PX)
        beside = place.words if self._session.aims else ""
        self._glass.say_caught(beside, self.mapFromScene(place.east, place.north))
        self.pointer_moved.emit(coordinates(self._session, place), place.words)

    @override
    def leaveEvent(self, event: QEvent) -> None:
        self.repaint_boxes(self._layers.preview.catch(None), REACH_PX)
        self._glass.say_caught("", QPoint())
        self._hand.leave()
        self.pointer_moved.emit("", "")
        super().leaveEvent(event)

    # keys

    @override
    def event(self, event: QEvent) -> bool:
        ours = isinstance(event, QKeyEvent) and is_ours(event, self._session.answer)
        if ours and event.type() is QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        return super().event(event)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._keys.press(event):
            event.ignore()

    @override
    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        self._keys.release(event)
        super().keyReleaseEvent(event)
