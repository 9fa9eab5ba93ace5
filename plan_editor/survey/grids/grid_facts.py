"""What a grid does to the ground at a place: how long a metre is, and where true north lies.

Both are those of the projection alone. The height of the ground is left out: no plan need know
it, and at 300 m above the sea it is 5 mm in 100 m (a metre becomes 1 - h/R, with R = 6 371 km).
"""

from dataclasses import dataclass
from functools import lru_cache
from math import isfinite, sqrt

from pyproj import Proj
from pyproj.exceptions import ProjError

from plan_editor.errors import CannotUse
from plan_editor.survey.grids.crs import registered
from plan_editor.survey.grids.grid import LOCAL, Grid


@dataclass(frozen=True, slots=True)
class GridFacts:
    """What a grid does to the ground at a place.

    Args:
        scale_factor: metres on the grid to a horizontal metre on the ground at sea level.
        convergence_deg: degrees by which true north lies west of grid north, so that a true
            bearing is the grid bearing and the convergence; negative where it lies east. That
            is the sign of the handbooks (EPSG Guidance Note 7-2, method 9807; PROJ).
        area: what the grid is made for, as the register words it, where the place lies outside
            of that; otherwise empty.
    """

    scale_factor: float
    convergence_deg: float
    area: str = ""


def scale_factor(grid: Grid, east: float, north: float) -> float:
    """Return metres on the grid to a metre on the ground at a place; 1.0 of a local grid.

    The place is told in metres about the plan's origin.

    Raises:
        CannotUse: the place lies where the grid's projection means nothing.
    """
    found = grid_facts(grid, east, north)
    return 1.0 if found is None else found.scale_factor


def convergence_deg(grid: Grid, east: float, north: float) -> float | None:
    """Return by how many degrees true north lies west of grid north; None of a local grid.

    The place is told in metres about the plan's origin.

    Raises:
        CannotUse: the place lies where the grid's projection means nothing.
    """
    found = grid_facts(grid, east, north)
    return None if found is None else found.convergence_deg


def grid_facts(grid: Grid, east: float, north: float) -> GridFacts | None:
    """Return what a grid does to the ground at a place; None of a local grid.

    The place is told in metres about the plan's origin.

    Raises:
        CannotUse: the place lies where the grid's projection means nothing.
    """
    if grid.crs == LOCAL:
        return None
    found = _of_projection(grid.crs, *grid.to_crs(east, north))
    if found is None:
        raise CannotUse(
            f"E {grid.east + east:.0f}, N {grid.north + north:.0f} lies where {grid.crs} has "
            "no meaning, so nothing can be reckoned there. Look where the plan's origin lies."
        )
    return found


@lru_cache(maxsize=256)
def _of_projection(crs: str, east: float, north: float) -> GridFacts | None:
    try:
        # it belongs to one thread, so each answer is kept and not the projection
        projection = Proj(crs)
        longitude, latitude = projection(east, north, inverse=True, errcheck=True)
        factors = projection.get_factors(longitude, latitude, errcheck=True)
    except ProjError:
        return None
    # of a conformal projection both ways are alike, and this is either
    scale = sqrt(factors.areal_scale)
    sound = isfinite(scale) and isfinite(factors.meridian_convergence)
    area = _left(crs, longitude, latitude)
    return GridFacts(scale, factors.meridian_convergence, area) if sound else None


def _left(crs: str, longitude: float, latitude: float) -> str:
    area = registered(crs).area_of_use
    if area is not None and not _holds(area.bounds, longitude, latitude):
        return str(area.name)
    return ""


def _holds(
    bounds: tuple[float, float, float, float], longitude: float, latitude: float
) -> bool:
    west, south, east, north = bounds
    after, before = west <= longitude, longitude <= east
    # an area that goes over the 180th meridian begins east of where it ends
    across = after and before if west <= east else after or before
    return across and south <= latitude <= north
