"""How a way from a base plan to the ground bends: its local stretch, its folds, its outline."""

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.geometry.mappings import Mapping, Places

Extent = tuple[float, float, float, float]
"""Least x and y, greatest x and y, on a base plan."""

PARTS = 64
"""A sheet is looked at where so many parts of each side meet."""

LEAST_SHARE = 0.01
"""A piece of a sheet smaller on the ground than this, as a part of the usual piece of the same
size on paper, is as good as lost; one larger by as much is torn out of all shape."""

FLAT = 1e-9
"""An affine way that leaves less of a square's area than this flattens it to a line."""


def derivatives(mapping: Mapping, places: Places, step: float | NDArray[np.float64]) -> Places:
    """Return how ground changes with paper at some places; n by 2 by 2.

    Row by row metres east and metres north; column by column for a unit of x and one of y.

    Args:
        mapping: the way to the ground.
        places: on the base plan, n by 2.
        step: how far to either side is looked where it bends, in the base plan's units.
    """
    if mapping.is_straight:
        a, b, _, d, e, _ = mapping.straight
        return np.broadcast_to(np.array([(a, b), (d, e)]), (len(places), 2, 2))
    aside = np.broadcast_to(np.asarray(step, dtype=np.float64), (len(places),))[:, None]
    along = [
        (mapping.to_ground(places + aside * way) - mapping.to_ground(places - aside * way))
        / (2.0 * aside)
        for way in np.eye(2)
    ]
    return np.stack(along, axis=2)


def sound(mapping: Mapping, extent: Extent) -> bool:
    """Return whether a sheet stays whole: neither flattened, nor folded over, nor torn open."""
    if not np.isfinite(mapping.straight).all():
        return False
    if mapping.is_straight:
        a, b, _, d, e, _ = mapping.straight
        return abs(a * e - b * d) > FLAT * max(a * a + d * d, b * b + e * e)
    with np.errstate(all="ignore"):
        areas = np.linalg.det(derivatives(mapping, _lattice(extent), _step(extent)))
        share = areas / np.median(areas)
        edge = outline(mapping, extent)
    fair = (share > LEAST_SHARE) & (share < 1.0 / LEAST_SHARE)  # what is no number is not
    if not fair.all() or not np.isfinite(edge).all():
        return False
    return bool(shapely.is_valid(shapely.Polygon(edge)))


def unit_side(mapping: Mapping, extent: Extent) -> float:
    """Return the side, in metres, of a square as large as a usual square unit of a sheet."""
    places = _lattice(extent)[:: 1 if not mapping.is_straight else PARTS**2]
    areas = np.linalg.det(derivatives(mapping, places, _step(extent)))
    return float(np.sqrt(abs(np.median(areas))))


def outline(mapping: Mapping, extent: Extent) -> Places:
    """Return the edge of a sheet on the ground: its corners, with places between if it bends.

    Args:
        mapping: the way to the ground.
        extent: of the sheet.

    Returns:
        Rows of east and north in metres, from (least x, least y) with x growing first.
    """
    x0, y0, x1, y1 = extent
    corners = np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
    if mapping.is_straight:
        return mapping.to_ground(corners)
    share = np.arange(PARTS)[:, None] / PARTS
    sides = zip(corners, np.roll(corners, -1, axis=0), strict=True)
    return mapping.to_ground(np.concatenate([(1 - share) * a + share * b for a, b in sides]))


def _lattice(extent: Extent) -> Places:
    x0, y0, x1, y1 = extent
    x, y = np.meshgrid(np.linspace(x0, x1, PARTS + 1), np.linspace(y0, y1, PARTS + 1))
    return np.stack([x.ravel(), y.ravel()], axis=1)


def _step(extent: Extent) -> float:
    x0, y0, x1, y1 = extent
    return max(x1 - x0, y1 - y0) * 1e-4
