"""Remains that are moved by faculty or licence: an event, and the entry stays as it is."""

from dataclasses import dataclass, field, replace
from typing import Any

from plan_editor.edits.chosen import chosen
from plan_editor.edits.corrections import entry_of
from plan_editor.errors import EditRefused
from plan_editor.kinds import removal
from plan_editor.kinds.burial import Belief
from plan_editor.kinds.removal import RemovalDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan

_FILLED_IN = frozenset({"burial", "lay_in"})

ASKED = tuple(d for d in removal.KIND.entries() if d.name not in _FILLED_IN)
"""What is to be told of a removal; the rest follows from the entry."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveRemains:
    """Record that remains were moved; where they lay is kept with the event.

    Args:
        burial: the entry of the register, which stays.
        moved_to: the grave that they lie in now; None where they left the churchyard.
        elsewhere: where they went, if they left.
        date: ISO date; may stop after the year or the month.
        faculty: its number, or that of the licence.
        remarks: whatever else is to be told.
        id: of the event.
        called: what the title calls the entry.
    """

    burial: ItemId
    moved_to: ItemId | None = None
    elsewhere: str = ""
    date: str = ""
    faculty: str = ""
    remarks: str = ""
    id: ItemId = field(default_factory=new_id)
    called: str = "an entry"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Record that the remains of {self.called} were moved"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the event as it comes, and the entry with its grave changed.

        Raises:
            EditRefused: it is no entry of the register, nobody said by what leave or where to,
                or they lie there already.
        """
        entry = entry_of(plan, self.burial)
        self._refuse_untold()
        if self.moved_to is not None:
            self._refuse_no_grave(plan, entry)
        details = RemovalDetails(
            burial=entry.id,
            lay_in=entry.details.grave,
            moved_to=self.moved_to,
            elsewhere=self.elsewhere,
            date=self.date,
            faculty=self.faculty,
            remarks=self.remarks,
        )
        belief = None if self.moved_to is None else Belief.CERTAIN
        lies = replace(entry.details, grave=self.moved_to, belief=belief)
        moved = Change(entry, replace(entry, details=lies))
        event = Change(None, Item(id=self.id, kind=removal.KIND, details=details))
        return (event, moved) if lies != entry.details else (event,)

    def _refuse_untold(self) -> None:
        if not self.faculty.strip():
            raise EditRefused(
                "Remains may be moved only by faculty or licence, and none is named. Nothing"
                " was recorded. Give its number, or write that it is not known."
            )
        if (self.moved_to is None) == (not self.elsewhere.strip()):
            raise EditRefused(
                "Where the remains were moved to must be told: a grave here, or a place"
                " elsewhere, not both. Nothing was recorded. Choose one of them."
            )

    def _refuse_no_grave(self, plan: Plan, entry: Item[Any]) -> None:
        (place,) = chosen(plan, () if self.moved_to is None else (self.moved_to,))
        if not place.kind.holds_burials:
            raise EditRefused(
                f"{place.called()} is neither grave, vault nor ashes plot. Nothing was"
                " recorded. Choose where the remains lie now."
            )
        if place.id == entry.details.grave:
            raise EditRefused(
                f"The remains lie in {place.called()} already. Nothing was recorded. Choose"
                " where they were moved to."
            )
