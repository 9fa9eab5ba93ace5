"""Graves in lettered rows, an area for ashes, and one vault."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from math import sin
from random import Random
from typing import Any

import shapely
from fittings import HEAP, VAULT, services_ground
from shapely import Polygon
from shapely.geometry.base import BaseGeometry
from story import AS_DUG, HEAD_LINE_DEG, TAPED, dice, made, numbered, place
from trees import STANDS, WELL, WELL_M
from yard import RING, church, lychgate, paved

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.plan.item import Basis, Item

CLEAR_OF_TRUNK_M, CLEAR_OF_PATH_M, CLEAR_OF_WALL_M, CLEAR_OF_CHURCH_M = 0.7, 0.4, 0.8, 2.6
GAP_M = 0.06
"""Two outlines never come nearer than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row: its letter, where its heads lie on the church's axes, and when it was used."""

    letter: str
    along: float
    south: float
    north: float
    first: int
    last: int

    @property
    def lawn(self) -> bool:
        """Whether it was set out by a line, in full-size spaces."""
        return self.first >= 1950


def _row(letter: str, along: float, south: float, north: float, used: tuple[int, int]) -> Row:
    return Row(
        letter=letter, along=along, south=south, north=north, first=used[0], last=used[1]
    )


ROWS = (
    _row("A", -35.0, -33.0, 6.5, (1806, 1850)),
    _row("B", -31.55, -34.0, 6.0, (1812, 1855)),
    _row("C", -28.1, -34.2, 5.6, (1820, 1862)),
    _row("D", -24.65, -34.3, 4.0, (1828, 1870)),
    _row("E", -21.2, -34.4, -7.5, (1838, 1876)),
    _row("F", -17.75, -34.4, -9.0, (1846, 1880)),
    _row("G", -14.3, -34.5, -10.0, (1855, 1886)),
    _row("H", -11.2, -34.4, -9.5, (1861, 1890)),
    _row("J", -2.9, -34.4, -9.2, (1868, 1896)),
    _row("K", 0.55, -34.5, -8.2, (1875, 1902)),
    _row("L", 4.0, -34.4, -12.0, (1882, 1908)),
    _row("M", 7.45, -34.4, -12.2, (1889, 1914)),
    _row("N", 10.9, -34.2, -12.4, (1896, 1921)),
    _row("P", -34.0, 11.5, 33.0, (1902, 1930)),
    _row("Q", -30.4, 11.0, 30.0, (1908, 1934)),
    _row("R", -26.9, 12.0, 29.6, (1915, 1940)),
    _row("S", -8.2, 13.4, 31.0, (1922, 1950)),
    _row("T", -4.4, 13.2, 31.2, (1934, 1953)),
    _row("U", 19.4, -33.6, -0.4, (1952, 1974)),
    _row("V", 23.2, -33.4, -0.6, (1966, 1985)),
    _row("W", 27.0, -33.0, -0.9, (1979, 1997)),
    _row("X", 30.8, -32.9, -1.2, (1990, 2009)),
    _row("Y", 34.6, -32.6, -1.6, (2001, 2025)),
    _row("Z", 38.4, -32.2, -2.4, (2026, 2026)),
)
IN_1962 = {"U": 11}
"""Of this row so many graves had been dug when the old plan was drawn; none of later ones."""

_RESERVED = {("Y", 9), ("Y", 16), ("Z", 1), ("Z", 2)}
_CLOSED = {("Z", 10): "Roots of the cherry.", ("Z", 18): "Water stood at 1.1 m in 2024."}
_YEAR = 2026


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """One grave of the story: its row, its number in the row, its place and its year."""

    row: Row
    n: int
    rectangle: Rectangle
    year: int

    @property
    def number(self) -> str:
        """What people call it: ``A 1``."""
        return f"{self.row.letter} {self.n}"

    @property
    def in_1962(self) -> bool:
        """Whether it was there when the old plan was drawn."""
        return not self.row.lawn or self.n <= IN_1962.get(self.row.letter, 0)

    @property
    def state(self) -> State:
        """What it may be used for."""
        key = (self.row.letter, self.n)
        if key in _CLOSED:
            return State.CLOSED
        if key in _RESERVED:
            return State.RESERVED
        if self.year >= _YEAR:
            return State.FREE
        old = self.row.last < 1900
        return State.UNKNOWN if old and dice(self.number).random() < 0.2 else State.OCCUPIED


