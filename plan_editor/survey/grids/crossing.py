"""Points taken from one coordinate system to another, and how well that is known.

The British National Grid is reached from ETRS89 by OSTN15, the transformation of the Ordnance
Survey that defines it, to the millimetre. All other ways are those of the EPSG register, with
the accuracy that stands there. A way whose accuracy nobody has stated is never taken.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
import pyproj
from convertbng import cutil
from numpy.typing import NDArray
from pyproj.aoi import AreaOfUse
from pyproj.exceptions import ProjError

from plan_editor.errors import CannotUse
from plan_editor.survey.grids.crs import registered
from plan_editor.survey.grids.grid import LOCAL

Array = NDArray[np.float64]
Turn = Callable[[Array], Array]

NATIONAL_GRID = "EPSG:27700"
ETRS89 = "EPSG:4258"
"""Latitude and longitude as receivers give them that take corrections in Europe (RTK)."""

WGS84 = "EPSG:4326"
"""Latitude and longitude of plain GPS."""

OSTN15 = "OSTN15"

WORTH_SAYING_M = 0.1
"""A way that is worse than this, in metres, is said."""

DRIFT = (
    "The file says WGS 84. ETRS89, on which the maps of Europe rest, has moved about 0.9 m away"
    " from it since 1989. A receiver that takes corrections (RTK) mostly gives ETRS89: if yours"
    f" did, take the coordinate system {ETRS89} instead, and nothing is lost."
)
"""2.5 cm a year, the motion of the European plate. Source: common knowledge of the trade (the
definition of ETRS89 ties it to that plate at 1989.0)."""


_EARTH = AreaOfUse(-180.0, -90.0, 180.0, 90.0, "the Earth")


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossed:
    """Points in the other system, shape (n,) each.

    Args:
        east, north: metres; degrees of longitude and latitude where that system counts so.
        accuracy_m: of the way to there, point by point; 0 where it is exact by definition.
        by: the way, as the register calls it; empty where there was none to go.
        warnings: whole sentences.
    """

    east: Array
    north: Array
    accuracy_m: Array
    by: str
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way: places, nan where it does not lead, and its accuracy in metres."""

    xy: Array
    accuracy_m: float
    by: str


def is_in_degrees(crs: str) -> bool:
    """Return whether a system counts in degrees; ``local`` does not.

    Raises:
        CannotUse: it is unknown.
    """
    return crs != LOCAL and registered(crs).is_geographic


def crossed(xy: Array, *, source: str, target: str) -> Crossed:
    """Take points from one system to another.

    Args:
        xy: shape (n, 2): east and north, or longitude and latitude in degrees, in that order.
        source: ``EPSG:n`` of any system on the ground, in degrees or metres.
        target: the same.

    Raises:
        CannotUse: one of them is unknown, is ``local``, or no way of known accuracy leads from
            one to the other, there.
    """
    if source == target:
        return _as_it_is(xy)
    if LOCAL in (source, target):
        raise CannotUse(
            "Nobody knows where a local grid lies: no way leads to it or from it. Nothing was"
            " changed. Measure some of the plan's marks in both, and move the plan."
        )
    return _best(_ways(xy, source, target), source, target)


def outside(xy: Array, crs: str) -> NDArray[np.bool_]:
    """Return which points, shape (n, 2), lie outside the area that a system is made for."""
    area = registered(crs).area_of_use or _EARTH
    lon, lat = _to_degrees(xy, _flat(crs)).T
    between = (area.west <= lon) & (lon <= area.east)
    across = (area.west <= lon) | (lon <= area.east)  # the area holds the 180th meridian
    inside: NDArray[np.bool_] = between if area.west <= area.east else across
    inside &= (area.south <= lat) & (lat <= area.north)
    return ~inside


def area_of(crs: str) -> str:
    """Return what area a system is made for, as the register words it."""
    return str((registered(crs).area_of_use or _EARTH).name)


def _as_it_is(xy: Array) -> Crossed:
    east, north = xy.T
    exact = np.zeros(len(xy))
    return Crossed(east=east, north=north, accuracy_m=exact, by="", warnings=())


def _ways(xy: Array, source: str, target: str) -> list[_Way]:
    found = [_by_register(xy, _flat(source), _flat(target))]
    if target == NATIONAL_GRID:
        found.append(_then(_by_register(xy, _flat(source), _flat(ETRS89)), _to_grid))
    elif source == NATIONAL_GRID:
        there = _by_register(_from_grid(xy), _flat(ETRS89), _flat(target))
        found.append(there and replace(there, by=_joined(OSTN15, there.by)))
    return [way for way in found if way is not None]


