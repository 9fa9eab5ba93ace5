"""Runs of points, many in one array: what a path on the screen is made from."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

Points = NDArray[np.float64]
"""An array of shape (n, 2): east and north in metres about the plan's origin."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Runs:
    """Lines or rings, one after another.

    Args:
        points: all their points; a ring ends where it began.
        starts: the row at which each of them begins.
    """

    points: Points
    starts: NDArray[np.intp]

    def __bool__(self) -> bool:
        """Whether there is anything."""
        return len(self.starts) > 0


NO_POINTS: Points = np.empty((0, 2))
NOTHING = Runs(points=NO_POINTS, starts=np.empty(0, dtype=np.intp))


def runs_of(shapes: Sequence[BaseGeometry] | NDArray[np.object_]) -> Runs:
    """Return the rings of areas and the lines themselves; points are passed over.

    Outer rings run anticlockwise and inner ones clockwise, so that what overlaps in one path
    does not punch holes.
    """
    parts = shapely.get_parts(np.asarray(shapes, dtype=object))
    kinds = shapely.get_type_id(parts)
    areas = parts[kinds == shapely.GeometryType.POLYGON]
    rings = shapely.get_rings(shapely.orient_polygons(areas))
    lines = parts[
        (kinds == shapely.GeometryType.LINESTRING) | (kinds == shapely.GeometryType.LINEARRING)
    ]
    points, owners = shapely.get_coordinates(np.concatenate([rings, lines]), return_index=True)
    return Runs(points=points, starts=_firsts(owners))


def runs_of_arrays(lines: Iterable[Points]) -> Runs:
    """Return lines given as one array each."""
    kept = [line for line in lines if len(line)]
    if not kept:
        return NOTHING
    lengths = np.array([len(line) for line in kept])
    return Runs(
        points=np.concatenate(kept), starts=(np.cumsum(lengths) - lengths).astype(np.intp)
    )


def runs_of_equal(lines: Points) -> Runs:
    """Return lines of one length each.

    Args:
        lines: shape (n, m, 2): n lines of m points.
    """
    n, m, _ = lines.shape
    return Runs(points=lines.reshape(-1, 2), starts=np.arange(n, dtype=np.intp) * m)


def joined(parts: Iterable[Runs]) -> Runs:
    """Return several as one."""
    kept = [part for part in parts if part]
    if len(kept) < 2:
        return kept[0] if kept else NOTHING
    before = np.cumsum([0, *(len(part.points) for part in kept[:-1])])
    return Runs(
        points=np.concatenate([part.points for part in kept]),
        starts=np.concatenate([p.starts + b for p, b in zip(kept, before, strict=True)]),
    )


def _firsts(owners: NDArray[np.intp]) -> NDArray[np.intp]:
    return np.flatnonzero(np.diff(owners, prepend=-1)).astype(np.intp)
