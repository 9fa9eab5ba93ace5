"""What the surveyor of 1962 drew: walls, church, paths, trees, and the rows up to then."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from fittings import VAULT
from graves import Space, spaces
from pen import (
    Hand,
    Layer,
    bearing_on_sheet,
    closed,
    dashed,
    hatched,
    layer,
    letter,
    on_sheet,
    ring,
    spot,
    stroke,
    washed,
)
from shapely import LineString
from story import place
from title_1962 import furnish
from trees import STANDS, WELL, Stand
from yard import (
    EAST,
    NORTH,
    PATH_M,
    ROUND_M,
    SOUTH,
    WALL_M,
    WEST,
    church,
    lychgate,
    main_path,
    round_path,
)

INCHES_PER_METRE = 1 / (20 * 0.3048)
_BY_THE_WALL = -30.0
"""Rows that begin farther south have no room for a letter before the wall."""

_SHORT = {
    "yew": "Yew",
    "Irish yew": "",
    "common lime": "Lime",
    "pedunculate oak": "Oak",
    "horse chestnut": "Chestnut",
    "field maple": "Maple",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """The flat sheet: black ink, rose and green washes, and pencil that was added later."""

    ink: Layer
    rose: Layer
    green: Layer
    pencil: Layer


def drawn() -> Drawing:
    """Return the sheet as it was drawn, and as later hands wrote on it."""
    sheet = Drawing(
        ink=layer("ink"), rose=layer("rose"), green=layer("green"), pencil=layer("pencil")
    )
    _enclosure(sheet.ink)
    _church(sheet.ink, sheet.rose)
    _paths(sheet.ink)
    _trees(sheet.ink, sheet.green)
    _rows(sheet.ink)
    _odds(sheet.ink)
    furnish(sheet.ink)
    _remarks(sheet.pencil)
    return sheet


def _sides(on: Layer, run: LineString, half: float) -> None:
    for side in (half, -half):
        shifted = run.offset_curve(side, join_style="mitre")
        stroke(on, on_sheet(shifted.coords), width=0.014)


def _enclosure(on: Layer) -> None:
    for run in (SOUTH[:2], SOUTH[2:], WEST):
        _sides(on, LineString(run), WALL_M / 2)
    rail = LineString(EAST)
    stroke(on, on_sheet(rail.coords), width=0.012)
    for at in range(1, int(rail.length), 3):
        here, there = rail.interpolate(at), rail.interpolate(at + 0.05)
        across = (there.y - here.y) / 0.05, (here.x - there.x) / 0.05
        tick = [(here.x + k * across[0], here.y + k * across[1]) for k in (-0.45, 0.45)]
        stroke(on, on_sheet(tick), width=0.01)
    _hedge(on, LineString(NORTH))


def _hedge(on: Layer, run: LineString) -> None:
    at = 0.6
    while at < run.length:
        middle = run.interpolate(at)
        size = on.hand.uniform(0.45, 0.75)
        arc = [
            (middle.x + size * cos(k * pi / 6), middle.y - 0.4 + size * sin(k * pi / 6))
            for k in range(-1, 8)
        ]
        stroke(on, on_sheet(arc), width=0.009)
        at += size * 1.7


def _church(on: Layer, wash: Layer) -> None:
    outline = on_sheet(list(church().exterior.coords)[:-1])
    washed(wash, outline, 150)
    hatched(on, outline)
    closed(on, outline, width=0.022)
    turn = bearing_on_sheet(*on_sheet([place(-10.0, 3.0), place(14.0, 3.0)]))
    (middle,) = on_sheet([place(-1.5, 3.0)])
    _cleared(on, middle, 1.55, 0.3, turn)
    letter(on, "CHURCH", middle, Hand(size=0.24, turn_deg=turn, spacing=0.09))
    gate = on_sheet(list(lychgate().exterior.coords)[:-1])
    washed(wash, gate, 150)
    closed(on, gate, width=0.016)
    (below,) = on_sheet([(44.1, -2.6)])
    letter(on, "Lychgate", below, Hand(size=0.15))


def _cleared(on: Layer, at: tuple[float, float], wide: float, high: float, turn: float) -> None:
    c, s = cos(turn * pi / 180), sin(turn * pi / 180)
    corners = [
        (at[0] + x * c - y * s, at[1] + x * s + y * c)
        for x, y in (
            (-wide / 2, -high / 2),
            (wide / 2, -high / 2),
            (wide / 2, high / 2),
            (-wide / 2, high / 2),
        )
    ]
    washed(on, corners, 0)


def _paths(on: Layer) -> None:
    for run, width in ((main_path(), PATH_M), (round_path(), ROUND_M)):
        for side in (width / 2, -width / 2):
            dashed(on, on_sheet(run.offset_curve(side).coords))


def _trees(on: Layer, wash: Layer) -> None:
    for stand in STANDS:
        if stand.old:
            _tree(on, wash, stand)


def _tree(on: Layer, wash: Layer, stand: Stand) -> None:
    east, north = place(stand.along, stand.aside)
    # the surveyor guessed the crowns, and the trees were younger
    reach = stand.crown_m * on.hand.uniform(0.62, 0.78)
    steps = 9 + int(reach * 2)
    edge: list[tuple[float, float]] = []
    for k in range(steps):
        for part in (0.0, 0.35, 0.7):
            way = 2 * pi * (k + part) / steps
            bulge = reach * (1.0 + (0.11 if part == 0.35 else 0.0) + on.hand.gauss(0, 0.015))
            edge.append((east + bulge * cos(way), north + bulge * sin(way)))
    crown = on_sheet([*edge, edge[0]])
    washed(wash, crown, 110)
    stroke(on, crown, width=0.009, depth=205)
    for way in (0.4, 2.0, 3.7, 5.2):
        spoke = [(east + r * cos(way), north + r * sin(way)) for r in (0.3, 0.3 + reach * 0.3)]
        stroke(on, on_sheet(spoke), width=0.008, depth=190)
    (stem,) = on_sheet([(east, north)])
    dot = 0.018 + max(stand.stems_mm) / 40000
    spot(on, stem, dot)
    if name := _SHORT.get(stand.species, stand.species.split()[-1].capitalize()):
        letter(on, name, (stem[0], stem[1] - 0.16), Hand(size=0.12, depth=215))


def _rows(on: Layer) -> None:
    there = [s for s in spaces() if s.in_1962]
    for space in there:
        _grave(on, space)
    for row in dict.fromkeys(s.row for s in there):
        mine = [s for s in there if s.row == row]
        _row_letter(on, mine[-1], row.letter, 1.0)
        if row.south > _BY_THE_WALL:
            _row_letter(on, mine[0], row.letter, -1.0)


def _grave(on: Layer, space: Space) -> None:
    # what the chain and the offset staff left in error
    east, north = on.hand.gauss(0, 0.05), on.hand.gauss(0, 0.05)
    corners = on_sheet(space.rectangle.moved(east, north).corners())
    closed(on, corners, width=0.0085, depth=220)
    stroke(on, corners[:2], width=0.018)
    middle = _between(corners[0], corners[2])
    turn = bearing_on_sheet(corners[0], corners[3])
    letter(on, str(space.n), middle, Hand(size=0.125, turn_deg=turn, depth=222))


def _row_letter(on: Layer, space: Space, text: str, beyond: float) -> None:
    east, north = space.rectangle.centre
    up = beyond * (space.rectangle.width / 2 + 1.0)
    (at,) = on_sheet([(east - 0.07 * up, north + up)])
    letter(on, text, at, Hand(size=0.23, depth=240))


def _between(one: Sequence[float], other: Sequence[float]) -> tuple[float, float]:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _odds(on: Layer) -> None:
    (well,) = on_sheet([(WELL.x, WELL.y)])
    for radius in (0.09, 0.05):
        ring(on, well, radius)
    letter(on, "Well", (well[0] + 0.26, well[1]), Hand(size=0.13))
    vault = on_sheet(VAULT.corners())
    closed(on, vault, width=0.014)
    stroke(on, [vault[0], vault[2]], width=0.008)
    stroke(on, [vault[1], vault[3]], width=0.008)
    letter(on, "Vault", (vault[1][0] + 0.2, vault[1][1] + 0.13), Hand(size=0.13))
    (old, new) = on_sheet([place(18.2, -34.0), place(18.2, 34.0)])
    dashed(on, [old, new], dash=0.2, gap=0.09)
    turn = bearing_on_sheet(old, new)
    (beside,) = on_sheet([place(17.5, 17.0)])
    letter(on, "former boundary", beside, Hand(size=0.125, turn_deg=turn))
    (ground,) = on_sheet([place(33.0, -14.0)])
    letter(on, "EXTENSION", ground, Hand(size=0.22, spacing=0.12))
    letter(on, "consecrated 1951", (ground[0], ground[1] - 0.33), Hand(size=0.15))


def _remarks(on: Layer) -> None:
    """Write what later hands added in pencil."""
    told = (
        ("see register", -39.4, -14.0, 96.0),
        ("stone moved 1978", -13.0, 20.0, 2.0),
        ("2 deep", 24.6, -29.6, -3.0),
        ("not used - roots", -20.5, 25.0, 84.0),
        ("row U continued 1975", 29.0, -31.0, 4.0),
    )
    for text, along, aside, turn in told:
        (at,) = on_sheet([place(along, aside)])
        letter(on, text, at, Hand(size=0.16, turn_deg=turn, depth=225))
    tick = on_sheet([place(23.0, -20.0), place(22.4, -19.0)])
    stroke(on, tick, width=0.012, depth=170)
