"""Small churchyards with marks, for the tests of where pegs can be set out."""

from collections.abc import Iterable
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.kinds import boundary, building, mark
from plan_editor.plan.item import Basis, Item, Method, new_item
from plan_editor.plan.plan import Plan, plan_of

Place = tuple[float, float]


def mark_at(east: float, north: float, *, sd_m: float | None = 0.02, **details: Any) -> Item:
    """Return a mark."""
    return new_item(
        mark.KIND,
        shapely.Point(east, north),
        details=mark.MarkDetails(**details),
        basis=Basis(method=Method.INSTRUMENT, sd_m=sd_m),
    )


def yard(
    *marks: Place,
    ground: BaseGeometry | None = None,
    church: BaseGeometry | None = None,
    more: Iterable[Item] = (),
) -> Plan:
    """Return a churchyard of 40 by 30 m, or another, with marks of ± 20 mm."""
    items = [new_item(boundary.KIND, ground or shapely.box(0, 0, 40, 30))]
    if church is not None:
        items.append(
            new_item(building.KIND, church, details=building.BuildingDetails(name="St Elfric"))
        )
    return plan_of([*items, *(mark_at(*m) for m in marks), *more])
