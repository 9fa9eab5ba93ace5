"""Pieces of grass or sections over one another; ground both consecrated and not."""

from collections.abc import Iterator
from itertools import combinations
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.checking.pieces import BROAD_M, FINE_M, LEAST_M2, families
from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named, within
from plan_editor.edits.mending import Mend
from plan_editor.edits.places import Reshape
from plan_editor.geometry.depth import mean_width
from plan_editor.geometry.tolerance import stored
from plan_editor.kinds import grass, zone
from plan_editor.kinds.zone import ZoneSort
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

NAME = "overlapping_pieces"

NESTED = 0.98
"""A piece of which so much lies in another is a part of it."""

CONTRARY = (ZoneSort.CONSECRATED, ZoneSort.UNCONSECRATED)


def find(plan: Plan) -> Iterator[Finding]:
    """Find ground that belongs to two pieces of grass, two sections, or to contrary zones."""
    for pieces in families(plan):
        shapes = np.array([p.shape for p in pieces], dtype=object)
        first, second = shapely.STRtree(shapes).query(shapes, "intersects")
        for n, m in zip(first.tolist(), second.tolist(), strict=True):
            if n < m:
                yield from _over(pieces[n], pieces[m])
    contrary = [z for z in plan.of(zone.KIND) if z.details.sort in CONTRARY]
    for one, other in combinations(contrary, 2):
        if one.details.sort is not other.details.sort:
            yield from _over(one, other)


def _over(one: Item[Any], other: Item[Any]) -> Iterator[Finding]:
    shared = one.lies.intersection(other.lies)
    if shared.area <= LEAST_M2 or mean_width(shared) <= FINE_M:
        return
    least, most = one.lies.area, other.lies.area
    smaller, larger = (one, other) if least <= most else (other, one)
    nested = shared.area >= NESTED * min(least, most)
    if nested and smaller.kind not in (grass.KIND, zone.KIND):
        return  # a section within a section is a part of it, and counted so
    how = "lies over" if nested else "share"
    things = (
        f"{named((smaller,))} {how} {within(larger)},"
        if nested
        else f"{named((larger, smaller))} {how}"
    )
    yield Finding(
        rule=NAME,
        severity=Severity.FAULT,
        items=(larger.id, smaller.id),
        place=inside(shared),
        text=f"{things} {shared.area:.2f} m², {mean_width(shared):.2f} m broad on average.",
        mend=_cut(larger, smaller, shared, nested=nested),
        shape=shared,
    )


def _cut(
    larger: Item[Any], smaller: Item[Any], shared: BaseGeometry, *, nested: bool
) -> Edit | None:
    """Return how the larger gives way, where it is plain that it should."""
    plain = nested or mean_width(shared) <= BROAD_M
    if larger.kind == zone.KIND or not plain:
        return None  # where consecrated ground ends, only the sentence of consecration says
    try:
        place = stored(larger.lies.difference(smaller.lies))
    except ValueError:
        return None
    title = f"Cut {within(smaller)} out of {within(larger)}"
    return Mend(title=title, edits=(Reshape(id=larger.id, place=place),))


RULE = Rule(
    name=NAME,
    title="Pieces of ground over one another",
    help=(
        "Ground that belongs to two pieces of grass, to two sections of which neither is a part"
        " of the other, or that is called consecrated and unconsecrated. Strips no broader than"
        " 2 cm, and less than 0.05 m², are passed over."
    ),
    source="2 cm and 0.05 m²: our own figures, finer than anything measured by tape.",
    find=find,
    order=70,
)
