"""What coordinates look like that lie nowhere near the plan: exchanged, or of another grid."""

from math import hypot, inf
from textwrap import shorten

import numpy as np
from numpy.typing import NDArray

from plan_editor.errors import CannotUse
from plan_editor.survey.grids.crossing import ETRS89, WGS84, area_of, crossed, is_in_degrees
from plan_editor.survey.grids.grid import LOCAL, Grid

Array = NDArray[np.float64]

FAR_M = 100_000.0
"""What lies farther from the plan's origin is refused; a plan reaches no farther."""

NEAR_M = 5_000.0
"""What belongs to a churchyard lies nearer to its plan's origin than this."""

SAME_COUNTRY_M = 1_000_000.0
"""Degrees that lie within this of the plan are taken for degrees."""

_LONG = 120

_DEGREES_OF_GPS = (
    f"{ETRS89} where the receiver took corrections (RTK), or {WGS84} of plain GPS; on the"
    f" command line --crs {ETRS89} or --crs {WGS84}"
)
IN_DEGREES = (
    "These look like latitude and longitude in degrees, and nothing says in which coordinate"
    f" system. Nothing was changed. Say {_DEGREES_OF_GPS}."
)


def misread(xy: Array, *, source: str, grid: Grid) -> str:
    """Return what is wrong with where points lie, as sentences, or "" where nothing is.

    Args:
        xy: shape (n, 2), of the system: east and north, or longitude and latitude.
        source: the system that they are said to be in.
        grid: of the plan.
    """
    middle = np.median(xy, axis=0)
    here = _away(middle, source, grid)
    if here <= NEAR_M:
        return ""
    there = _away(middle[::-1], source, grid)
    if there < min(here, FAR_M) / 2:
        return _exchanged(middle, here, there, degrees=is_in_degrees(source))
    if here <= FAR_M:
        return ""
    return f"{_looks(middle, here, source, grid)} Nothing was changed."


def _away(place: Array, source: str, grid: Grid) -> float:
    """Return how far a place is from the plan's origin in metres; infinite where nowhere."""
    try:
        found = crossed(place.reshape(1, 2), source=source, target=grid.crs)
    except CannotUse:
        return inf
    east, north = grid.to_plan(found.east[0], found.north[0])
    return hypot(east, north)


def _exchanged(middle: Array, here: float, there: float, *, degrees: bool) -> str:
    names = "Latitude and longitude" if degrees else "East and north"
    return (
        f"{names} seem to be exchanged: {_shown(middle)} lies {_distance(here)} from the plan,"
        f" the other way round {_distance(there)}. Nothing was changed. Exchange the columns,"
        " or their names."
    )


def _looks(middle: Array, here: float, source: str, grid: Grid) -> str:
    x, y = middle
    small = max(abs(x), abs(y)) <= 180.0
    if is_in_degrees(source) and not small:
        return (
            f"These look like metres of a grid ({_shown(middle)}), and {source} counts in"
            " degrees. Give the number of the grid, such as EPSG:27700."
        )
    if grid.crs == LOCAL:
        return (
            f"{_shown(middle)} lies {_distance(here)} from the plan's origin, as coordinates of"
            " a national grid would. This plan has a grid of its own, and nobody knows where"
            " that lies. Move the plan to the national grid first."
        )
    if not is_in_degrees(source) and small and _would_do_in_degrees(middle, grid):
        return (
            f"These look like latitude and longitude in degrees ({_shown(middle)}), and"
            f" {source} counts in metres. Say {_DEGREES_OF_GPS}."
        )
    if not is_in_degrees(source) and hypot(x, y) <= FAR_M:
        return (
            f"These look like metres from some origin of their own ({_shown(middle)}), and not"
            f" like coordinates of {source}. Add to them what was taken off, and try again."
        )
    return (
        f"{_shown(middle)} lies {_distance(here)} from the plan. Check the"
        f" coordinate system of the file and of the plan. {source} is made for"
        f" {shorten(area_of(source), _LONG, placeholder='…').rstrip('.')}."
    )


def _would_do_in_degrees(middle: Array, grid: Grid) -> bool:
    ways = (middle, middle[::-1])
    return min(_away(way, ETRS89, grid) for way in ways) <= SAME_COUNTRY_M


def _distance(metres: float) -> str:
    if metres == inf:
        return "nowhere that can be told"
    return f"{metres / 1000:,.0f} km" if metres >= 1000 else f"{metres:.0f} m"


def _shown(middle: Array) -> str:
    places = 5 if np.abs(middle).max() <= 180.0 else 2
    x, y = middle
    return f"{x:.{places}f}, {y:.{places}f}"
