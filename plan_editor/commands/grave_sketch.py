"""Where entries, stones and graves lie: outlined over the ground, and what to look at."""

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.sketch import Sketch, SketchLine, SketchPatch, Tone
from plan_editor.geometry.nearby import Box
from plan_editor.plan.checks import references
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

MARGIN_M = 6.0
"""So much ground is shown round a grave, so that the rows about it are seen."""

FAINT = 0.35
"""How strongly a grave is filled: its number stays to be read."""


def place_of(plan: Plan, item: ItemId) -> BaseGeometry | None:
    """Return where a thing lies, or the first thing that it refers to; None for nowhere."""
    there = plan.items.get(item)
    if there is None or there.shape is not None:
        return None if there is None else there.shape
    shapes = (plan.items[target].shape for _, _, target in references(there))
    return next((s for s in shapes if s is not None), None)


def middle_of(plan: Plan, item: ItemId) -> tuple[float, float] | None:
    """Return the middle of where a thing lies, east and north; None for nowhere."""
    shape = place_of(plan, item)
    return None if shape is None else (shape.centroid.x, shape.centroid.y)


def graves_sketch(plan: Plan, *items: ItemId) -> Sketch:
    """Return a sketch that outlines and fills where these lie."""
    there = [s for i in items if (s := place_of(plan, i)) is not None]
    outlines = [o for s in there if len(o := shapely.get_coordinates(shapely.boundary(s)))]
    return Sketch(
        patches=tuple(SketchPatch(points=o, strength=FAINT, tone=Tone.GOOD) for o in outlines),
        lines=tuple(SketchLine(points=o, tone=Tone.GOOD) for o in outlines),
    )


def graves_box(plan: Plan, *items: ItemId) -> Box | None:
    """Return the piece of ground about these; None where none of them has a place."""
    there = [s for i in items if (s := place_of(plan, i)) is not None]
    if not there:
        return None
    west, south, east, north = shapely.total_bounds(there).tolist()
    return west - MARGIN_M, south - MARGIN_M, east + MARGIN_M, north + MARGIN_M
