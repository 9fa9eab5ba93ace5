"""Entries of the register: what was found at a memorial."""

from dataclasses import dataclass, field, replace

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import inspection, memorial
from plan_editor.kinds.inspection import InspectionDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordInspection:
    """Record what was found at a memorial; whether it is safe follows from the latest.

    Args:
        memorial: the memorial.
        details: what was found; which memorial it was is filled in.
        id: of the new inspection.
        called: what the title calls the memorial.
    """

    memorial: ItemId
    details: InspectionDetails
    id: ItemId = field(default_factory=new_id)
    called: str = "a memorial"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Record an inspection of {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the inspection as it comes.

        Raises:
            EditRefused: the memorial is not on the plan, or is something else.
        """
        (stone,) = chosen(plan, (self.memorial,))
        if stone.kind != memorial.KIND:
            raise EditRefused(
                f"{stone.called()} is not a memorial. Nothing was recorded. Choose the stone."
            )
        details = replace(self.details, target=stone.id)
        return (Change(None, Item(id=self.id, kind=inspection.KIND, details=details)),)
