"""A finding of the plan check, marked over the ground, and where to look for it."""

from collections.abc import Iterable, Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.checking.rule import Finding
from plan_editor.drawing.sketch import Sketch, SketchDot, SketchLine, SketchPatch, Tone
from plan_editor.geometry.nearby import Box
from plan_editor.plan.plan import Plan

MARGIN_M = 4.0
"""So much ground is shown round what was found."""

MOST_MARKED = 200
"""So many things are outlined; more would hide the ground."""

FAINT = 0.35
"""How strongly the piece of ground concerned is filled."""


def check_sketch(plan: Plan, finding: Finding) -> Sketch:
    """Return the things of a finding outlined, and the ground concerned filled."""
    there = (plan.items[i].shape for i in finding.items[:MOST_MARKED] if i in plan.items)
    lines = [*_lines((s for s in there if s is not None), Tone.MEASURED)]
    patches: tuple[SketchPatch, ...] = ()
    if finding.shape is not None:
        lines += _lines((finding.shape,), Tone.DANGER)
        patches = tuple(_patches(finding.shape))
    dots: tuple[SketchDot, ...] = ()
    if finding.place is not None:
        east, north = finding.place
        dots = (SketchDot(east=east, north=north, tone=Tone.DANGER),)
    return Sketch(patches=patches, lines=tuple(lines), dots=dots)


def box_of(plan: Plan, finding: Finding) -> Box | None:
    """Return the piece of ground to look at; None where nothing of it has a place.

    That is where it was found: the things themselves may be as large as the churchyard.
    """
    shape = finding.shape
    if shape is None and finding.place is not None:
        shape = shapely.Point(finding.place)
    if shape is None:
        shapes = [plan.items[i].shape for i in finding.items if i in plan.items]
        shape = shapely.union_all([s for s in shapes if s is not None])
    if shape.is_empty:
        return None
    west, south, east, north = shape.bounds
    return west - MARGIN_M, south - MARGIN_M, east + MARGIN_M, north + MARGIN_M


def _lines(shapes: Iterable[BaseGeometry], tone: Tone) -> Iterator[SketchLine]:
    for part in shapely.get_parts(list(shapes)).tolist():
        rings = (part.exterior, *part.interiors) if part.geom_type == "Polygon" else (part,)
        for ring in rings:
            points = shapely.get_coordinates(ring)
            if len(points) > 1:
                yield SketchLine(points=points, tone=tone)


def _patches(shape: BaseGeometry) -> Iterator[SketchPatch]:
    for part in shapely.get_parts(shape).tolist():
        if part.geom_type == "Polygon":
            points = shapely.get_coordinates(part.exterior)
            yield SketchPatch(points=points, strength=FAINT, tone=Tone.DANGER)
