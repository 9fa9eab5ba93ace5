"""Several churchyards on one plan: what they are called, and a plan of one of them alone."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import numpy as np
import shapely

from plan_editor.ground.sections import belonging
from plan_editor.kinds import boundary
from plan_editor.plan.item import BASE_PLAN, Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan, plan_of


def named_churchyards(plan: Plan) -> tuple[tuple[str, ItemId], ...]:
    """Return the boundaries that are areas, each by a name that no other has."""
    found: dict[str, ItemId] = {}
    for number, item in enumerate(_grounds(plan), 1):
        name = item.details.name.strip() or f"Churchyard {number}"
        found[f"{name} ({number})" if name in found else name] = item.id
    return tuple(found.items())


def farthest_apart(plan: Plan) -> float:
    """Return how far two neighbours among the churchyards lie apart at most, in metres."""
    shapes = [i.shape for i in _grounds(plan)]
    if len(shapes) < 2:
        return 0.0
    gaps = [
        min(float(shapely.distance(one, o)) for o in shapes if o is not one) for one in shapes
    ]
    return max(gaps)


def only_churchyard(plan: Plan, item: ItemId, name: str) -> Plan:
    """Return a plan of one churchyard alone.

    What lies in none, such as a lane before the gate, goes with the nearest. What has no place
    stays where all that it refers to does; base plans stay.

    Args:
        plan: of them all.
        item: the boundary of the one.
        name: what it is called; the plan bears it behind its own.
    """
    grounds = _grounds(plan)
    placed = [i for i in plan.items.values() if i.shape is not None and not i.kind.pinned]
    nearest = _nearest(placed, grounds)
    kept = {i.id for i, n in zip(placed, nearest, strict=True) if grounds[n].id == item}
    kept |= {i.id for i in plan.items.values() if i.kind.name == BASE_PLAN}
    bare = [i for i in plan.items.values() if i.shape is None and i.id not in kept]
    for entry in _in_order(bare):
        if all(target in kept for _, target in _targets(entry)):
            kept.add(entry.id)
    items = (_without_others(i, kept) for i in plan.items.values() if i.id in kept)
    called = f"{plan.name}: {name}" if plan.name else name
    return plan_of(items, name=called, grid=plan.grid, revision=plan.revision)


def _grounds(plan: Plan) -> list[Item[boundary.BoundaryDetails]]:
    return [i for i in plan.of(boundary.KIND) if i.form is Form.AREA]


def _nearest(placed: list[Item[Any]], grounds: list[Item[Any]]) -> list[int]:
    """Return for each thing the place of the churchyard that holds it, or is nearest."""
    held = belonging(placed, grounds)
    out = np.flatnonzero(held < 0)
    if len(out):
        tree = shapely.STRtree(np.array([g.shape for g in grounds], dtype=object))
        held[out] = tree.nearest(np.array([placed[n].shape for n in out], dtype=object))
    found: list[int] = held.tolist()
    return found


def _in_order(bare: Iterable[Item[Any]]) -> list[Item[Any]]:
    """Return entries so that what refers to other entries comes after them, for most."""
    return sorted(bare, key=lambda i: len(i.kind.references()))


def _targets(item: Item[Any]) -> list[tuple[str, ItemId]]:
    told = ((d.name, getattr(item.details, d.name)) for d in item.kind.references())
    return [(name, target) for name, target in told if target]


def _without_others(item: Item[Any], kept: set[ItemId]) -> Item[Any]:
    """Return a thing that refers to nothing that is left out."""
    lost = {name: None for name, target in _targets(item) if target not in kept}
    return replace(item, details=replace(item.details, **lost)) if lost else item
