"""Graves and memorials that lie outside the boundary, or across it."""

from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.checking.doubt import SURE, apart
from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named
from plan_editor.kinds import boundary, memorial
from plan_editor.plan.item import Item
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan

NAME = "outside_boundary"


def find(plan: Plan) -> Iterator[Finding]:
    """Find what none of the boundaries holds; nothing where no boundary is an area."""
    drawn = (i for i in plan.of(boundary.KIND) if i.shape is not None)
    grounds = [i for i in drawn if i.shape is not None and i.shape.area > 0.0]
    if not grounds:
        return
    whole = shapely.union_all([g.shape for g in grounds])
    shapely.prepare(whole)
    items = [
        i for k in (*burial_kinds(), memorial.KIND) for i in plan.of(k) if i.shape is not None
    ]
    held = shapely.covers(whole, np.array([i.shape for i in items], dtype=object))
    for n in np.flatnonzero(~held).tolist():
        yield from _outside(plan, items[n], grounds, whole)


def _outside(
    plan: Plan, item: Item[Any], grounds: list[Item[Any]], whole: BaseGeometry
) -> Iterator[Finding]:
    nearest = min(grounds, key=lambda g: float(shapely.distance(g.shape, item.lies)))
    corners = shapely.points(shapely.get_coordinates(item.lies))
    far = float(np.max(shapely.distance(whole, corners)))
    allowed = SURE * apart(plan, item, nearest)
    if far <= allowed:
        return
    away = float(shapely.distance(whole, item.lies))
    where = (
        f"lies outside the boundary, {away:.2f} m from it"
        if away > 0.0
        else f"lies across the boundary, up to {far:.2f} m outside"
    )
    yield Finding(
        rule=NAME,
        severity=Severity.FAULT if away > allowed else Severity.DOUBT,
        items=(item.id, nearest.id),
        place=inside(item.lies),
        text=f"{named((item,))} {where}; the doubt in both places explains {allowed:.2f} m.",
        shape=item.lies,
    )


RULE = Rule(
    name=NAME,
    title="Outside the boundary",
    help=(
        "Graves, vaults, ashes plots and memorials that none of the boundaries holds, by more"
        " than twice the standard deviation of the one place to the other. Without a boundary"
        " that is an area nothing is found."
    ),
    source="Twice the standard deviation, 95 in 100: JCGM 100:2008, 6.2.",
    find=find,
    order=20,
)
