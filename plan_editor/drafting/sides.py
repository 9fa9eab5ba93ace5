"""A whole side of a line or an area shifted parallel to itself."""

from math import hypot

from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.corners import Corner, Place, rings, with_ring

SLANT = 0.05
"""A neighbour that leaves the line of the side by less than this sine, three degrees, would
have to be carried on far: a corner comes in there instead."""


def shift_to(shape: BaseGeometry, side: Corner, to: Place) -> tuple[float, Place]:
    """Return how far a side is shifted to lie on a line through a place, and its normal.

    Args:
        shape: a line or an area.
        side: the corner that would come in at the middle of the side (``corners.middles``).
        to: a place.
    """
    corners = rings(shape)[side.ring].corners
    (e0, n0), (e1, n1) = corners[side.place - 1], corners[side.place % len(corners)]
    long = hypot(e1 - e0, n1 - n0) or 1.0
    normal = (n1 - n0) / long, (e0 - e1) / long
    return (to[0] - e0) * normal[0] + (to[1] - n0) * normal[1], normal


def side_shifted(shape: BaseGeometry, side: Corner, to: Place) -> BaseGeometry:
    """Return a shape with one side on a line through a place, parallel to where it was.

    The sides next to it are carried on or cut back along their own lines; where one runs on
    straight, a corner comes in. The open end of a line moves square to its side.

    Args:
        shape: a line or an area.
        side: the corner that would come in at the middle of the side (``corners.middles``).
        to: a place.
    """
    ring = rings(shape)[side.ring]
    by, normal = shift_to(shape, side, to)
    corners, count = ring.corners, len(ring.corners)
    first, last = side.place - 1, side.place % count
    start = _end(
        corners[first], corners[first - 1] if ring.closed or first else None, by, normal
    )
    after = corners[(last + 1) % count] if ring.closed or last < count - 1 else None
    end = _end(corners[last], after, by, normal)[::-1]
    if last == 0:  # the side that closes the ring
        return with_ring(shape, side.ring, (*end, *corners[1:first], *start))
    return with_ring(shape, side.ring, (*corners[:first], *start, *end, *corners[last + 1 :]))


def _end(corner: Place, beside: Place | None, by: float, normal: Place) -> tuple[Place, ...]:
    """Return what becomes of an end of the side; the one nearer to its neighbour first."""
    moved = corner[0] + by * normal[0], corner[1] + by * normal[1]
    if beside is None:
        return (moved,)
    e, n = corner[0] - beside[0], corner[1] - beside[1]
    rise = (e * normal[0] + n * normal[1]) / (hypot(e, n) or 1.0)
    if abs(rise) < SLANT:
        return corner, moved
    share = by / rise / hypot(e, n)
    return ((corner[0] + e * share, corner[1] + n * share),)
