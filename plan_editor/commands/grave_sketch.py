"""Where entries, stones and graves lie: outlined over the ground, and what to look at."""

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.sketch import Sketch, SketchLine, Tone
from plan_editor.geometry.nearby import Box
from plan_editor.plan.checks import references
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

MARGIN_M = 6.0
"""So much ground is shown round a grave, so that the rows about it are seen."""


def place_of(plan: Plan, item: ItemId) -> BaseGeometry | None:
    """Return where a thing lies, or the first thing that it refers to; None for nowhere."""
    there = plan.items.get(item)
    if there is None or there.shape is not None:
        return None if there is None else there.shape
    shapes = (plan.items[target].shape for _, _, target in references(there))
    return next((s for s in shapes if s is not None), None)


def graves_sketch(plan: Plan, *items: ItemId) -> Sketch:
    """Return a sketch that outlines where these lie."""
    there = [s for i in items if (s := place_of(plan, i)) is not None]
    outlines = (shapely.get_coordinates(shapely.boundary(s)) for s in there)
    return Sketch(lines=tuple(SketchLine(points=o, tone=Tone.GOOD) for o in outlines if len(o)))


def graves_box(plan: Plan, *items: ItemId) -> Box | None:
    """Return the piece of ground about these; None where none of them has a place."""
    there = [s for i in items if (s := place_of(plan, i)) is not None]
    if not there:
        return None
    west, south, east, north = shapely.total_bounds(there).tolist()
    return west - MARGIN_M, south - MARGIN_M, east + MARGIN_M, north + MARGIN_M
