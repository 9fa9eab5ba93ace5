"""Points as a file has them: names, coordinates, heights, codes, one a line."""

from collections.abc import Iterator
from dataclasses import dataclass

from plan_editor.errors import CannotRead
from plan_editor.exchange.coordinates import degrees_of, metres_of
from plan_editor.exchange.point_columns import Layout, Role
from plan_editor.exchange.tables import Table, TableRow
from plan_editor.plan.values import is_date

MOST_POINTS = 100_000
"""A file with more is no survey of a churchyard."""

_TOO_MANY_FAULTS = 0.5
"""Where more of the lines cannot be read, the columns are not what they are taken for."""

_WORST_SD_M = 1000.0
_HIGHEST_M = 9000.0
_LETTERS = {Role.LATITUDE: ("", "N", "S"), Role.LONGITUDE: ("", "E", "W")}


@dataclass(frozen=True, slots=True, kw_only=True)
class FilePoint:
    """One point.

    Args:
        line: of the file, from 1.
        name: empty where it has none.
        x, y: east and north in metres, or longitude and latitude in degrees.
        height: in metres, or None.
        datum: what the height is above; empty where the file does not say.
        sd_m: standard deviation of east and of north, in metres, or None.
        code: as it stands in the file.
        words: a description.
        date: ISO date, or empty.
        joined: whether the file itself joins it to its neighbours, as a track.
    """

    line: int
    name: str = ""
    x: float
    y: float
    height: float | None = None
    datum: str = ""
    sd_m: float | None = None
    code: str = ""
    words: str = ""
    date: str = ""
    joined: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PointFile:
    """The points of a file.

    Args:
        name: of the file.
        points: in the order of the file.
        degrees: whether they are longitudes and latitudes.
        left_out: lines that could not be read, each as a sentence.
        crs: the coordinate system, where the file says which.
        taken: what was taken where the file does not say, each as a sentence.
    """

    name: str
    points: tuple[FilePoint, ...]
    degrees: bool
    left_out: tuple[str, ...] = ()
    crs: str = ""
    taken: tuple[str, ...] = ()


def points_of(table: Table, layout: Layout) -> PointFile:
    """Return the points of a table.

    A line that cannot be read is left out, and said.

    Raises:
        CannotRead: there is none, there are too many, or most lines cannot be read.
    """
    rows = table.rows[layout.first :]
    if len(rows) > MOST_POINTS:
        raise CannotRead(
            f"{table.name} has {len(rows):,} lines; {MOST_POINTS:,} points are the most."
            " Nothing was read. Keep only those of the churchyard."
        )
    points: list[FilePoint] = []
    faults: list[str] = []
    for row in rows:
        try:
            points.append(_point(row, layout))
        except ValueError as fault:
            faults.append(f"Line {row.line} was left out: {fault}.")
    if len(faults) > _TOO_MANY_FAULTS * len(rows) or not points:
        raise _unreadable(table, faults)
    return PointFile(
        name=table.name,
        points=tuple(points),
        degrees=layout.degrees,
        left_out=tuple(faults),
    )


def day_of(text: str) -> str:
    """Return the day of a date and time in ISO form; "" of any other."""
    day = text[:10]
    return day if len(day) == 10 and is_date(day) else ""


def _unreadable(table: Table, faults: list[str]) -> CannotRead:
    if not faults:
        return CannotRead(f"{table.name} holds no points under its header. Nothing was read.")
    return CannotRead(
        f"{table.name}: most lines cannot be read as points. Nothing was read. {faults[0]}"
        " Check which column is which."
    )


def _point(row: TableRow, layout: Layout) -> FilePoint:
    """Return the point of a row.

    Raises:
        ValueError: its coordinates, height or standard deviation cannot be read.
    """
    told = dict(_told(row, layout))
    x, y = _place(told, degrees=layout.degrees)
    height = _height(told.get(Role.HEIGHT, ()))
    datum = _first(told, Role.DATUM) or layout.datum
    return FilePoint(
        line=row.line,
        name=_first(told, Role.NAME),
        x=x,
        y=y,
        height=height,
        datum="" if height is None else datum,
        sd_m=_sd(told.get(Role.SD, ())),
        code=_first(told, Role.CODE),
        words=" ".join(text for text, _ in told.get(Role.WORDS, ())),
        date=day_of(_first(told, Role.DATE)),
    )


Cell = tuple[str, float]
"""What stands in a cell, and metres to the unit of its column."""


def _told(row: TableRow, layout: Layout) -> Iterator[tuple[Role, tuple[Cell, ...]]]:
    cells = [
        (role, (cell, factor))
        for role, cell, factor in zip(layout.roles, row.cells, layout.factors, strict=False)
        if cell
    ]
    for role in Role:
        if held := tuple(cell for r, cell in cells if r is role):
            yield role, held


def _first(told: dict[Role, tuple[Cell, ...]], role: Role) -> str:
    return told[role][0][0] if role in told else ""


def _place(told: dict[Role, tuple[Cell, ...]], *, degrees: bool) -> tuple[float, float]:
    pair = (Role.LONGITUDE, Role.LATITUDE) if degrees else (Role.EAST, Role.NORTH)
    if lacking := [role for role in pair if role not in told]:
        raise ValueError(f"it has no {lacking[0]}")
    x, y = (_coordinate(role, told[role][0]) for role in pair)
    return x, y


def _coordinate(role: Role, cell: Cell) -> float:
    text, factor = cell
    if role not in _LETTERS:
        return metres_of(text) * factor
    angle, letter = degrees_of(text)
    if letter not in _LETTERS[role]:
        raise ValueError(f"“{text}” stands under {role}")
    return angle


def _height(cells: tuple[Cell, ...]) -> float | None:
    if not cells:
        return None
    ((text, factor),) = cells
    height = metres_of(text) * factor
    if abs(height) > _HIGHEST_M:
        raise ValueError(f"a height of {height:g} m is none on the earth")
    return height


def _sd(cells: tuple[Cell, ...]) -> float | None:
    """Return the greatest of those that are told; of east and of north, perhaps."""
    found = [metres_of(text) * factor for text, factor in cells]
    if not all(0.0 <= sd <= _WORST_SD_M for sd in found):
        raise ValueError(f"a standard deviation of {max(found, key=abs):g} m is none")
    return max(found, default=None)
