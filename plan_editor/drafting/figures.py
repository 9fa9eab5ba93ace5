"""Lengths, bearings and areas as they stand beside the pointer while something is drawn."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from shapely import Polygon

from plan_editor.geometry.bearings import as_degrees, bearing
from plan_editor.geometry.lengths import as_feet_and_inches, as_metres
from plan_editor.geometry.tolerance import SAME

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""


def length(metres: float) -> str:
    """Return a length both ways: ``2.74 m (9' 0")``."""
    return f"{as_metres(metres)} ({as_feet_and_inches(metres)})"


def figures_of_way(east: float, north: float) -> tuple[str, ...]:
    """Return the length and the bearing of a way so far east and north; none of no way."""
    metres = hypot(east, north)
    if metres <= SAME:
        return ()
    return length(metres), f"bearing {as_degrees(bearing(east, north))}"


def figures_of_line(corners: Sequence[Place]) -> tuple[str, ...]:
    """Return the figures of the last side of a line, and its whole length where it has more."""
    if len(corners) < 2:
        return ()
    (e0, n0), (e1, n1) = corners[-2:]
    last = figures_of_way(e1 - e0, n1 - n0)
    return (*last, f"in all {length(run(corners))}") if len(corners) > 2 else last


def figures_of_area(corners: Sequence[Place]) -> tuple[str, ...]:
    """Return the area within corners and the length round it, where they enclose one."""
    if len(corners) < 3:
        return ()
    ring = Polygon(corners)
    if not ring.is_valid:
        return ("the outline crosses itself",)
    return f"{ring.area:.1f} m²", f"round it {length(ring.length)}"


def run(corners: Sequence[Place]) -> float:
    """Return the length of a line in metres."""
    return sum(hypot(e1 - e0, n1 - n0) for (e0, n0), (e1, n1) in pairwise(corners))