def _then(way: _Way | None, turn: Turn) -> _Way | None:
    return way and replace(way, xy=turn(way.xy), by=_joined(way.by, OSTN15))


def _joined(*parts: str) -> str:
    return " + ".join(part for part in parts if part)


def _to_grid(lonlat: Array) -> Array:
    return np.column_stack(cutil.convert_bng(lonlat[:, 0], lonlat[:, 1]))


def _from_grid(en: Array) -> Array:
    return np.column_stack(cutil.convert_lonlat(en[:, 0], en[:, 1]))


def _flat(crs: str) -> pyproj.CRS:
    """Return a system without its heights."""
    return registered(crs).to_2d()


def _by_register(xy: Array, source: pyproj.CRS, target: pyproj.CRS) -> _Way | None:
    """Return the way that the register prefers there; None where it states no accuracy."""
    if source == target:
        return _Way(xy=xy, accuracy_m=0.0, by="")
    try:
        way = pyproj.Transformer.from_crs(source, target, always_xy=True, allow_ballpark=False)
    except ProjError:
        return None
    known = xy[np.isfinite(xy).all(axis=1)]
    if not len(known):
        return None
    one = _settled(way, np.median(known, axis=0))
    if one.accuracy < 0.0:
        return None
    there = np.column_stack(one.transform(xy[:, 0], xy[:, 1]))
    there[~np.isfinite(there).all(axis=1)] = np.nan
    return _Way(xy=there, accuracy_m=float(one.accuracy), by=_named(one.description))


def _settled(way: pyproj.Transformer, middle: Array) -> pyproj.Transformer:
    """Return the one way, of several that a transformer may choose from, for all points."""
    way.transform(*middle)
    try:
        return way.get_last_used_operation()
    except ProjError:  # there was only one
        return way


def _named(description: str) -> str:
    parts = description.split(" + ")
    return " + ".join(p for p in parts if not p.startswith("axis order change"))


def _to_degrees(xy: Array, system: pyproj.CRS) -> Array:
    """Return points in longitude and latitude of the system's own datum."""
    if system.is_geographic:
        return xy
    return np.column_stack(pyproj.Proj(system)(xy[:, 0], xy[:, 1], inverse=True))


def _best(ways: list[_Way], source: str, target: str) -> Crossed:
    """Return for each point the most accurate of the ways that lead there."""
    if not ways:
        raise _no_way(source, target)
    leads = [np.isfinite(w.xy).all(axis=1) for w in ways]
    cost = np.array(
        [np.where(a, w.accuracy_m, np.inf) for w, a in zip(ways, leads, strict=True)]
    )
    which = cost.argmin(axis=0)
    each = np.arange(cost.shape[1])
    accuracy = cost[which, each]
    if np.isinf(accuracy).any():
        raise _no_way(source, target)
    east, north = np.array([w.xy for w in ways])[which, each].T
    told = partial(_told, source=source, target=target)
    used = [(way, int((which == n).sum())) for n, way in enumerate(ways)]
    used = [(way, count) for way, count in used if count]
    return Crossed(
        east=east,
        north=north,
        accuracy_m=accuracy,
        by=", or ".join(way.by for way, _ in used),
        warnings=(
            *(told(way, count) for way, count in used if way.accuracy_m > WORTH_SAYING_M),
            *((DRIFT,) if any(_drifts(way, source) for way, _ in used) else ()),
        ),
    )


def _told(way: _Way, count: int, *, source: str, target: str) -> str:
    points = "1 point comes" if count == 1 else f"{count} points come"
    beyond = ""
    if NATIONAL_GRID in (source, target) and OSTN15 not in way.by:
        beyond = f" {OSTN15}, the exact way, does not lead there."
    return (
        f"{points} from {source} to {target} by “{way.by}”, which the EPSG register calls good"
        f" to {way.accuracy_m:g} m.{beyond}"
    )


def _drifts(way: _Way, source: str) -> bool:
    system = registered(source).geodetic_crs
    return "World Geodetic System 1984" in str(system and system.datum) and "ETRS89" in way.by


def _no_way(source: str, target: str) -> CannotUse:
    return CannotUse(
        f"No way whose accuracy is known leads from {source} ({registered(source).name}) to"
        f" {target} ({registered(target).name}) there. Nothing was changed. Check the number of"
        " the coordinate system, and that the numbers are not exchanged."
    )
