"""Ground within a distance of a shape."""

from math import acos, ceil, pi

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

SHORT_BY = 0.001
"""How far, in metres, the drawn outline may fall short of the true curve."""


def quarter_segments(radius: float, short_by: float = SHORT_BY) -> int:
    """Return into how many chords a quarter circle must be cut to fall short by no more.

    A chord of q to the quarter falls short of its arc by r (1 - cos(pi / 4q)) at its middle.
    """
    if radius <= short_by:
        return 1
    return max(1, ceil(pi / 4 / acos(1 - short_by / radius)))


def clearance(shape: BaseGeometry, distance: float) -> BaseGeometry:
    """Return the ground within a distance of a shape, drawn to a millimetre on the inside.

    Whether something lies within the distance is asked with ``shapely.distance``: this outline
    is a hair too small between its corners.
    """
    segments = quarter_segments(distance)
    if shapely.get_dimensions(shape) == 1 and not shapely.is_simple(shape):
        # WORKAROUND: GEOS 3.14 fills what a line that runs back along itself goes round
        each = shapely.buffer(_edges(shape), distance, quad_segs=segments)
        return shapely.union_all(each)
    return shapely.buffer(shape, distance, quad_segs=segments)


def widened(line: BaseGeometry, width: float) -> BaseGeometry:
    """Return the outline of a line of a width: square at its ends, sharp at its corners."""
    return shapely.buffer(line, width / 2, cap_style="flat", join_style="mitre")


def _edges(line: BaseGeometry) -> NDArray[np.object_]:
    """Return each straight piece of a line or of several as a line of its own."""
    corners, part_of = shapely.get_coordinates(shapely.get_parts(line), return_index=True)
    joined = np.flatnonzero(part_of[1:] == part_of[:-1])
    pairs = np.stack([corners[joined], corners[joined + 1]], axis=1)
    return np.asarray(shapely.linestrings(pairs), dtype=object)
