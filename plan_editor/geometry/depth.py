"""How deep two shapes lie in each other, and how broad a strip is on average."""

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

Corners = NDArray[np.float64]


def depth(one: BaseGeometry, other: BaseGeometry) -> float:
    """Return the shortest way by which two areas must be moved apart to lie side by side.

    In metres; 0.0 where they do not share ground. What is not convex counts with its hull. The
    shortest way is across a side of one of them (the separating axis theorem for convex sets).
    """
    a, b = _corners(one), _corners(other)
    normals = np.vstack((_normals(a), _normals(b)))
    along_a, along_b = a @ normals.T, b @ normals.T
    shared = np.minimum(
        along_a.max(axis=0) - along_b.min(axis=0), along_b.max(axis=0) - along_a.min(axis=0)
    )
    return max(0.0, float(shared.min()))


def mean_width(shape: BaseGeometry) -> float:
    """Return the mean width of a strip, in metres: twice its area by the length of its edge."""
    return 2.0 * shape.area / shape.length if shape.length else 0.0


def _corners(shape: BaseGeometry) -> Corners:
    hull = shapely.convex_hull(shape)
    found: Corners = shapely.get_coordinates(hull)[:-1]
    return found


def _normals(corners: Corners) -> Corners:
    sides = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    turned: Corners = np.column_stack((-sides[:, 1], sides[:, 0])) / lengths[:, None]
    return turned
