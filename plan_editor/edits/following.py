"""Things that hang on measured points, and go with them when the points move."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import atan2, degrees
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

NEAR = 0.001
"""A corner so near to a point, in metres, hangs on it."""

Places = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Moved:
    """A point that moves: where it was and where it will be, east and north."""

    before: tuple[float, float]
    after: tuple[float, float]


def followed(
    plan: Plan, moves: tuple[Moved, ...], staying: frozenset[ItemId] = frozenset()
) -> Mapping[ItemId, Item[Any]]:
    """Return the items that points carry with them, as they lie afterwards.

    Every corner within a millimetre of where a point was goes to where it will be. A rectangle
    with one such corner is shifted; with two or more it is shifted and turned as fits them
    best, its sides kept. What follows from other things, base plans above all, stays.

    Args:
        plan: the plan. Cost: one pass over its corners.
        moves: the points.
        staying: items that do not follow, whatever hangs on them.

    Raises:
        EditRefused: an outline would cross itself.
    """
    items: list[tuple[Item[Any], BaseGeometry]] = [
        (i, i.shape)
        for i in plan.items.values()
        if i.shape is not None and not i.kind.pinned and i.id not in staying
    ]
    if not moves or not items:
        return {}
    corners, owner = shapely.get_coordinates([s for _, s in items], return_index=True)
    carried = _carried(corners, moves)
    found: dict[ItemId, Item[Any]] = {}
    for n in np.unique(owner[carried >= 0]).tolist():
        of_item = owner == n
        after = corners[of_item].copy()
        by = carried[of_item]
        after[by >= 0] = np.array([m.after for m in moves])[by[by >= 0]]
        item, shape = items[n]
        if item.rectangle is None:
            found[item.id] = _reshaped(item, shape, after)
        else:
            hangs = by >= 0
            there = _fitted(item.rectangle, corners[of_item][hangs], after[hangs])
            found[item.id] = item.on(there)
    return found


def _carried(corners: Places, moves: tuple[Moved, ...]) -> NDArray[np.int64]:
    """Return for each corner the point that it hangs on, or -1."""
    tree = shapely.STRtree(shapely.points([m.before for m in moves]))
    # the sum of two rounded coordinates may be off by a hair
    which, hit = tree.query(shapely.points(corners), predicate="dwithin", distance=NEAR + 1e-9)
    carried = np.full(len(corners), -1)
    # the point first named wins where two were at one place
    carried[which[::-1]] = hit[::-1]
    return carried


def _reshaped(item: Item[Any], shape: BaseGeometry, after: Places) -> Item[Any]:
    try:
        return item.at(shapely.set_coordinates(shape, after))
    except ValueError as fault:
        raise EditRefused(
            f"{item.called()} hangs on a point that would move, and would then cross itself or"
            " vanish. Nothing was changed. Move its corner off the point first."
        ) from fault


def _fitted(rectangle: Rectangle, before: Places, after: Places) -> Rectangle:
    """Return a rectangle shifted, and turned where it hangs on two corners or more."""
    # the outline closes where it began: each corner counts once
    before, first = np.unique(before, axis=0, return_index=True)
    after = after[first]
    middle, target = before.mean(axis=0), after.mean(axis=0)
    was, is_now = before - middle, after - target
    cross = float(np.sum(was[:, 1] * is_now[:, 0] - was[:, 0] * is_now[:, 1]))
    dot = float(np.sum(was * is_now))
    turn = degrees(atan2(cross, dot)) if len(before) > 1 else 0.0
    east, north = (target - middle).tolist()
    return rectangle.turned(turn, tuple(middle.tolist())).moved(east, north)
