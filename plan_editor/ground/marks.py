"""The marks of a plan, and what was measured from them."""

from collections.abc import Iterator

from plan_editor.kinds import mark, observation
from plan_editor.kinds.mark import MarkDetails
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId, Status
from plan_editor.plan.plan import Plan


def marks(plan: Plan) -> Iterator[Item[MarkDetails]]:
    """Return every mark, in the order in which they came."""
    return plan.of(mark.KIND)


def standing_marks(plan: Plan) -> tuple[Item[MarkDetails], ...]:
    """Return the marks that are there and have a place."""
    there = (i for i in marks(plan) if i.status is Status.EXISTING)
    return tuple(i for i in there if i.shape is not None)


def next_number(plan: Plan) -> str:
    """Return the first number that no mark bears: M15 after M14."""
    taken = {spoken(i.number) for i in marks(plan)}
    return next(n for k in range(1, len(taken) + 2) if spoken(n := f"M{k}") not in taken)


def measured_from(plan: Plan, item: ItemId) -> int:
    """Return how many lines of field books were measured from a mark or to it."""
    return sum(
        item in (o.details.from_mark, o.details.to_mark) for o in plan.of(observation.KIND)
    )
