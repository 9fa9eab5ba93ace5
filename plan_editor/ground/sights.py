"""Across what ground a tape can be stretched from a mark, and what stands in its way."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.kinds import building, hedge, wall
from plan_editor.plan.item import Item, Status
from plan_editor.plan.plan import Plan

OVER_M = 1.5
"""A tape is held level over a wall or hedge that is no higher; our own figure: the breast."""

CUT_M = 0.1
"""So much may a tape cut off the corner of what is drawn: no outline is truer."""

OFF_M = 0.05
"""So far from the mark a tape begins: what the mark itself stands on does not stop it."""

MOST_LINES = 250_000
"""So many lines of sight are looked along at a time, to spare memory."""

Numbers = NDArray[np.float64]
Yes = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacles:
    """What a tape cannot pass.

    Args:
        shapes: outlines a little smaller than drawn, walls and hedges along their middle.
        untold: how many walls and hedges have no height recorded and are taken as too high.
    """

    shapes: tuple[BaseGeometry, ...]
    untold: int


def obstacles(plan: Plan) -> Obstacles:
    """Return what a tape cannot pass: buildings, and walls and hedges of over ``OVER_M``.

    Fences, trees and stones are not looked at.
    """
    high = [i for i in _standing(plan, wall.KIND, hedge.KIND) if _is_high(i)]
    solid = [*_standing(plan, building.KIND), *high]
    shapes = (_smaller(i.shape) for i in solid if i.shape is not None)
    return Obstacles(
        shapes=tuple(s for s in shapes if not s.is_empty),
        untold=sum(i.details.height_m is None for i in high),
    )


def seen(stations: Numbers, places: Numbers, tape_m: float, past: Obstacles) -> Yes:
    """Return where a tape reaches in a straight line.

    Args:
        stations: k by 2, east and north of where it begins, in metres.
        places: n by 2, the same.
        tape_m: its length.
        past: what it cannot pass.

    Returns:
        n by k.
    """
    rows = max(1, MOST_LINES // max(len(stations), 1))
    blocks = [
        _seen(stations, places[n : n + rows], tape_m, past) for n in range(0, len(places), rows)
    ]
    return np.concatenate([np.zeros((0, len(stations)), dtype=np.bool_), *blocks])


def _seen(stations: Numbers, places: Numbers, tape_m: float, past: Obstacles) -> Yes:
    way = places[:, None, :] - stations[None, :, :]
    length = np.hypot(way[..., 0], way[..., 1])
    found: Yes = length <= tape_m
    rows, columns = np.nonzero(found & (length > OFF_M))
    start = stations[columns] + way[rows, columns] * (OFF_M / length[rows, columns][:, None])
    ends = np.stack([start, places[rows]], axis=1)
    lines = np.asarray(shapely.linestrings(ends), dtype=object)
    stopped, _ = shapely.STRtree(past.shapes).query(lines, predicate="intersects")
    found[rows[stopped], columns[stopped]] = False
    return found


def _standing(plan: Plan, *kinds: Any) -> Iterator[Item[Any]]:
    for kind in kinds:
        yield from (i for i in plan.of(kind) if i.status is not Status.PROPOSED)


def _is_high(item: Item[Any]) -> bool:
    height: float | None = item.details.height_m
    return height is None or height > OVER_M


def _smaller(shape: BaseGeometry) -> BaseGeometry:
    if shape.geom_type == "LineString":
        return shape
    return shapely.buffer(shape, -CUT_M, join_style="mitre")
