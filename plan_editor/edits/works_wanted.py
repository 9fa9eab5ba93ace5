"""The edit that makes a piece of work of what an inspection found."""

from dataclasses import dataclass, field
from textwrap import shorten
from typing import Any

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import inspection, works
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.works import Priority, WorksDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan

_FAULTS = frozenset({Result.IMMEDIATE, Result.MADE_SAFE, Result.MINOR})
_LONGEST = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class MakeWorks:
    """Make a piece of work of a fault that was found; the same once more changes nothing.

    Args:
        inspection: what was found.
        id: of the new work.
        called: what the title calls the thing.
    """

    inspection: ItemId
    id: ItemId = field(default_factory=new_id)
    called: str = "a thing"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Make a work of what was found at {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the work as it comes, or nothing where there is one after that inspection.

        Raises:
            EditRefused: the inspection is not on the plan, or is none, or found no fault.
        """
        found = _fault(plan, self.inspection)
        if any(w.details.inspection == found.id for w in plan.of(works.KIND)):
            return ()
        return (Change(None, Item(id=self.id, kind=works.KIND, details=_work(plan, found))),)


def names_fault(told: InspectionDetails) -> bool:
    """Return whether an inspection found a fault of a thing."""
    return told.result in _FAULTS and told.target is not None


def _fault(plan: Plan, wanted: ItemId) -> Item[InspectionDetails]:
    (found,) = chosen(plan, (wanted,))
    if found.kind != inspection.KIND:
        raise EditRefused(
            f"{found.called()} is no inspection. Nothing was changed. Choose an inspection that"
            " found a fault."
        )
    if not names_fault(found.details):
        raise EditRefused(
            "That inspection names no fault of a thing. Nothing was changed. Add a work by hand"
            " where one is wanted."
        )
    return found


def _work(plan: Plan, found: Item[InspectionDetails]) -> WorksDetails:
    told = found.details
    return WorksDetails(
        what=shorten(told.action, _LONGEST, placeholder=" …") or _unsaid(plan, told),
        target=told.target,
        priority=Priority.NOW if told.result is Result.IMMEDIATE else None,
        inspection=found.id,
        item_no=told.item_no,
    )


def _unsaid(plan: Plan, told: InspectionDetails) -> str:
    thing: Item[Any] = plan.items[told.target or ItemId("")]
    return f"Mend {thing.called()}"
