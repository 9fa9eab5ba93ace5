"""A line or the outline of an area while it is drawn, piece by piece."""

from dataclasses import dataclass
from typing import Protocol

from plan_editor.drafting.figures import Place
from plan_editor.drafting.tool import Answer, Pointer
from plan_editor.plan.item import Basis
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What came by one step, and goes by one step back: a corner, an arc, a run along an edge.

    Args:
        places: its corners, after those that were there.
        way: the direction in which it arrives, where its last side does not tell that.
        basis: how its place is known, where it was measured.
    """

    places: tuple[Place, ...]
    way: Place | None = None
    basis: Basis | None = None


class Outline(Protocol):
    """What the states that add a piece must know of what it is added to."""

    @property
    def corners(self) -> tuple[Place, ...]:
        """So far."""
        ...

    @property
    def waiting(self) -> Answer:
        """What follows when it is given up."""
        ...

    def with_piece(self, piece: Piece) -> "Outline":
        """Return it with one more piece."""
        ...

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        ...

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Return what follows from the pointer."""
        ...
