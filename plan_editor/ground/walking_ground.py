"""Where one can walk: what stands in the way, and the corners one goes round.

What blocks walking is said by each kind. A gate is an opening in a wall, and so is a path that
is drawn through one; what is closed off, by a cordon or because a stone is unsafe, has none.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.kinds import cordon, gate, path
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Blocks
from plan_editor.plan.plan import Plan

Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]

ELBOW_M = 0.3
"""One goes round a corner at this distance; our own figure, half the breadth of a person."""

_OPENING_M = 1.0
"""A gate of unknown width is as wide as a hand gate, and the wall ends a little beside it."""

_FLAT_M = 0.15


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WalkingGround:
    """What one walks round.

    Args:
        blocked: where nobody can walk, one shape.
        around: the same widened by ``ELBOW_M``: one walks along its outline.
        corners: (n, 2) corners of that outline, in metres.
    """

    blocked: BaseGeometry
    around: BaseGeometry
    corners: Numbers

    def sees(self, start: Numbers, end: Numbers) -> Flags:
        """Return for each pair of places, both (n, 2), whether one can walk straight across."""
        if self.blocked.is_empty:
            return np.ones(len(start), dtype=bool)
        if not len(start):
            return np.zeros(0, dtype=bool)
        lines = shapely.linestrings(np.stack([start, end], axis=1))
        return np.asarray(~shapely.intersects(self.blocked, lines))

    def beside(self, places: Numbers) -> Numbers:
        """Return places, those within what blocks moved to where one can stand next to it."""
        points = np.asarray(shapely.points(places))
        inside = shapely.intersects(self.around, points)
        if not inside.any():
            return places
        lines = shapely.shortest_line(points[inside], shapely.boundary(self.around))
        moved = places.copy()
        moved[inside] = shapely.get_coordinates(shapely.get_point(lines, -1))
        return moved


def walking_ground(plan: Plan, closed: Iterable[BaseGeometry] = ()) -> WalkingGround:
    """Return what one walks round on a plan.

    Args:
        plan: the plan.
        closed: ground that is kept off beside the cordons, such as zones round unsafe stones.
    """
    solid = shapely.difference(_joined(_solid(plan)), _joined(_openings(plan)))
    shut = [i.lies for i in plan.of(cordon.KIND)]
    blocked = shapely.union_all([solid, _joined([*shut, *closed])])
    around = shapely.buffer(blocked, ELBOW_M, join_style="mitre", mitre_limit=2.0)
    outline = shapely.simplify(around, _FLAT_M)
    corners = np.unique(shapely.get_coordinates(outline).reshape(-1, 2), axis=0)
    shapely.prepare(blocked)
    shapely.prepare(around)
    free = ~shapely.intersects(blocked, shapely.points(corners))
    return WalkingGround(blocked=blocked, around=around, corners=corners[free])


def _solid(plan: Plan) -> list[BaseGeometry]:
    return [
        _wide(i)
        for i in plan.items.values()
        if Blocks.WALKING in i.kind.blocks and i.kind.name != cordon.KIND.name and i.box
    ]


def _openings(plan: Plan) -> list[BaseGeometry]:
    gates = [_gap(i) for i in plan.of(gate.KIND)]
    return gates + [_wide(i) for i in plan.of(path.KIND)]


def _gap(item: Item[gate.GateDetails]) -> BaseGeometry:
    wide = item.details.clear_width_m or _OPENING_M
    reach = 0.5 if item.lies.length else wide / 2
    return shapely.buffer(item.lies, reach)


def _wide(item: Item[Any]) -> BaseGeometry:
    """Return how far a thing reaches; a line has at least some thickness."""
    if item.lies.area:
        return item.lies
    half = item.kind.width_m(item.details) / 2
    if not item.lies.length:
        return shapely.buffer(item.lies, max(half, 0.5))
    return shapely.buffer(item.lies, max(half, 0.05), cap_style="flat")


def _joined(shapes: Sequence[BaseGeometry]) -> BaseGeometry:
    return shapely.union_all(np.array(shapes, dtype=object))
