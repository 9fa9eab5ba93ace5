"""What the columns of a point file hold: told by their names, or guessed from the values."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from plan_editor.errors import CannotRead
from plan_editor.exchange.coordinates import degrees_of, is_dressed, metres_of
from plan_editor.exchange.tables import Table, TableRow

ELLIPSOID = "ellipsoid"
"""What heights of satellite receivers are above; no level is."""


class Role(StrEnum):
    """What a column holds, as the user reads it."""

    UNUSED = "not used"
    NAME = "point"
    EAST = "east"
    NORTH = "north"
    LATITUDE = "latitude"
    LONGITUDE = "longitude"
    HEIGHT = "height"
    DATUM = "height above what"
    SD = "deviation (sd)"
    CODE = "code"
    WORDS = "description"
    DATE = "date"


NAMES = {
    Role.NAME: "point pt ptname pointname pointid ptid id name no nr number num station mark",
    Role.EAST: "e east easting eastings x xe ecoord coordx xcoord",
    Role.NORTH: "n north northing northings y yn ncoord coordy ycoord",
    Role.LATITUDE: "lat latitude φ phi",
    Role.LONGITUDE: "lon long lng longitude λ lambda",
    Role.HEIGHT: "h height z ele elev elevation alt altitude level rl reducedlevel hae"
    " ellipsoidalheight ellheight orthometricheight odn hodn",
    Role.DATUM: "datum heightdatum leveldatum above vertical verticaldatum",
    Role.SD: "sd stdev std sigma accuracy acc precision hrms rms hacc haccuracy sde sdn sdeast"
    " sdnorth standarddeviation sdm",
    Role.CODE: "code codes feature featurecode type kind what",
    Role.WORDS: "description desc remark remarks comment note notes words text",
    Role.DATE: "date day time datetime utc when observed measured",
}
"""Names of columns, in small letters and without blanks, for each thing that one may hold."""

UNITS = {"": 1.0, "m": 1.0, "metres": 1.0, "meters": 1.0, "mm": 0.001, "cm": 0.01, "km": 1000.0}
"""Metres to each unit that may stand in brackets after the name of a column."""

_ANGLES = frozenset({"deg", "degrees", "°", "dms", "dd", "decimal degrees"})
_BY_NAME = {word: role for role, words in NAMES.items() for word in words.split()}
_MEASURED = frozenset({Role.EAST, Role.NORTH, Role.HEIGHT, Role.SD})
Cells = tuple[str, ...]

ON_GRID = frozenset({Role.EAST, Role.NORTH})
ON_GLOBE = frozenset({Role.LATITUDE, Role.LONGITUDE})
_EXCHANGED = {
    Role.EAST: Role.NORTH,
    Role.NORTH: Role.EAST,
    Role.LATITUDE: Role.LONGITUDE,
    Role.LONGITUDE: Role.LATITUDE,
}
_LOOKED_AT = 50  # rows
_MOST = 0.7  # of the rows must read as what a column is taken for
_BRACKETS = re.compile(r"[(\[]\s*(.*?)\s*[)\]]")
_ABOVE = re.compile(r"\babove\s+(.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """What the columns hold.

    Args:
        roles: of each column.
        names: of each column, as the file has them; empty where it has none.
        first: the place in the table of the first row with a point.
        guessed: whether no row names the columns.
        factors: metres to the unit of each column.
        datum: what heights are above, where the name of their column says so.
        spare: the roles with latitude and longitude, of a file that has both sorts of
            coordinates.
    """

    roles: tuple[Role, ...]
    names: tuple[str, ...]
    first: int
    guessed: bool
    factors: tuple[float, ...]
    datum: str = ""
    spare: tuple[Role, ...] = ()

    @property
    def degrees(self) -> bool:
        """Whether it holds latitude and longitude."""
        return Role.LATITUDE in self.roles

    @property
    def in_degrees(self) -> "Layout":
        """The same, its coordinates taken as degrees: X is longitude, Y is latitude."""
        if self.spare:
            return replace(self, roles=self.spare, spare=())
        turned = {Role.EAST: Role.LONGITUDE, Role.NORTH: Role.LATITUDE}
        return replace(self, roles=tuple(turned.get(r, r) for r in self.roles))

    @property
    def exchanged(self) -> "Layout":
        """The same, its two coordinates exchanged."""
        return replace(self, roles=tuple(_EXCHANGED.get(r, r) for r in self.roles))


def layout_of(table: Table) -> Layout:
    """Return what the columns of a table hold.

    Raises:
        CannotRead: no two of them can be coordinates, a name is there twice, or a unit is none
            that is known.
    """
    width = max(len(row.cells) for row in table.rows)
    for at, row in enumerate(table.rows[:_LOOKED_AT]):
        roles = _told_apart(tuple(_role(cell) for cell in _wide(row, width)))
        if set(roles) >= ON_GRID or set(roles) >= ON_GLOBE:
            return _named(table, row, roles, first=at + 1)
    return _guessed(table, width)


def missing(roles: Sequence[Role]) -> str:
    """Return what keeps columns from being those of points, as a sentence, or ""."""
    twice = [r for r in dict.fromkeys(roles) if roles.count(r) > 1]
    if bad := [r for r in twice if r not in (Role.UNUSED, Role.SD, Role.WORDS)]:
        return f"Two columns are called {bad[0]}."
    if (ON_GRID | ON_GLOBE) & set(roles) in (ON_GRID, ON_GLOBE):
        return ""
    return "Wanted are two columns: east and north, or latitude and longitude."


def _told_apart(roles: tuple[Role, ...]) -> tuple[Role, ...]:
    """Return roles with a first column “n” as the number, where it cannot be the north."""
    is_north = roles.count(Role.NORTH) == 1 and Role.EAST in roles
    if roles[0] is not Role.NORTH or is_north or Role.NAME in roles:
        return roles
    return (Role.NAME, *roles[1:])


def _named(table: Table, row: TableRow, roles: tuple[Role, ...], *, first: int) -> Layout:
    cells = _wide(row, len(roles))
    place = f"{table.name}, line {row.line}"
    both = set(roles) >= ON_GRID | ON_GLOBE
    kept = _without(roles, ON_GLOBE) if both else roles
    if fault := missing(kept):
        raise CannotRead(f"{place}: {fault} Nothing was read. Give each a name of its own.")
    height = next((c for c, r in zip(cells, roles, strict=True) if r is Role.HEIGHT), "")
    return Layout(
        roles=kept,
        names=cells,
        first=first,
        guessed=False,
        factors=tuple(_factor(c, r, place) for c, r in zip(cells, roles, strict=True)),
        datum=_datum(height),
        spare=_without(roles, ON_GRID) if both else (),
    )


def _without(roles: tuple[Role, ...], others: frozenset[Role]) -> tuple[Role, ...]:
    return tuple(Role.UNUSED if role in others else role for role in roles)


def _wide(row: TableRow, width: int) -> tuple[str, ...]:
    return row.cells + ("",) * (width - len(row.cells))


def _role(cell: str) -> Role:
    bare = _ABOVE.sub("", _BRACKETS.sub("", cell.casefold()))
    bare = "".join(c for c in bare if c.isalnum())
    for unit in ("", "degrees", "deg", "metres", "mm", "m"):
        if bare.endswith(unit) and (found := _BY_NAME.get(bare.removesuffix(unit))):
            return found
    return Role.UNUSED


def _factor(cell: str, role: Role, place: str) -> float:
    """Return metres to the unit of a column.

    Raises:
        CannotRead: it is none that is known.
    """
    found = _BRACKETS.search(cell)
    unit = found[1].casefold() if found else ""
    if role not in _MEASURED or unit in UNITS:
        return UNITS.get(unit, 1.0)
    if role is Role.HEIGHT and not unit.startswith(("ft", "feet", "foot", "us")):
        return 1.0  # what stands there is what it is above
    if unit in _ANGLES:
        raise CannotRead(
            f"{place}: “{cell}” says degrees, and {role} is in metres. Nothing was read. Call"
            " the columns latitude and longitude."
        )
    raise CannotRead(
        f"{place}: “{cell}” is in a unit that is not taken here. Nothing was read. Feet come in"
        " several lengths: save the file in metres from the program that it comes from."
    )


def _datum(cell: str) -> str:
    """Return what the name of a column says that heights are above."""
    low = cell.casefold()
    if "ellips" in low or "hae" in low.split():
        return ELLIPSOID
    if "odn" in low:
        return "Ordnance Datum Newlyn"
    if found := _ABOVE.search(_BRACKETS.sub(_unless_unit, cell)):
        return found[1].strip()
    bracket = _BRACKETS.search(cell)
    return bracket[1] if bracket and bracket[1].casefold() not in UNITS else ""


def _unless_unit(found: re.Match[str]) -> str:
    return "" if found[1].casefold() in UNITS else found[1]


def _guessed(table: Table, width: int) -> Layout:
    """Return what columns without names hold, by the usual order: point, east, north, height.

    Raises:
        CannotRead: no two of them can be coordinates.
    """
    rows = [_wide(row, width) for row in table.rows]
    first = next((n for n, row in enumerate(rows) if sum(map(_is_number, row)) >= 2), 0)
    columns = list(zip(*rows[first : first + _LOOKED_AT], strict=True))
    roles = tuple(_roles(columns))
    if fault := missing(roles):
        raise CannotRead(
            f"{table.name}: no two columns of numbers that can be coordinates were found."
            f" Nothing was read. {fault} Put names over them: point, E, N, height, code."
        )
    return Layout(
        roles=roles,
        names=("",) * width,
        first=first,
        guessed=True,
        factors=(1.0,) * width,
    )


def _roles(columns: Sequence[Cells]) -> Iterator[Role]:
    numeric = [_is_column_of_numbers(c) for c in columns]
    named = _has_names(columns, numeric)
    numbers = [c for c, fits in zip(columns, numeric, strict=True) if fits]
    of_numbers = iter(_order(numbers[named and numeric[0] :]))
    of_texts = iter((Role.CODE, Role.WORDS))
    for at, column in enumerate(columns):
        if at == 0 and named:
            yield Role.NAME
        elif numeric[at]:
            yield next(of_numbers, Role.UNUSED)
        else:
            yield next(of_texts, Role.UNUSED) if any(column) else Role.UNUSED


def _has_names(columns: Sequence[Cells], numeric: Sequence[bool]) -> bool:
    """Return whether the first column names the points."""
    first = columns[0]
    whole = all(cell.isdigit() for cell in first if cell)
    running = whole and sum(numeric) >= 3 and len(set(first)) == len(first)
    return running or not numeric[0]


def _order(numbers: Sequence[Cells]) -> tuple[Role, ...]:
    """Return what the columns of numbers hold, from the left."""
    pair = (Role.EAST, Role.NORTH)
    if any(is_dressed(cell) for column in numbers[:2] for cell in column):
        pair = (Role.LATITUDE, Role.LONGITUDE)
        if {"E", "W"} & {degrees_of(cell)[1] for cell in numbers[0] if is_dressed(cell)}:
            pair = (Role.LONGITUDE, Role.LATITUDE)
    small = len(numbers) > 3 and all(
        0.0 <= metres_of(c) < 1.0 for c in numbers[3] if _is_metres(c)
    )
    return (*pair, Role.HEIGHT, Role.SD if small else Role.UNUSED)


def _is_column_of_numbers(column: Cells) -> bool:
    told = [cell for cell in column if cell]
    return bool(told) and sum(map(_is_number, told)) >= _MOST * len(told)


def _is_number(cell: str) -> bool:
    return _is_metres(cell) or is_dressed(cell)


def _is_metres(cell: str) -> bool:
    try:
        metres_of(cell)
    except ValueError:
        return False
    return True
