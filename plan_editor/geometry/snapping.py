"""The place that a pointer means: the nearest end, crossing, middle, foot or line in reach.

Inside this module a place is a complex number, east + north·i: of ``conj(a) * b`` the real part
is the dot product and the imaginary part the cross product.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString
from shapely.geometry.base import BaseGeometry

MOST_CROSSED = 48
"""Crossings are looked for among so many of the nearest edges only."""

GLANCING = 0.2
"""Two lines of which one is an axis cross clearly where the sine of their angle is greater."""

Places = NDArray[np.complex128]
Owners = NDArray[np.intp]


class SnapKind(Enum):
    """What was caught, from the most to the least wanted."""

    CORNER = "corner"
    CROSSING = "crossing"
    MIDDLE = "middle"
    FOOT = "foot of a perpendicular"
    EDGE = "edge"
    AXIS = "axis"


@dataclass(frozen=True, slots=True, kw_only=True)
class Snap:
    """A place that was caught.

    Args:
        east: its easting in metres.
        north: its northing in metres.
        what: what is there.
        index: the place of its shape among the shapes that were given; those of the axes go on
            where these end.
    """

    east: float
    north: float
    what: SnapKind
    index: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Edges:
    """Straight edges: where each starts, how it runs to its end, whose it is."""

    starts: Places
    runs: Places
    owners: Owners

    def some(self, wanted: Owners) -> "_Edges":
        return _Edges(
            starts=self.starts[wanted], runs=self.runs[wanted], owners=self.owners[wanted]
        )


def snap(
    shapes: Sequence[BaseGeometry],
    *,
    at: tuple[float, float],
    reach: float,
    start: tuple[float, float] | None = None,
    axes: Sequence[LineString] = (),
) -> Snap | None:
    """Return what lies within reach of a point, the most wanted sort first, then the nearest.

    Args:
        shapes: points, lines and areas near the point, in metres; curves are not known.
        at: the point's easting and northing.
        reach: how far a place may be, in metres.
        start: where the line being drawn began; perpendiculars are dropped from there.
        axes: straight lines that lead on, such as that of a row: places along them and where
            they cross are caught, their ends are not.
    """
    point = complex(*at)
    corners, owners, edges = _taken_apart(shapes)
    corner = _nearest(SnapKind.CORNER, corners, owners, point, reach)
    if corner is not None:
        return corner
    edges, feet = _in_reach(edges, point, reach)
    leading, on_axes = _in_reach(_axes(axes, len(shapes)), point, reach)
    if not len(feet) and not len(on_axes):
        return None
    return (
        _nearest(SnapKind.CROSSING, *_crossings(edges), point, reach)
        or _nearest(SnapKind.MIDDLE, edges.starts + edges.runs / 2, edges.owners, point, reach)
        or _nearest(SnapKind.FOOT, *_perpendiculars(edges, start), point, reach)
        or _nearest(SnapKind.CROSSING, *_on_axes(edges, leading), point, reach)
        or _nearest(SnapKind.EDGE, feet, edges.owners, point, reach)
        or _nearest(SnapKind.AXIS, on_axes, leading.owners, point, reach)
    )


def _taken_apart(shapes: Sequence[BaseGeometry]) -> tuple[Places, Owners, _Edges]:
    """Return every corner with its shape, and every edge; rings and parts are not joined up."""
    parts, owners = shapely.get_parts(np.asarray(shapes, dtype=object), return_index=True)
    areas = shapely.get_type_id(parts) == shapely.GeometryType.POLYGON
    if areas.any():
        rings, ring_of = shapely.get_rings(parts[areas], return_index=True)
        owners = np.concatenate([owners[~areas], owners[areas][ring_of]])
        parts = np.concatenate([parts[~areas], rings])
    pairs, part_of = shapely.get_coordinates(parts, return_index=True)
    corners = pairs.view(np.complex128)[:, 0]
    joined = np.flatnonzero(part_of[1:] == part_of[:-1])
    starts = corners[joined]
    owner_of = owners[part_of]
    edges = _Edges(starts=starts, runs=corners[joined + 1] - starts, owners=owner_of[joined])
    return corners, owner_of, edges


def _nearest(
    what: SnapKind, places: Places, owners: Owners, point: complex, reach: float
) -> Snap | None:
    if not len(places):
        return None
    away = np.abs(places - point)
    best = int(away.argmin())
    if not away[best] <= reach:
        return None
    place = complex(places[best])
    return Snap(east=place.real, north=place.imag, what=what, index=int(owners[best]))


def _in_reach(edges: _Edges, point: complex, reach: float) -> tuple[_Edges, Places]:
    """Return the edges within reach, nearest first, and the nearest place on each."""
    share = np.minimum(np.maximum(_share(edges, point), 0.0), 1.0)
    feet = edges.starts + share * edges.runs
    away = np.abs(feet - point)
    near = np.flatnonzero(away <= reach)
    near = near[np.argsort(away[near], kind="stable")]
    return edges.some(near), feet[near]


def _share(edges: _Edges, point: complex) -> NDArray[np.float64]:
    """Return how far along each edge, from 0 to 1, the foot of the perpendicular lies."""
    toward = np.conj(edges.runs)
    squared = (toward * edges.runs).real
    squared[squared == 0.0] = 1.0  # an edge without length has its foot at its start
    share: NDArray[np.float64] = (toward * (point - edges.starts)).real / squared
    return share


def _crossings(edges: _Edges) -> tuple[Places, Owners]:
    """Return where pairs of edges cross, with the shape of the nearer edge of each pair."""
    first, second = np.triu_indices(min(len(edges.owners), MOST_CROSSED), k=1)
    return _crossing(edges.some(first), edges.some(second))


def _crossing(one: _Edges, other: _Edges) -> tuple[Places, Owners]:
    """Return where the edges of each pair cross, with the shape of the first of them."""
    between = other.starts - one.starts
    turn = (np.conj(one.runs) * other.runs).imag
    level = turn == 0.0  # parallel, or without length: no single crossing
    turn[level] = 1.0
    along_one = (np.conj(between) * other.runs).imag / turn
    along_other = (np.conj(between) * one.runs).imag / turn
    real = ~level & (np.abs(along_one - 0.5) <= 0.5) & (np.abs(along_other - 0.5) <= 0.5)
    return (one.starts + along_one * one.runs)[real], one.owners[real]


def _axes(axes: Sequence[LineString], first: int) -> _Edges:
    """Return axes as edges whose owners are counted on from a number."""
    _, _, edges = _taken_apart(axes)
    return _Edges(starts=edges.starts, runs=edges.runs, owners=edges.owners + first)


def _on_axes(edges: _Edges, axes: _Edges) -> tuple[Places, Owners]:
    """Return where axes cross edges or one another, clearly and not at a glance."""
    if not len(axes.owners):
        return axes.starts, axes.owners
    some = edges.some(np.arange(min(len(edges.owners), MOST_CROSSED)))
    both = _Edges(
        starts=np.concatenate([axes.starts, some.starts]),
        runs=np.concatenate([axes.runs, some.runs]),
        owners=np.concatenate([axes.owners, some.owners]),
    )
    first, second = np.triu_indices(len(both.owners), k=1)
    clear = first < len(axes.owners)
    turn = np.abs((np.conj(both.runs[first]) * both.runs[second]).imag)
    clear &= turn > GLANCING * np.abs(both.runs[first]) * np.abs(both.runs[second])
    return _crossing(both.some(first[clear]), both.some(second[clear]))


def _perpendiculars(edges: _Edges, start: tuple[float, float] | None) -> tuple[Places, Owners]:
    """Return the feet, on the edges themselves, of perpendiculars dropped from the start."""
    if start is None:
        return edges.starts[:0], edges.owners
    share = _share(edges, complex(*start))
    on = np.abs(share - 0.5) <= 0.5
    return (edges.starts + share * edges.runs)[on], edges.owners[on]
