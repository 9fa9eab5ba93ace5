"""Narrow gaps between pieces of ground that were meant to meet."""

from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.checking.pieces import BROAD_M, FINE_M, LEAST_M2, between, families
from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named, within
from plan_editor.edits.mending import Mend
from plan_editor.edits.places import Reshape
from plan_editor.geometry.depth import mean_width
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

NAME = "gaps"

TOUCHING_M = 0.005


LONGER = 4.0
"""A gap is at least so many times longer than broad: pieces that meet in a corner at an angle
leave a wedge there, which is none."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find gaps between pieces of grass, and between sections of the ground."""
    for pieces in families(plan):
        shapes = np.array([p.shape for p in pieces], dtype=object)
        # what one piece alone would close is a notch in its own outline, and meant
        filled = shapely.union_all([*_closed(shapes), between(plan)])
        holes = shapely.difference(_closed(shapely.union_all(shapes)), filled)
        for hole in shapely.get_parts(holes).tolist():
            if isinstance(hole, Polygon) and _counts(hole):
                yield from _beside(hole, pieces, shapes)


def _closed(shapes: Any) -> Any:
    """Return areas with everything narrower than a gap filled in."""
    wider = shapely.buffer(shapes, BROAD_M / 2, join_style="mitre")
    return shapely.buffer(wider, -BROAD_M / 2, join_style="mitre")


def _counts(hole: Polygon) -> bool:
    broad = mean_width(hole)
    narrow = FINE_M < broad <= BROAD_M
    return bool(narrow and hole.area > max(LEAST_M2, LONGER * broad * broad))


def _beside(hole: Polygon, pieces: tuple[Item[Any], ...], shapes: Any) -> Iterator[Finding]:
    near = np.flatnonzero(shapely.dwithin(shapes, hole, TOUCHING_M))
    if len(near) < 2:
        return
    edge = shapely.buffer(hole, TOUCHING_M)
    shared = shapely.length(shapely.intersection(shapely.boundary(shapes[near]), edge))
    beside = [pieces[n] for n in near[np.argsort(-shared, kind="stable")].tolist()]
    yield Finding(
        rule=NAME,
        severity=Severity.DOUBT,
        items=tuple(i.id for i in beside),
        place=inside(hole),
        text=(
            f"{named(beside)} leave a gap of {hole.area:.2f} m² between them,"
            f" {mean_width(hole):.2f} m broad on average."
        ),
        mend=_filled(beside[0], hole),
        shape=hole,
    )


def _filled(item: Item[Any], hole: BaseGeometry) -> Edit:
    """Return how a gap is given to the piece that runs along most of it."""
    # a hair more than the gap, so that the two become one piece
    whole = item.lies.union(hole.buffer(0.001, join_style="mitre"))
    title = f"Close the gap beside {within(item)}"
    return Mend(title=title, edits=(Reshape(id=item.id, place=whole),))


RULE = Rule(
    name=NAME,
    title="Gaps between pieces of ground",
    help=(
        "Strips between two pieces of grass, or two sections of the ground, no broader than"
        " 0.5 m on average, that no path, wall, hedge or building fills. The gap is closed by"
        " giving it to the piece that runs along most of it."
    ),
    source="0.5 m: the cut of a pedestrian mower, 0.46 to 0.53 m; a strip narrower is none.",
    find=find,
    order=60,
)
