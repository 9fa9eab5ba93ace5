"""What the plan of the ground tells."""

from dataclasses import dataclass
from typing import Any

from plan_editor.drawing.backdrop import Backdrop
from plan_editor.drawing.compose import Group, grouped
from plan_editor.drawing.legend import Entry, entries, protection_entries
from plan_editor.drawing.sources import sources
from plan_editor.drawing.zones import stone_entry
from plan_editor.kinds import memorial
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked
from plan_editor.printing.usual import (
    acknowledgements,
    shown,
)
from plan_editor.records.safety import Standing, standings


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the plan tells.

    Args:
        plan: the plan itself.
        items: everything drawn.
        groups: the same, by what they look like.
        unsafe: standing of each stone that is unsafe.
        backdrops: base plans under it.
        key: its lines.
        known: how places are known, and what must be printed with base plans.
        by_grave: stones that are known by the number of their grave.
    """

    plan: Plan
    items: tuple[Item[Any], ...]
    groups: tuple[Group, ...]
    unsafe: tuple[Standing, ...]
    backdrops: tuple[Backdrop, ...]
    key: tuple[Entry, ...]
    known: tuple[str, ...]
    by_grave: frozenset[ItemId]


def told_by(plan: Plan, asked: Asked, backdrops: tuple[Backdrop, ...]) -> Told:
    """Return what a plan tells on the day asked for."""
    items = shown(plan)
    groups = grouped(items)
    unsafe = tuple(s for s in standings(plan, on=asked.date) if s.unsafe)
    ringed_stone = (stone_entry(),) if unsafe else ()
    return Told(
        plan=plan,
        items=items,
        groups=groups,
        unsafe=unsafe,
        backdrops=backdrops,
        key=(*ringed_stone, *entries(groups), *protection_entries(groups)),
        known=(*sources(items), *acknowledgements(backdrops)),
        by_grave=_known_by_grave(plan),
    )


def _known_by_grave(plan: Plan) -> frozenset[ItemId]:
    """Return the stones that stand on a numbered grave."""
    return frozenset(
        stone.id
        for stone in plan.of(memorial.KIND)
        if (on := stone.details.grave) and on in plan.items and plan.items[on].number
    )
