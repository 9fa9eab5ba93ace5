"""The church on the plan, and how far from its outer wall something stands."""

from typing import Any

from plan_editor.kinds import building
from plan_editor.kinds.building import BuildingDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

_CHURCHES = ("church", "chapel")


def churches(plan: Plan) -> tuple[Item[BuildingDetails], ...]:
    """Return the buildings used as a church, or those of which no use is told."""
    built = tuple(plan.of(building.KIND))
    used = tuple(b for b in built if any(w in _use(b) for w in _CHURCHES))
    return used or tuple(b for b in built if not _use(b))


def from_church(plan: Plan, thing: Item[Any]) -> float | None:
    """Return the distance from the nearest church's outer wall, in metres; None without one."""
    return min((float(b.lies.distance(thing.lies)) for b in churches(plan)), default=None)


def _use(built: Item[BuildingDetails]) -> str:
    return built.details.use.casefold()
