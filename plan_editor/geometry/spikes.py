"""Spikes: where an outline runs out and back along the same line."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import dist

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from plan_editor.geometry.tolerance import SAME

Numbers = NDArray[np.float64]
Place = tuple[float, float]

BREADTH_M = 0.01
"""A spike is nowhere broader: thinner than any line on paper, at any scale of a churchyard."""

LONGEST_SHARE = 0.1
"""A spike is longer than ten times its breadth, or it is a corner."""


@dataclass(frozen=True, slots=True)
class Spike:
    """One spike: where it begins and where it ends, east and north."""

    foot: Place
    tip: Place

    @property
    def length_m(self) -> float:
        """How long it is."""
        return dist(self.foot, self.tip)


def spiked(shapes: NDArray[np.object_]) -> NDArray[np.intp]:
    """Return which of many areas have a spike. Cost: one pass over their corners."""
    parts, owner = shapely.get_parts(shapes, return_index=True)
    rings, part = shapely.get_rings(parts, return_index=True)
    corners, ring = shapely.get_coordinates(rings, return_index=True)
    if not len(corners):
        return np.empty(0, dtype=np.intp)
    # of each ring the last corner is the first again
    begins = np.flatnonzero(np.diff(ring, prepend=-1))
    ends = np.append(begins[1:], len(ring)) - 1
    before, after = np.arange(len(ring)) - 1, np.arange(len(ring)) + 1
    before[begins] = ends - 1
    after[ends] = begins + 1
    found = _sharp(corners[before], corners, corners[after])
    return np.unique(owner[part[ring[found]]])


def spikes(area: Polygon) -> tuple[Spike, ...]:
    """Return the spikes of an area."""
    return tuple(spike for ring in _rings(area) for spike in _blunted(ring)[1])


def without_spikes(area: Polygon) -> Polygon | None:
    """Return an area without its spikes; None where nothing whole would be left.

    The other corners stay exactly where they are.
    """
    outer, *holes = (_blunted(ring)[0] for ring in _rings(area))
    if len(outer) < 3:
        return None
    made = Polygon(outer, [h for h in holes if len(h) >= 3])
    return made if made.is_valid else None


def _rings(area: Polygon) -> Iterator[Numbers]:
    for ring in (area.exterior, *area.interiors):
        yield shapely.get_coordinates(ring)[:-1]


def _blunted(ring: Numbers) -> tuple[Numbers, list[Spike]]:
    """Return a ring without its spikes, and their ends; a spike may be of several corners."""
    gone: list[Spike] = []
    while len(ring) >= 3:
        sharp = _sharp(np.roll(ring, 1, axis=0), ring, np.roll(ring, -1, axis=0))
        if not sharp.any():
            break
        # the longest first: at its foot nothing sharp is left then
        before, after = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0)
        sides = np.hypot(*(ring - before).T), np.hypot(*(ring - after).T)
        reach = np.where(sharp, np.minimum(*sides), -1.0)
        worst = int(np.argmax(reach))
        foot = before if sides[0][worst] <= sides[1][worst] else after
        gone.append(Spike(_place(foot[worst]), _place(ring[worst])))
        ring = np.delete(ring, worst, axis=0)
        apart = np.hypot(*(ring - np.roll(ring, 1, axis=0)).T)
        ring = ring[apart > SAME]
    return ring, gone


def _place(corner: Numbers) -> Place:
    east, north = corner.tolist()
    return east, north


def _sharp(before: Numbers, here: Numbers, after: Numbers) -> NDArray[np.bool_]:
    """Return at which corners a ring turns back on itself."""
    back, on = before - here, after - here
    lengths = np.minimum(np.hypot(*back.T), np.hypot(*on.T))
    longer = np.maximum(np.hypot(*back.T), np.hypot(*on.T))
    across = np.abs(back[:, 0] * on[:, 1] - back[:, 1] * on[:, 0])
    same_way = (back * on).sum(axis=1) > 0.0
    # how broad it is where the shorter side ends
    broad = across / np.where(longer > 0.0, longer, 1.0)
    found: NDArray[np.bool_] = (
        same_way & (lengths > SAME) & (broad <= BREADTH_M) & (broad <= LONGEST_SHARE * lengths)
    )
    return found
