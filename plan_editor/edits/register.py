"""Entries of the register: what was found at a stone, a tree, a wall; what was made safe."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import cordon, inspection
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan

_INSPECTED = next(d for d in inspection.KIND.entries() if d.name == "target").about.refers_to


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordInspection:
    """Record what was found at a thing; whether it is safe follows from the latest.

    Args:
        target: the stone, tree, wall or whatever was looked at.
        details: what was found; at which thing is filled in.
        id: of the new inspection.
        called: what the title calls the thing.
    """

    target: ItemId
    details: InspectionDetails
    id: ItemId = field(default_factory=new_id)
    called: str = "a thing"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Record an inspection of {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the inspection as it comes.

        Raises:
            EditRefused: the thing is not on the plan, or is nothing that is inspected.
        """
        thing = _inspected(plan, self.target)
        return (Change(None, _inspection(self.id, thing, self.details)),)


@dataclass(frozen=True, slots=True, kw_only=True)
class MakeSafe:
    """Record that something unsafe was made safe, and take its cordon away.

    Args:
        target: what was unsafe.
        details: the day, a whole one; who made it safe; what was done: laid flat, propped,
            felled. Of what, and that it was made safe, is filled in.
        cordon: the barrier that was taken away; None where none was, or it stays.
        id: of the new inspection.
        called: what the title calls the thing.
    """

    target: ItemId
    details: InspectionDetails
    cordon: ItemId | None = None
    id: ItemId = field(default_factory=new_id)
    called: str = "a thing"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Record that {self.called} was made safe"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the inspection as it comes, and the cordon as it goes.

        Raises:
            EditRefused: the thing is not on the plan, the day or the person is missing, no
                inspection up to that day failed, or the cordon is none.
        """
        thing = _inspected(plan, self.target)
        self._check(plan, thing)
        told = replace(self.details, result=Result.MADE_SAFE)
        gone = () if self.cordon is None else (Change(_barrier(plan, self.cordon), None),)
        return (Change(None, _inspection(self.id, thing, told)), *gone)

    def _check(self, plan: Plan, thing: Item[Any]) -> None:
        told = self.details
        if len(told.date) < len("2026-01-01") or not told.inspector.strip():
            raise EditRefused(
                "Nothing was changed. Give the whole date on which it was made safe, and by"
                " whom."
            )
        if not any(d <= told.date for d in _failed_on(plan, thing.id)):
            raise EditRefused(
                f"{thing.called()} was not found unsafe by {told.date}. Nothing was changed."
                " Look at the date, or record an inspection instead."
            )


def _failed_on(plan: Plan, target: ItemId) -> Iterator[str]:
    """Return on which days a thing was found unsafe, as far as dates were recorded."""
    for found in plan.of(inspection.KIND):
        told = found.details
        if told.target == target and told.result is Result.IMMEDIATE:
            yield told.date


def _inspected(plan: Plan, target: ItemId) -> Item[Any]:
    (thing,) = chosen(plan, (target,))
    if thing.kind.name not in _INSPECTED:
        raise EditRefused(
            f"{thing.called()} is nothing that is inspected. Nothing was changed. Choose a"
            " stone, a tree, a wall or the like."
        )
    return thing


def _inspection(new: ItemId, thing: Item[Any], told: InspectionDetails) -> Item[Any]:
    return Item(id=new, kind=inspection.KIND, details=replace(told, target=thing.id))


def _barrier(plan: Plan, wanted: ItemId) -> Item[Any]:
    (barrier,) = chosen(plan, (wanted,))
    if barrier.kind != cordon.KIND:
        raise EditRefused(f"{barrier.called()} is no cordon. Nothing was changed.")
    return barrier
