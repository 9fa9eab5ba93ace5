"""Shapes on paper taken apart into arrays of points."""

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.ink import Points

Shapes = NDArray[np.object_] | Sequence[BaseGeometry]


def rings_of(areas: Shapes) -> tuple[Points, ...]:
    """Return the rings of areas, each without its closing point."""
    rings = shapely.get_rings(np.asarray(areas, dtype=object))
    return tuple(points[:-1] for points in _apart(rings))


def lines_of(lines: Shapes) -> tuple[Points, ...]:
    """Return lines, and the parts of lines of many parts, as points."""
    return _apart(shapely.get_parts(np.asarray(lines, dtype=object)))


def _apart(shapes: NDArray[np.object_]) -> tuple[Points, ...]:
    coordinates, owner = shapely.get_coordinates(shapes, return_index=True)
    if not len(coordinates):
        return ()
    return tuple(np.split(coordinates, np.flatnonzero(np.diff(owner)) + 1))
