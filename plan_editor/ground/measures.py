"""Areas and lengths of what is on the plan, kind by kind. Grid metres, on the flat."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind, kinds
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """How much there is of a kind.

    Args:
        kind: the kind.
        count: how many items.
        area_m2: area of those that have one, holes left out; a line with a width has its length
            times its width.
        length_m: length of those that are lines.
    """

    kind: Kind
    count: int
    area_m2: float
    length_m: float


def measures(plan: Plan) -> tuple[Measure, ...]:
    """Return a measure of each kind that there is, in the order in which they are drawn."""
    return tuple(measure(kind, plan.of(kind)) for kind in kinds() if plan.count(kind))


def measure(kind: Kind, items: Iterable[Item[Any]]) -> Measure:
    """Return a measure of some items of one kind."""
    items = tuple(items)
    shapes = np.array([i.shape for i in items if i.shape is not None], dtype=object)
    lines = [i for i in items if i.form is Form.LINE]
    lengths = shapely.length(np.array([i.shape for i in lines], dtype=object))
    widths = np.array([kind.width_m(i.details) for i in lines])
    return Measure(
        kind=kind,
        count=len(items),
        area_m2=float(np.sum(shapely.area(shapes)) + np.sum(lengths * widths)),
        length_m=float(np.sum(lengths)),
    )


def extent(plan: Plan) -> tuple[float, float, float, float] | None:
    """Return least east and north, greatest east and north of all shapes; None without any."""
    boxes = [box for item in plan.items.values() if (box := item.box) is not None]
    if not boxes:
        return None
    array = np.array(boxes)
    low, high = array[:, :2].min(axis=0), array[:, 2:].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])
