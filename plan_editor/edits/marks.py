"""Marks placed by coordinates."""

from dataclasses import dataclass, field, replace

import shapely

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import mark
from plan_editor.kinds.mark import MarkDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Basis, Item, ItemId, new_id
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class AddMark:
    """Add a mark.

    Args:
        number: what it is called.
        east, north: metres about the plan's origin.
        details: how it is found, whether it is permanent.
        basis: how its place is known.
        id: of the new mark.
    """

    number: str
    east: float
    north: float
    details: MarkDetails
    basis: Basis
    id: ItemId = field(default_factory=new_id)

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Add mark {self.number}".rstrip()

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the mark as it comes.

        Raises:
            EditRefused: it would lie nowhere.
        """
        del plan
        bare = Item(
            id=self.id,
            kind=mark.KIND,
            details=self.details,
            number=self.number,
            basis=self.basis,
        )
        return (Change(None, _at(bare, self.east, self.north)),)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceMark:
    """Give a mark other coordinates, and say how they are known.

    What was taped from it stays where it is until the field book is adjusted again.

    Args:
        id: the mark.
        east, north: metres about the plan's origin.
        basis: how its new place is known.
        called: what the title calls it.
    """

    id: ItemId
    east: float
    north: float
    basis: Basis
    called: str = "a mark"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Give {self.called} other coordinates"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the mark before and after.

        Raises:
            EditRefused: it is not on the plan, is something else, or would lie nowhere.
        """
        (item,) = chosen(plan, (self.id,))
        if item.kind != mark.KIND:
            raise EditRefused(f"{item.called()} is not a mark. Nothing was changed.")
        return (Change(item, replace(_at(item, self.east, self.north), basis=self.basis)),)


def _at(item: Item[MarkDetails], east: float, north: float) -> Item[MarkDetails]:
    try:
        return item.at(shapely.Point(east, north))
    except ValueError as fault:
        raise EditRefused(
            f"{item.called()} would lie more than 100 km from the plan's origin. Nothing was"
            " changed. Check the coordinates and their order, easting before northing."
        ) from fault
