"""What has been drawn becomes a new item, or the reason why it cannot."""

from dataclasses import replace
from math import hypot
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.basis import traced_on
from plan_editor.drafting.figures import Place
from plan_editor.drafting.tool import Answer
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.item import new_item
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan


def added(
    plan: Plan,
    kind: Kind,
    place: BaseGeometry | Rectangle,
    *,
    after: Answer,
    otherwise: Answer,
) -> Answer:
    """Return the answer that adds something drawn, or says why it cannot lie like that.

    Args:
        plan: as it is.
        kind: what was drawn.
        place: where.
        after: what follows when it can be added.
        otherwise: what follows when it cannot.
    """
    untyped: Any = kind  # a kind found in a list does not tell the type of its details
    try:
        item = new_item(untyped, place)
    except ValueError as fault:
        return replace(otherwise, prompt=f"{_told(place, fault)}. Go back a corner, or cancel")
    drawn = replace(item, basis=traced_on(plan, item.shape)) if item.shape else item
    return replace(after, edit=Add((drawn,)))


def apart(one: Place, other: Place, by: float = SAME) -> bool:
    """Return whether two places are farther apart than so many metres."""
    return hypot(one[0] - other[0], one[1] - other[1]) > by


def _told(place: BaseGeometry | Rectangle, fault: ValueError) -> str:
    if isinstance(place, BaseGeometry) and not shapely.is_valid(place):
        return "The outline crosses itself"
    return f"It cannot lie like that: {fault}"
