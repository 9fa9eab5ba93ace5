"""Boundaries drawn as lines that do not close, so that no ground lies within them."""

from collections.abc import Iterator
from math import hypot
from typing import Any

from shapely import LineString, Point, Polygon

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import named, within
from plan_editor.edits.mending import Mend
from plan_editor.edits.places import Reshape
from plan_editor.geometry.tolerance import stored
from plan_editor.kinds import boundary
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

NAME = "open_boundary"

NEAR_M = 2.0
"""Ends no farther apart than this nearly meet, and may be joined straight."""

NEAR_SHARE = 0.05
"""If that is no more than this share of the whole length."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find boundaries that are lines."""
    drawn = [i for i in plan.of(boundary.KIND) if isinstance(i.shape, LineString)]
    return (_finding(item, drawn) for item in drawn)


def _finding(item: Item[Any], drawn: list[Item[Any]]) -> Finding:
    line = LineString(item.lies.coords)
    start, end = line.coords[0], line.coords[-1]
    gap = hypot(end[0] - start[0], end[1] - start[1])
    near = gap <= min(NEAR_M, NEAR_SHARE * line.length)
    other = _carried_on(item, Point(end), drawn)
    if near:
        told = f"its ends are {gap:.2f} m apart" if gap > 0 else "it comes back to its start"
        mend = _closed(item, line)
    else:
        told, mend = f"its ends lie {gap:.1f} m apart", None
    if other is not None and not near:
        told += f"; it is carried on by {within(other)}, so join them and close the line"
    return Finding(
        rule=NAME,
        severity=Severity.DOUBT,
        items=(item.id,),
        place=(float(end[0]), float(end[1])),
        text=(
            f"{named((item,))} is drawn as a line and holds no ground: {told}. Free ground can"
            " be counted only inside an area."
        ),
        mend=mend,
        shape=LineString([start, end]) if gap > 0 else None,
    )


def _carried_on(item: Item[Any], end: Point, drawn: list[Item[Any]]) -> Item[Any] | None:
    for other in drawn:
        line = other.shape
        if other.id != item.id and isinstance(line, LineString):
            ends = (Point(line.coords[0]), Point(line.coords[-1]))
            if min(end.distance(e) for e in ends) <= NEAR_M:
                return other
    return None


def _closed(item: Item[Any], line: LineString) -> Edit | None:
    """Return how a line becomes the area within it, if it does not cross itself."""
    try:
        area = stored(Polygon(line.coords))
    except ValueError:
        return None
    title = f"Close {within(item)} to an area"
    return Mend(title=title, edits=(Reshape(id=item.id, place=area),))


RULE = Rule(
    name=NAME,
    title="Open boundary",
    help=(
        "Boundaries drawn as lines. Ends no more than 2 m apart, and no more than a twentieth"
        " of the length, can be joined straight."
    ),
    source="2 m and a twentieth: our own figures.",
    find=find,
    order=30,
)
