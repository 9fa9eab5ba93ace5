"""What is chosen that a tool can work on, or what lies under the pointer where nothing is."""

from collections.abc import Callable, Iterable
from typing import Any

import shapely

from plan_editor.drafting.tool import Chosen, Pointer
from plan_editor.edits.shapes import ground_of
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

Fits = Callable[[Item[Any]], bool]


def movable(item: Item[Any]) -> bool:
    """Return whether an item has a place that is changed by hand."""
    return item.shape is not None and not item.kind.pinned


def flat(item: Item[Any]) -> bool:
    """Return whether an item is a line or an area."""
    return movable(item) and item.form is not Form.POINT


def areal(item: Item[Any]) -> bool:
    """Return whether an item is an area."""
    return flat(item) and item.form is not Form.LINE


def fitting(ids: Iterable[ItemId], plan: Plan, fits: Fits) -> tuple[ItemId, ...]:
    """Return those of some items that are on the plan and fit."""
    return tuple(i for i in ids if i in plan.items and fits(plan.items[i]))


def pointed_at(pointer: Pointer, plan: Plan, fits: Fits) -> tuple[ItemId, ...]:
    """Return the smallest that fits of what lies under the pointer, or none.

    Who points at a path in a meadow within a boundary means the path.
    """
    found = fitting(pointer.hits, plan, fits)
    return tuple(sorted(found, key=lambda i: _size(plan.items[i])))[:1]


def picked(pointer: Pointer, plan: Plan, fits: Fits) -> Chosen:
    """Return what a press chooses where nothing that fits is chosen."""
    return Chosen(ids=pointed_at(pointer, plan, fits))


def middle_of(ids: Iterable[ItemId], plan: Plan) -> tuple[float, float] | None:
    """Return the mean of the middles of some items; None where none has a place.

    It turns along when they are turned about it; the middle of the box round them would not.
    """
    items = (plan.items[i] for i in ids if i in plan.items)
    middles = [_middle(i) for i in items if i.shape is not None]
    if not middles:
        return None
    return (
        sum(e for e, _ in middles) / len(middles),
        sum(n for _, n in middles) / len(middles),
    )


def _middle(item: Item[Any]) -> tuple[float, float]:
    if item.rectangle is not None:
        return item.rectangle.centre
    (middle,) = shapely.get_coordinates(shapely.centroid(item.shape)).tolist()
    return middle[0], middle[1]


def _size(item: Item[Any]) -> float:
    ground = ground_of(item)
    return 0.0 if ground is None else ground.area
