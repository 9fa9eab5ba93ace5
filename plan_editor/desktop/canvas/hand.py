"""The hand on the ground: where the pointer is, what it caught, what it asks of the tool."""

from plan_editor.desktop.canvas.layers import Layers
from plan_editor.desktop.canvas.pointing import CATCH_PX, FINGER_PX, Place, hits, placed
from plan_editor.desktop.canvas.sight import Sight
from plan_editor.drafting.tool import Act, Pointer
from plan_editor.drafting.typed import typed_place
from plan_editor.errors import CannotUse
from plan_editor.plan.item import ItemId
from plan_editor.session import Session


class Hand:
    """Hands the pointer to the session."""

    def __init__(self, session: Session, sight: Sight, layers: Layers) -> None:
        self._session = session
        self._sight = sight
        self._layers = layers
        self._busy = False
        self._at: tuple[float, float, bool] | None = None
        self.place = Place(east=0.0, north=0.0)
        self.met = False
        """Whether the pointer has been on the ground; a menu that opens takes it away again."""
        self.finger_px = FINGER_PX
        """How far round the pointer something is meant by it, in logical pixels."""
        self.straight = False
        """Whether the key is held that keeps to right angles."""

    @property
    def begun(self) -> bool:
        """Whether something is begun, so that a length can be typed."""
        return self._session.answer.origin is not None

    def hits(self) -> tuple[ItemId, ...]:
        """Return what lies under the pointer, the top one first."""
        if self._at is None:
            return ()
        reach = self.finger_px / self._sight.scale
        return hits(self._session, self._layers.shown, self.place, reach)

    def point(self, east: float, north: float, *, catching: bool) -> Place:
        """Note where the pointer is, in metres; return the place that is meant by it."""
        self._at = (east, north, catching)
        self.met = True
        self.place = Place(east=east, north=north)
        if catching:
            reach = max(CATCH_PX, self.finger_px) / self._sight.scale
            beneath = self._layers.beneath((east, north), reach, inked=self._session.aims)
            self.place = placed(self._session, self._layers.shown, beneath, self.place, reach)
        return self.place

    def point_again(self) -> Place | None:
        """Return what is meant where the pointer is now; None where it is not on the ground.

        What it had caught may be gone.
        """
        if self._at is None:
            return None
        east, north, catching = self._at
        return self.point(east, north, catching=catching)

    def leave(self) -> None:
        """Note that the pointer is no longer on the ground."""
        self._at = None
        self.look_again()

    def act(
        self,
        act: Act,
        *,
        add: bool = False,
        offer: str = "",
        filled: tuple[tuple[str, str], ...] = (),
    ) -> None:
        """Do something at the place of the pointer."""
        reach = self.finger_px / self._sight.scale
        shown = self._layers.shown
        self._hand_over(
            Pointer(
                act=act,
                east=self.place.east,
                north=self.place.north,
                hits=self.hits(),
                add=add,
                reach=reach,
                shown=shown,
                straight=self.straight,
                offer=offer,
                filled=filled,
            )
        )

    def look_again(self) -> None:
        """Ask the tool anew what it shows, where something has changed that it did not do."""
        if not self._busy:
            self.act(Act.MOVE)

    def type(self, length: str, bearing: str) -> None:
        """Do what a press does, at a typed length and bearing from where the tool stands.

        Raises:
            CannotUse: they cannot be read, or nothing can be typed now; nothing was changed.
        """
        origin = self._session.answer.origin
        if origin is None:
            raise CannotUse("There is nothing to measure from yet. First click a place.")
        toward = self._session.answer.toward or (self.place.east, self.place.north)
        east, north = typed_place(origin, toward, length=length, bearing=bearing)
        self._hand_over(Pointer(act=Act.PRESS, east=east, north=north, typed=True))

    def _hand_over(self, pointer: Pointer) -> None:
        self._busy = True
        try:
            self._session.point(pointer)
        finally:
            self._busy = False
