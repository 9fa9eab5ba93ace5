"""Where a thing lies, as numbers that can be typed over: a point, a rectangle, corners."""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.errors import CannotUse
from plan_editor.geometry import bearings, lengths
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form
from plan_editor.survey.grids.grid import Grid

Place = BaseGeometry | Rectangle

MOST_CORNERS = 200
"""More corners than this are not listed: nobody types them."""

_COORDINATE = re.compile(r"[+-]?\d+([.,]\d+)?", re.ASCII)
_BLANKS = re.compile(r"[\s\u202f\u00a0]")


class HeldBy(StrEnum):
    """By which of its places a rectangle is told, and which stays when its size is changed."""

    CORNER = "by a corner"
    MIDDLE = "by the middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Numeral:
    """One number of a place: its name, title and unit, and as it is written now."""

    name: str
    title: str
    unit: str
    text: str
    help: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """One corner of a line or an area, in the plan's coordinate system.

    Args:
        name: its number, with the hole or the part it belongs to: ``hole 1, 3``.
        east, north: as they are written.
    """

    name: str
    east: str
    north: str


def numerals(item: Item[Any], grid: Grid, held: HeldBy) -> tuple[Numeral, ...]:
    """Return the numbers of a point or a rectangle; of others none, which have corners."""
    if item.kind.pinned:
        return ()
    if (rectangle := item.rectangle) is not None:
        return (
            *_coordinates(*_held_at(rectangle, held), grid),
            Numeral(
                name="width",
                title=_side_titles(item)[0],
                unit="m",
                text=f"{rectangle.width:.3f}",
                help="From the corner along the bearing. Feet and inches will do: 4' 0\".",
            ),
            Numeral(
                name="length",
                title=_side_titles(item)[1],
                unit="m",
                text=f"{rectangle.length:.3f}",
                help="Square to it, to the right. Feet and inches will do: 9' 0\".",
            ),
            Numeral(
                name="bearing",
                title="Bearing",
                unit="°",
                text=f"{bearings.normal(round(rectangle.bearing_deg, 4)):.10g}",
                help="Of the side at the corner, clockwise from grid north.",
            ),
        )
    if item.form is Form.POINT and item.shape is not None:
        ((east, north),) = shapely.get_coordinates(item.shape).tolist()
        return _coordinates(east, north, grid)
    return ()


def with_numeral(item: Item[Any], grid: Grid, held: HeldBy, name: str, typed: str) -> Place:
    """Return where an item lies with one of its numbers typed over.

    Raises:
        CannotUse: it is no number of that sort; the text says what can be written.
    """
    if (rectangle := item.rectangle) is not None:
        return _rectangle_with(rectangle, grid, held, name, typed)
    ((east, north),) = shapely.get_coordinates(item.shape).tolist()
    if name == "east":
        return shapely.Point(coordinate(typed, grid.east), north)
    return shapely.Point(east, coordinate(typed, grid.north))


def corners(item: Item[Any], grid: Grid) -> tuple[Corner, ...]:
    """Return the corners of a line or an area; none where it has more than can be typed."""
    if item.kind.pinned or item.rectangle is not None or item.form is Form.POINT:
        return ()
    runs = _runs(item.shape)
    if sum(len(run) for _, run in runs) > MOST_CORNERS:
        return ()
    return tuple(
        Corner(
            name=f"{named}{number}",
            east=f"{east + grid.east:.3f}",
            north=f"{north + grid.north:.3f}",
        )
        for named, run in runs
        for number, (east, north) in enumerate(run, 1)
    )


def with_corner(item: Item[Any], grid: Grid, number: int, name: str, typed: str) -> Place:
    """Return where an item lies with one coordinate of a corner typed over.

    Args:
        item: a line or an area.
        grid: of the plan.
        number: which of ``corners``, from 0.
        name: ``east`` or ``north``.
        typed: the new coordinate.

    Raises:
        CannotUse: it is no coordinate.
    """
    axis = 0 if name == "east" else 1
    value = coordinate(typed, (grid.east, grid.north)[axis])
    shape: Any = item.shape
    every = shapely.get_coordinates(shape)
    rows = [row for start, run in _starts(shape) for row in range(start, start + len(run))]
    place = rows[number]
    changed = every.copy()
    changed[place, axis] = value
    for start, run in _starts(shape):
        if place == start and shape.geom_type != "LineString":
            changed[start + len(run), axis] = value  # a ring ends where it begins
    made: BaseGeometry = shapely.transform(shape, lambda _: changed)
    return made


