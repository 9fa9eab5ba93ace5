"""Hatches: lines and marks that fill areas, as strokes cut to their outlines."""

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.ink import Ink, Points, Stroke
from plan_editor.plan.look import Hatch, Pattern, Pen

_NOTHING = 1e-6

Areas = NDArray[np.object_]
"""An array of polygons, in millimetres on paper."""


def hatched(areas: Areas, hatch: Hatch) -> tuple[Ink, ...]:
    """Return the ink of a hatch over some areas; neighbours join without a step.

    Marks (dots, strokes, crosses) are drawn where they lie whole inside.
    """
    lines = _lines(areas, hatch)
    if not lines:
        return ()
    # a dot is a stroke as long as it is wide
    dots = hatch.pattern is Pattern.DOTS
    pen = Pen(width=hatch.size, colour=hatch.pen.colour) if dots else hatch.pen
    return (Stroke(lines=lines, pen=pen),)


def _lines(areas: Areas, hatch: Hatch) -> tuple[Points, ...]:
    match hatch.pattern:
        case Pattern.LINES:
            return _ruled(areas, hatch.angle_deg, hatch.spacing)
        case Pattern.CROSSED:
            other = _ruled(areas, hatch.angle_deg + 90.0, hatch.spacing)
            return _ruled(areas, hatch.angle_deg, hatch.spacing) + other
        case Pattern.DOTS:
            return _marked(areas, hatch, (((-0.5, 0.0), (0.5, 0.0)),))
        case Pattern.STROKES:
            return _marked(areas, hatch, (((0.0, -0.5), (0.0, 0.5)),))
        case Pattern.CROSSES:  # pragma: no branch  # there is no other
            one, two = ((-0.4, -0.4), (0.4, 0.4)), ((-0.4, 0.4), (0.4, -0.4))
            return _marked(areas, hatch, (one, two))


def _ruled(areas: Areas, angle_deg: float, spacing: float) -> tuple[Points, ...]:
    """Return parallel lines inside the areas, by the even-odd rule.

    All sides of all rings are crossed with all lines at once: the sides are turned so that the
    lines run level, and each side knows which levels it passes.
    """
    turn = np.radians(angle_deg)
    to_level = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    starts, ends, owner = _sides(areas, to_level)
    low, high = np.minimum(starts[:, 1], ends[:, 1]), np.maximum(starts[:, 1], ends[:, 1])
    # a side reaches from its lower end, counted, to its upper end, not counted
    first = np.ceil(low / spacing).astype(int)
    count = np.ceil(high / spacing).astype(int) - first
    side = np.repeat(np.arange(len(count)), count)
    nth = np.arange(len(side)) - np.repeat(np.cumsum(count) - count, count)
    level = first[side] + nth
    s, e = starts[side], ends[side]
    part = (level * spacing - s[:, 1]) / (e[:, 1] - s[:, 1])
    across = s[:, 0] + part * (e[:, 0] - s[:, 0])
    order = np.lexsort((across, level, owner[side]))
    x, y = across[order], (level * spacing)[order]
    back = np.column_stack([x, y]) @ to_level
    pairs = back.reshape(-1, 2, 2)
    # a corner that only touches a line gives none
    return tuple(pairs[np.hypot(*(pairs[:, 1] - pairs[:, 0]).T) > _NOTHING])


def _sides(areas: Areas, to_level: Points) -> tuple[Points, Points, NDArray[np.int_]]:
    rings, area = shapely.get_rings(areas, return_index=True)
    coordinates, ring = shapely.get_coordinates(rings, return_index=True)
    turned = coordinates @ to_level.T
    joined = ring[1:] == ring[:-1]
    return turned[:-1][joined], turned[1:][joined], area[ring[:-1][joined]]


def _marked(
    areas: Areas, hatch: Hatch, mark: tuple[tuple[tuple[float, float], ...], ...]
) -> tuple[Points, ...]:
    strokes = np.array(mark) * hatch.size
    lines: list[Points] = []
    for area in areas:
        places = _staggered(area.bounds, hatch.spacing)
        ends = places[:, None, None, :] + strokes[None]
        inside = shapely.contains_xy(area, ends.reshape(-1, 2)).reshape(
            len(places), 2 * len(mark)
        )
        lines.extend(ends[inside.all(axis=1)].reshape(-1, 2, 2))
    return tuple(lines)


def _staggered(bounds: tuple[float, float, float, float], spacing: float) -> Points:
    """Return places in rows, each row set half a step against the last, anchored at 0, 0."""
    left, bottom, right, top = bounds
    rows = np.arange(np.ceil(bottom / spacing), np.floor(top / spacing) + 1)
    columns = np.arange(np.floor(left / spacing), np.ceil(right / spacing) + 1)
    x, y = np.meshgrid(columns, rows)
    return np.column_stack([((x + (y % 2) / 2) * spacing).ravel(), (y * spacing).ravel()])
