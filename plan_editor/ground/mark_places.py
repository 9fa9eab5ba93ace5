"""Places where a permanent mark can be: corners of masonry, ends of walls, iron posts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.kinds import building, fence, gate, wall
from plan_editor.plan.item import Item, Status
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

CORNER_DEG = 20.0
"""An outline that turns by less makes no corner that one could find again."""

BESIDE_M = 1.0
"""What stands so far outside the boundary may bear a mark."""

OFF_MIDDLE = 0.35
"""Nearer to the middle than this share of half the size, a place lies on neither side."""

Places = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkPlace:
    """A place that could bear a mark.

    Args:
        east, north: metres about the plan's origin.
        words: where that is, for whoever looks for it: ``NE corner of building St Elfric``.
    """

    east: float
    north: float
    words: str


def mark_places(plan: Plan, ground: BaseGeometry) -> tuple[MarkPlace, ...]:
    """Return the places on or beside the ground where a permanent mark can be."""
    found = [
        *(place for item in _there(plan, building.KIND) for place in _corners(item, ground)),
        *(place for item in _there(plan, wall.KIND) for place in _of_wall(item, ground)),
        *(place for item in _with_posts(plan) for place in _posts(item, ground)),
    ]
    room = shapely.buffer(ground, BESIDE_M)
    points = shapely.points(np.array([(p.east, p.north) for p in found]).reshape(-1, 2))
    near = np.flatnonzero(shapely.covers(room, points))
    return tuple(found[n] for n in near)


def _there(plan: Plan, kind: Any) -> Iterator[Item[Any]]:
    return (i for i in plan.of(kind) if i.status is Status.EXISTING and i.shape is not None)


def _corners(item: Item[Any], ground: BaseGeometry) -> Iterator[MarkPlace]:
    for part in shapely.get_parts(item.shape):
        ring = shapely.get_coordinates(shapely.get_exterior_ring(part))
        for east, north in _turning(ring, closed=True):
            yield _place(f"{_initials(item, east, north)} corner", item, ground, east, north)


def _of_wall(item: Item[Any], ground: BaseGeometry) -> Iterator[MarkPlace]:
    if item.form is not Form.LINE:
        yield from _corners(item, ground)
        return
    line = shapely.get_coordinates(item.shape)
    closed = bool((line[0] == line[-1]).all())
    for east, north in () if closed else (line[0], line[-1]):
        yield _place(f"{_initials(item, east, north)} end", item, ground, east, north)
    for east, north in _turning(line, closed=closed):
        yield _place("corner", item, ground, east, north)


def _with_posts(plan: Plan) -> Iterator[Item[Any]]:
    railing = fence.FenceSort.RAILING
    yield from (i for i in _there(plan, gate.KIND) if i.form is Form.LINE)
    yield from (i for i in _there(plan, fence.KIND) if i.details.sort is railing)


def _posts(item: Item[Any], ground: BaseGeometry) -> Iterator[MarkPlace]:
    line = shapely.get_coordinates(item.shape)
    for east, north in (line[0], line[-1]):
        yield _place(f"{_initials(item, east, north)} post", item, ground, east, north)


def _place(
    what: str, item: Item[Any], ground: BaseGeometry, east: float, north: float
) -> MarkPlace:
    words = f"{what} of {_called(item, ground)}".strip()
    return MarkPlace(east=float(east), north=float(north), words=words)


def _turning(line: Places, *, closed: bool) -> Places:
    """Return the corners of a line at which it turns enough; no ends of an open one."""
    places = np.vstack([line, line[1:2]]) if closed else line
    way = np.diff(places, axis=0)
    heading = np.arctan2(way[:, 0], way[:, 1])
    turn = np.abs((np.diff(heading) + np.pi) % (2.0 * np.pi) - np.pi)
    found: Places = places[1:-1][turn >= np.radians(CORNER_DEG)]
    return found


def _called(item: Item[Any], ground: BaseGeometry) -> str:
    title = item.kind.title
    if name := item.called().removeprefix(title).strip():
        # a gate may be called East gate
        return f"the {name}" if title.lower() in name.lower() else f"{title.lower()} {name}"
    east, north = shapely.get_coordinates(shapely.centroid(item.shape))[0]
    up, right = _off_middle(ground.bounds, east, north, alike=False)
    side = "-".join(filter(None, (_word(up, "north", "south"), _word(right, "east", "west"))))
    return f"the {title.lower()} {f'on the {side} side' if side else 'in the middle'}"


def _initials(item: Item[Any], east: float, north: float) -> str:
    """Return which corner or end it is: ``NE``; empty in the middle."""
    box = shapely.bounds(item.shape).tolist()
    up, right = _off_middle(box, east, north, alike=item.form is Form.LINE)
    return _word(up, "N", "S") + _word(right, "E", "W")


def _off_middle(
    box: Sequence[float], east: float, north: float, *, alike: bool
) -> tuple[float, float]:
    """Return how far north and east of the middle of a box, as shares of half its size."""
    e0, n0, e1, n1 = box
    wide, high = (max(e1 - e0, n1 - n0),) * 2 if alike else (e1 - e0, n1 - n0)
    return (2 * north - n0 - n1) / high, (2 * east - e0 - e1) / wide


def _word(off: float, more: str, less: str) -> str:
    if abs(off) < OFF_MIDDLE:
        return ""
    return more if off > 0 else less