def coordinate(typed: str, origin: float) -> float:
    """Return a coordinate of the system as metres about the plan's origin.

    Raises:
        CannotUse: it is none, or lies too far from the plan.
    """
    bare = _BLANKS.sub("", typed)
    if not _COORDINATE.fullmatch(bare):
        raise CannotUse("Write a coordinate in metres, such as 553112.48. Nothing was changed.")
    metres = float(bare.replace(",", ".")) - origin
    if abs(metres) > FARTHEST:
        raise CannotUse(
            f"That lies {abs(metres) / 1000:,.0f} km from the plan's origin. Nothing was"
            " changed. Look whether a digit is too many."
        )
    return round(metres, 3)


def _rectangle_with(
    rectangle: Rectangle, grid: Grid, held: HeldBy, name: str, typed: str
) -> Rectangle:
    east, north = _held_at(rectangle, held)
    match name:
        case "east":
            return rectangle.moved(coordinate(typed, grid.east) - east, 0.0)
        case "north":
            return rectangle.moved(0.0, coordinate(typed, grid.north) - north)
        case "bearing":
            made = replace(rectangle, bearing_deg=_read(bearings.read, typed))
        case "width":
            made = replace(rectangle, width=_length(typed))
        case _:
            made = replace(rectangle, length=_length(typed))
    there = _held_at(made, held)
    return made.moved(east - there[0], north - there[1])


def _length(typed: str) -> float:
    length = _read(lengths.metres, typed)
    if not 0.001 <= length <= FARTHEST:
        raise CannotUse("A side is at least a millimetre long. Nothing was changed.")
    return length


def _read(reader: Callable[[str], float], typed: str) -> float:
    try:
        return reader(typed)
    except ValueError as unread:
        raise CannotUse(f"{unread} Nothing was changed.") from unread


def _held_at(rectangle: Rectangle, held: HeldBy) -> tuple[float, float]:
    return rectangle.centre if held is HeldBy.MIDDLE else (rectangle.east, rectangle.north)


def _coordinates(east: float, north: float, grid: Grid) -> tuple[Numeral, Numeral]:
    e, n = grid.to_crs(east, north)
    where = "In the coordinate system of the plan."
    return (
        Numeral(name="east", title="E", unit="m", text=f"{e:.3f}", help=where),
        Numeral(name="north", title="N", unit="m", text=f"{n:.3f}", help=where),
    )


def _side_titles(item: Item[Any]) -> tuple[str, str]:
    return ("Head line", "Length") if item.kind.look.head_bar else ("Face", "Depth")


def _starts(shape: BaseGeometry | None) -> list[tuple[int, np.ndarray[Any, Any]]]:
    """Return each line or ring, without its closing corner, with the row it begins at."""
    found, row = [], 0
    for line in _lines(shape):
        every = shapely.get_coordinates(line)
        closed = shape is not None and shape.geom_type != "LineString"
        found.append((row, every[:-1] if closed else every))
        row += len(every)
    return found


def _runs(shape: BaseGeometry | None) -> list[tuple[str, np.ndarray[Any, Any]]]:
    """Return the corners of each line or ring, with what goes before their numbers."""
    names = []
    many = shapely.get_num_geometries(shape) > 1
    for part, polygon in enumerate(shapely.get_parts(shape), 1):
        before = f"part {part}, " if many else ""
        names.append(before)
        holes = shapely.get_num_interior_rings(polygon)
        names += [f"{before}hole {n}, " for n in range(1, holes + 1)]
    return [(name, run) for name, (_, run) in zip(names, _starts(shape), strict=True)]


def _lines(shape: BaseGeometry | None) -> list[BaseGeometry]:
    if shape is not None and shape.geom_type == "LineString":
        return [shape]
    return list(shapely.get_rings(shapely.get_parts(shape)))
