"""Coordinate systems by their EPSG numbers: which can be used, and what they are called."""

import re
from dataclasses import dataclass
from functools import cache

import pyproj
from pyproj.exceptions import CRSError

from plan_editor.errors import CannotUse
from plan_editor.survey.grids.grid import LOCAL

LOCAL_SRS_ID = -1
"""Of a plain local grid: undefined Cartesian. Source: OGC 12-128r18 (GeoPackage), req. 11."""

NOT_ON_THE_GROUND = "Popular Visualisation Pseudo Mercator"
"""A metre of this projection, EPSG method 1024, is 0.6 m on the ground in Britain."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CrsFacts:
    """What is recorded of a coordinate system.

    Args:
        name: ``OSGB36 / British National Grid``.
        srs_id: its number in the EPSG register, or -1 of a local grid.
        wkt: its definition as well-known text (version 1; 2 where 1 cannot say it), or
            ``undefined``.
        unit_factor: metres to its unit; 1 of all that are allowed here.
    """

    name: str
    srs_id: int
    wkt: str
    unit_factor: float


def checked(text: str) -> str:
    """Return the name of a coordinate system as plans write it: ``local`` or ``EPSG:27700``.

    Args:
        text: as typed; capitals, blanks and a missing ``EPSG:`` do not matter.

    Raises:
        CannotUse: it is unknown, in degrees, or not in metres east and north.
    """
    plain = "".join(text.split()).casefold()
    if plain == LOCAL:
        return LOCAL
    number = re.fullmatch(r"(?:epsg:)?(\d{1,9})", plain, re.ASCII)
    if number is None:
        raise CannotUse(
            f"“{text.strip()}” names no coordinate system, and nothing was changed. Write "
            "local, or a number from the EPSG register such as EPSG:27700."
        )
    name = f"EPSG:{int(number[1])}"
    _refuse_unsuited(name, registered(name))
    return name


def described(crs: str) -> CrsFacts:
    """Return what is recorded of a coordinate system that was ``checked``.

    Raises:
        CannotUse: it is unknown, in degrees, or not in metres east and north.
    """
    if checked(crs) == LOCAL:
        return CrsFacts(
            name="Local grid", srs_id=LOCAL_SRS_ID, wkt="undefined", unit_factor=1.0
        )
    found = registered(checked(crs))
    return CrsFacts(
        name=found.name,
        srs_id=int(checked(crs).removeprefix("EPSG:")),
        wkt=_well_known_text(found),
        unit_factor=found.axis_info[0].unit_conversion_factor,
    )


@cache
def registered(name: str) -> pyproj.CRS:
    """Return the coordinate system of a name such as ``EPSG:27700``, whatever it counts in.

    Raises:
        CannotUse: it is unknown.
    """
    try:
        return pyproj.CRS.from_user_input(name)
    except CRSError as fault:
        raise CannotUse(
            f"The EPSG register, as installed here, has no coordinate system {name}; nothing "
            "was changed. Look the number up, or write local."
        ) from fault


def _well_known_text(found: pyproj.CRS) -> str:
    try:
        return found.to_wkt("WKT1_GDAL")
    except CRSError:
        return found.to_wkt("WKT2_2019")


def _refuse_unsuited(name: str, found: pyproj.CRS) -> None:
    ways = sorted(axis.direction for axis in found.axis_info)
    if not found.is_projected or ways != ["east", "north"]:
        raise _unsuited(name, found, "is not a flat grid of eastings and northings")
    if any(axis.unit_conversion_factor != 1 for axis in found.axis_info):
        raise _unsuited(name, found, f"counts in {found.axis_info[0].unit_name}, not in metres")
    operation = found.coordinate_operation
    if operation is not None and operation.method_name == NOT_ON_THE_GROUND:
        raise _unsuited(name, found, "counts in metres that are not metres on the ground")


def _unsuited(name: str, found: pyproj.CRS, because: str) -> CannotUse:
    return CannotUse(
        f"{name} ({found.name}) {because}; nothing was changed. "
        "Choose a projected system in metres such as EPSG:27700, or local."
    )
