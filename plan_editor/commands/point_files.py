"""Files of points as they are read, and the coordinate system that they are in."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from plan_editor.errors import CannotUse
from plan_editor.exchange.gpx import gpx_points, is_gpx
from plan_editor.exchange.point_columns import Layout, layout_of
from plan_editor.exchange.points import FilePoint, PointFile, points_of
from plan_editor.exchange.tables import Table, read_table
from plan_editor.survey.grids.crossing import is_in_degrees
from plan_editor.survey.grids.crs import checked, registered
from plan_editor.survey.grids.grid import Grid
from plan_editor.survey.grids.misread import IN_DEGREES, misread

SUFFIXES = (".csv", ".txt", ".xlsx", ".gpx")


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """A file that was read, before anybody says what its columns hold.

    Args:
        name: of the file.
        table: its rows; None of a GPX file.
        layout: what its columns seem to hold; None of a GPX file.
        gpx: the points of a GPX file.
    """

    name: str
    table: Table | None = None
    layout: Layout | None = None
    gpx: PointFile | None = None


def look(path: Path) -> Looked:
    """Read a file; the slow half, for any thread.

    Raises:
        CannotRead: it holds nothing that can be used.
    """
    if is_gpx(path):
        return Looked(name=path.name, gpx=gpx_points(path))
    table = read_table(path)
    return Looked(name=path.name, table=table, layout=layout_of(table))


def usual_crs(looked: Looked, grid: Grid) -> str:
    """Return the coordinate system that a file is taken to be in; "" where it must be told."""
    if looked.gpx is not None:
        return looked.gpx.crs
    return "" if looked.layout is not None and looked.layout.degrees else grid.crs


def source_of(crs: str) -> str:
    """Return the name of the system that a file is in; one in degrees will do.

    Args:
        crs: as typed; empty where nobody said.

    Raises:
        CannotUse: nobody said, or it is unknown or of no use on the ground.
    """
    if not crs:
        raise CannotUse(IN_DEGREES)
    plain = "".join(crs.split()).upper()
    name = plain if plain.startswith("EPSG:") else f"EPSG:{plain}"
    if name.removeprefix("EPSG:").isdecimal() and len(name) < 15 and name.isascii():
        name = f"EPSG:{int(name.removeprefix('EPSG:'))}"
        if registered(name).is_geographic:
            return name
    return checked(crs)


def file_of(looked: Looked, grid: Grid, layout: Layout | None, source: str) -> PointFile:
    """Return the points of a file, its columns taken as the system wants them.

    Args:
        looked: the file.
        grid: of the plan.
        layout: what its columns hold.
        source: the system that it is in.

    Raises:
        CannotUse, CannotRead: the file as a whole makes no sense so; the text says what it
            looks like.
    """
    if looked.table is None or layout is None:
        return _gpx(looked, source)
    in_degrees = is_in_degrees(source)
    if layout.degrees and not in_degrees:
        raise CannotUse(
            f"{looked.name} holds latitude and longitude, and {source} counts in metres."
            " Nothing was changed. Say EPSG:4258 where the receiver took corrections (RTK), or"
            " EPSG:4326 of plain GPS."
        )
    if in_degrees and not layout.degrees:
        layout = layout.in_degrees
    file = points_of(looked.table, layout)
    fault = _fault(file, source, grid)
    if fault and in_degrees and layout.guessed:
        # nobody said which is which, and latitude is written first as often as not
        other = points_of(looked.table, layout.exchanged)
        if not _fault(other, source, grid):
            return other
    if fault:
        raise CannotUse(f"{looked.name}: {fault}")
    return file


def places(points: tuple[FilePoint, ...]) -> NDArray[np.float64]:
    """Return where points are, shape (n, 2): east and north, or longitude and latitude."""
    return np.array([(p.x, p.y) for p in points], dtype=np.float64).reshape(-1, 2)


def _gpx(looked: Looked, source: str) -> PointFile:
    if looked.gpx is None or not is_in_degrees(source):
        raise CannotUse(
            f"{looked.name} is a GPX file: its coordinates are latitude and longitude, and"
            f" {source} counts in metres. Nothing was changed. Leave the coordinate system out."
        )
    return looked.gpx


def _fault(file: PointFile, source: str, grid: Grid) -> str:
    return misread(places(file.points), source=source, grid=grid)
