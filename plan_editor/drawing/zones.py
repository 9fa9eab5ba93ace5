"""Zones to keep out of: broken outline, wide hatching, each stone ringed."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.ink import Ink, Stroke
from plan_editor.drawing.legend import HIGH, WIDE, Entry
from plan_editor.drawing.symbols import circle
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.look import Hatch, Look, Pattern, Pen

RUST = "#9A3B22"
"""The colour of danger; outline and hatching say the same without it."""

ZONE = Look(
    pen=Pen(width=0.5, colour=RUST, dash=(3.0, 1.5)),
    fill="#FBEFEA",
    hatch=Hatch(pattern=Pattern.LINES, spacing=2.5, pen=Pen(width=0.18, colour=RUST)),
)
"""How a zone to keep out of is drawn."""

_RING = Pen(width=0.35, colour=RUST)
_MARGIN = 0.8
_LARGEST = 12.0
"""A ring of a larger radius would stand round much that is safe."""


def zone_ink(zones: Sequence[BaseGeometry], viewport: Viewport) -> tuple[Ink, ...]:
    """Return zones, given on the ground: hatch and outline, drawn over what is in them."""
    if not zones:
        return ()
    over = replace(ZONE, fill=None)
    return area_ink(viewport.shapes(zones), over, np.array([], dtype=object))


def zone_ground(zones: Sequence[BaseGeometry], viewport: Viewport) -> tuple[Ink, ...]:
    """Return the pale colour of zones, drawn under what is in them."""
    if not zones:
        return ()
    under = Look(pen=None, fill=ZONE.fill)
    return area_ink(viewport.shapes(zones), under, np.array([], dtype=object))


def ringed(things: Sequence[BaseGeometry], viewport: Viewport) -> tuple[Ink, ...]:
    """Return a ring round each thing, given on the ground; to be drawn over everything.

    A thing that is large on the paper, such as a wall, has a line close round it instead.
    """
    if not things:
        return ()
    lines = tuple(line for shape in viewport.shapes(things) for line in _round(shape))
    return (Stroke(lines=lines, pen=_RING, closed=True),)


def _round(shape: BaseGeometry) -> tuple[np.ndarray, ...]:
    radius = float(shapely.minimum_bounding_radius(shape)) + _MARGIN
    if radius <= _LARGEST:
        middle = shape.centroid
        return (circle(middle.x, middle.y, radius),)
    close = shapely.get_parts(shape.buffer(_MARGIN))
    rings = shapely.get_rings(close)
    return tuple(shapely.get_coordinates(ring)[:-1] for ring in rings)


def zone_entries() -> tuple[Entry, ...]:
    """Return the lines of the key for zones and the stones in them."""
    room = shapely.box(-WIDE / 2 + 0.5, -HIGH / 2, WIDE / 2 - 0.5, HIGH / 2)
    none = np.array([], dtype=object)
    zone = area_ink(np.array([room], dtype=object), ZONE, none)
    return Entry(text="Keep out", sample=zone), stone_entry()


def stone_entry() -> Entry:
    """Return the line of the key for what is unsafe."""
    stone = np.array([shapely.box(-0.4, -1.2, 0.4, 1.2)], dtype=object)
    solid = area_ink(stone, Look(pen=Pen(), solid=True), np.array([], dtype=object))
    ring = Stroke(lines=(circle(0.0, 0.0, 1.9),), pen=_RING, closed=True)
    return Entry(text="Unsafe: keep away", sample=(*solid, ring))
