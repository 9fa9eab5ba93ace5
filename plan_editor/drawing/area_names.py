"""Where the name of an area may stand: on its own free ground, or along its outline."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import STRtree
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.compose import Group
from plan_editor.drawing.ink import Points
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.look import Look

Shapes = NDArray[np.object_]

_MOST_TRIED = 300
_MOST_PLACES = 8
_STEP = 3.0
_SPREAD = 9.0
_EDGE_GAP = 1.3
_WAVE = 0.5
_AROUND = np.array([(0, -1), (0, 1), (1, 0), (-1, 0)])
_ALONG = (0.5, 0.3, 0.7, 0.15, 0.85)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Covers:
    """What is filled or hatched, as shapes on paper, in the order of drawing.

    Args:
        tree: the shapes.
        numbers: of each, counting all items of the groups.
    """

    tree: STRtree
    numbers: NDArray[np.int_]

    def lies_on(self, boxes: Shapes, own: int) -> NDArray[np.bool_]:
        """Return which boxes lie on something that is drawn over the item of that number."""
        box, other = self.tree.query(boxes, predicate="intersects")
        hit = np.zeros(len(boxes), dtype=bool)
        hit[box[self.numbers[other] > own]] = True
        return hit


def covers(groups: Iterable[Group], viewport: Viewport) -> Covers:
    """Return what covers the ground of other things."""
    shapes: list[Shapes] = []
    numbers: list[NDArray[np.int_]] = []
    before = 0
    for group in groups:
        if _covering(group.look):
            shapes.append(_on_paper(group, viewport))
            numbers.append(before + np.arange(len(group.items)))
        before += len(group.items)
    return Covers(
        tree=STRtree(np.concatenate([np.array([], dtype=object), *shapes])),
        numbers=np.concatenate([np.array([], dtype=int), *numbers]),
    )


def _covering(look: Look) -> bool:
    return bool(look.fill or look.hatch or look.solid)


def _on_paper(group: Group, viewport: Viewport) -> Shapes:
    shapes = viewport.shapes([i.shape for i in group.items])
    widths = np.array([group.kind.width_m(i.details) for i in group.items])
    lines = (shapely.get_dimensions(shapes) == 1) & (widths > 0.0)
    half = widths[lines] * viewport.mm_per_metre / 2
    shapes[lines] = shapely.buffer(shapes[lines], half, quad_segs=2)
    return shapes


def places_in(area: BaseGeometry, half: Points, over: Covers, own: int) -> Points:
    """Return where the middle of a name may be, (n, 2), the dearest first.

    On bare ground within the area, near its middle; then in its middle; then round it.

    Args:
        area: on paper.
        half: half the length and height of the name.
        over: what covers the ground.
        own: number of the item whose name it is.
    """
    point = area.representative_point()
    middle = area.centroid if area.contains(area.centroid) else point
    at = np.array([(middle.x, middle.y), (point.x, point.y)])
    tried = np.concatenate([at[:1], _within(area)])
    boxes = _boxes(tried, half)
    shapely.prepare(area)
    bare = shapely.contains_properly(area, boxes) & ~over.lies_on(boxes, own)
    free = tried[bare]
    nearest = free[np.argsort(np.hypot(*(free - at[0]).T), kind="stable")]
    return np.concatenate([_spread(nearest), at, _round(area, half)])


def _within(area: BaseGeometry) -> Points:
    """Return places in a grid over an area."""
    left, bottom, right, top = area.bounds
    step = max(_STEP, float(np.sqrt((right - left) * (top - bottom) / _MOST_TRIED)))
    x, y = np.meshgrid(np.arange(left, right, step), np.arange(bottom, top, step))
    return np.column_stack([x.ravel(), y.ravel()])


def _boxes(middles: Points, half: Points) -> Shapes:
    low, high = middles - half, middles + half
    return np.asarray(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))


def _spread(places: Points) -> Points:
    """Return the first of places, and of the others those far enough from each before."""
    kept = places[:1]
    for place in places[1:]:
        if len(kept) == _MOST_PLACES:
            break
        if np.hypot(*(kept - place).T).min() >= _SPREAD:
            kept = np.vstack([kept, place])
    return kept


def _round(area: BaseGeometry, half: Points) -> Points:
    left, bottom, right, top = area.bounds
    middle = np.array([(left + right) / 2, (bottom + top) / 2])
    reach = np.array([(right - left) / 2, (top - bottom) / 2]) + half + _EDGE_GAP
    return middle + _AROUND * reach


def places_along(area: BaseGeometry, half: Points) -> tuple[Points, float]:
    """Return where the middle of a name may be along the longest side of an area, and its turn.

    Within the outline, then outside; the turn is in degrees, anticlockwise.
    """
    outline = shapely.get_exterior_ring(shapely.orient_polygons(_largest(area)))
    ring = shapely.get_coordinates(shapely.simplify(outline, _WAVE))
    sides = np.diff(ring, axis=0)
    longest = int(np.argmax(np.hypot(*sides.T)))
    start, way = ring[longest], sides[longest]
    inwards = np.array([-way[1], way[0]]) / np.hypot(*way)
    on_line = start + way * np.array(_ALONG)[:, None]
    aside = inwards * (float(half[1]) + _EDGE_GAP)
    turn_deg = float(np.degrees(np.arctan2(way[1], way[0])))
    return np.concatenate([on_line + aside, on_line - aside]), turn_deg


def _largest(area: BaseGeometry) -> BaseGeometry:
    parts = shapely.get_parts(area)
    largest: BaseGeometry = parts[int(np.argmax(shapely.area(parts)))]
    return largest
