"""The shortest ways round corners between places, by scipy's csgraph."""

import numpy as np
from scipy.sparse.csgraph import dijkstra

from plan_editor.ground.walking_ground import Numbers, WalkingGround


def round_corners(ground: WalkingGround, places: Numbers, straight: Numbers) -> Numbers:
    """Return the lengths of the ways that go round one corner at least, infinite of none."""
    corners = ground.corners
    to_corner = _in_sight(ground, places, corners)
    between = _in_sight(ground, corners, corners)
    far = np.asarray(dijkstra(np.where(np.isfinite(between), between, 0.0), directed=False))
    found = np.full_like(straight, np.inf)
    onward = np.full_like(to_corner, np.inf)
    for n in range(len(corners)):
        np.minimum(onward, to_corner[:, n, None] + far[n], out=onward)
    for n in range(len(corners)):
        np.minimum(found, onward[:, n, None] + to_corner[:, n], out=found)
    return found


def _in_sight(ground: WalkingGround, some: Numbers, others: Numbers) -> Numbers:
    """Return how far it is from each of some to each of others; infinite out of sight."""
    first, second = (a.ravel() for a in np.indices((len(some), len(others))))
    seen = ground.sees(some[first], others[second])
    lengths = np.hypot(*(others[second] - some[first]).T)
    return np.where(seen, lengths, np.inf).reshape(len(some), len(others))