@cache
def spaces() -> tuple[Space, ...]:
    """Return every grave, row by row, from south to north; none touches anything else."""
    taken = _taken()
    return tuple(space for row in ROWS for space in _along(row, taken))


def graves(old: Basis) -> tuple[Item[Any], ...]:
    """Return the graves."""
    return tuple(_item(space, old) for space in spaces())


def _taken() -> BaseGeometry:
    pieces: list[BaseGeometry] = [
        paved().buffer(CLEAR_OF_PATH_M),
        church().buffer(CLEAR_OF_CHURCH_M),
        lychgate().buffer(0.6),
        RING.exterior.buffer(CLEAR_OF_WALL_M + 0.25),
        WELL.buffer(WELL_M / 2 + 1.2),
        HEAP.outline().buffer(0.5),
        VAULT.outline().buffer(0.4),
        services_ground(),
        *(stand.foot.buffer(CLEAR_OF_TRUNK_M) for stand in STANDS),
    ]
    whole = shapely.union_all(pieces)
    shapely.prepare(whole)
    return whole


def _along(row: Row, taken: BaseGeometry) -> Iterator[Space]:
    chance = dice(f"row {row.letter}")
    aside, before = row.south, Polygon()
    rectangles: list[Rectangle] = []
    while aside < row.north:
        rectangle = _laid(row, aside, chance)
        outline = rectangle.outline()
        if before.distance(outline) < GAP_M or outline.intersects(taken):
            aside += 0.08
            continue
        rectangles.append(rectangle)
        before = outline
        aside += rectangle.width + (0.27 if row.lawn else chance.uniform(0.2, 0.5))
        if not row.lawn and chance.random() < 0.05:
            aside += 1.4
    years = _years(row, len(rectangles))
    for n, (rectangle, year) in enumerate(zip(rectangles, years, strict=True), 1):
        yield Space(row=row, n=n, rectangle=rectangle, year=year)


def _laid(row: Row, aside: float, chance: Random) -> Rectangle:
    if row.lawn:
        width, length, shift, turn = 1.22, 2.74, 0.04, 0.6
    else:
        shift, turn = 0.08, 1.5
        width, length = round(chance.uniform(0.9, 1.12), 2), round(chance.uniform(2.1, 2.45), 2)
    wander = 0.0 if row.lawn else 0.18 * sin(aside / 7.0 + row.along)
    east, north = place(
        row.along + wander + chance.uniform(-shift, shift),
        aside + chance.uniform(-shift, shift) / 2,
    )
    return Rectangle(
        east=east,
        north=north,
        width=width,
        length=length,
        bearing_deg=round((HEAD_LINE_DEG + chance.uniform(-turn, turn)) % 360.0, 1),
    )


def _years(row: Row, count: int) -> list[int]:
    """Return the year of each grave: the row was filled from the south, not quite in turn."""
    chance = dice(f"years {row.letter}")
    span = row.last - row.first
    if row.letter == "Z":
        return [_YEAR] * count
    years = [row.first + round(span * n / max(count - 1, 1)) for n in range(count)]
    if row.lawn:
        return years
    return [min(row.last, max(row.first, y + chance.randint(-3, 3))) for y in years]


def _item(space: Space, old: Basis) -> Item[Any]:
    return numbered(
        space.number,
        made(
            grave.KIND,
            space.number,
            space.rectangle,
            details=_details(space),
            basis=_basis(space, old),
        ),
    )


def _details(space: Space) -> GraveDetails:
    recent = space.state is State.OCCUPIED and space.year >= 2000
    chance = dice(f"depth {space.number}")
    coffins = chance.choice((1, 2, 2)) if recent else None
    depth = None if coffins is None else {1: 1.4, 2: 1.95}[coffins]
    return GraveDetails(
        state=space.state,
        coffins=coffins if recent else (2 if space.state is State.FREE else None),
        depth_m=depth,
        dug=str(space.year) if recent else "",
        remarks=_CLOSED.get((space.row.letter, space.n), ""),
    )


def _basis(space: Space, old: Basis) -> Basis:
    if space.in_1962:
        return old
    if space.state is State.OCCUPIED and space.year >= 2001:
        return replace(AS_DUG, date=str(space.year))
    return TAPED
