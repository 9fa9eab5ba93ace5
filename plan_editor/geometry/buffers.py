"""Ground within a distance of a shape."""

from math import acos, ceil, pi

import shapely
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

    Whether something lies within the distance is asked with ``shapely.distance``: this outline is
    a hair too small between its corners.
    """
    return shapely.buffer(shape, distance, quad_segs=quarter_segments(distance))
