"""Keeping to right angles while something is drawn."""

from plan_editor.drafting.figures import Place

NORTH = (0.0, 1.0)
"""The way that the first side keeps to, or square to it, where it begins at no other side."""


def squared(start: Place, to: Place, way: Place) -> Place:
    """Return the place that is meant by one, where a side goes along a way or square to it.

    Args:
        start: where the side begins.
        to: where the pointer is; the nearer of the two lines is taken.
        way: a direction, east and north, 1 long.
    """
    e, n = to[0] - start[0], to[1] - start[1]
    along, aside = e * way[0] + n * way[1], n * way[0] - e * way[1]
    if abs(along) >= abs(aside):
        return start[0] + along * way[0], start[1] + along * way[1]
    return start[0] - aside * way[1], start[1] + aside * way[0]
