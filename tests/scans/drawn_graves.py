"""Churchyard plans drawn at random, north up, with rows of graves: what a finder is tried on.

It draws with a pen of its own, straight into an array: how much ink lies on a pixel follows
from the pixel's distance to the stroke. It shares nothing with the finder but the meaning of a
rectangle's five numbers, and nothing with the sample's pen.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from io import BytesIO
from itertools import pairwise
from math import cos, hypot, pi, radians, sin

import numpy as np
from drawn_damage import Damage
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from plan_editor.geometry.outlines import Rectangle
from plan_editor.resources import resource

METRES_PER_PIXEL = 0.042
WIDE_M, HIGH_M = 46.0, 38.0
_FINE = 2
"""Ink is laid on at so many times the picture's fineness."""

Picture = NDArray[np.uint8]
Field = NDArray[np.float64]
Place = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A plan as it is seen, and the graves that it shows.

    Args:
        grey: north up, its south-west corner at east 0, north 0.
        graves: where their outlines are drawn, in metres, damage included.
        head_bars: whether head ends are drawn heavier.
    """

    grey: Picture
    graves: tuple[Rectangle, ...]
    head_bars: bool


@dataclass(slots=True)
class _Sheet:
    """Ink from 0 to 1 at twice the picture's fineness, the chance, and how paper lies."""

    chance: np.random.Generator
    damage: Damage
    waves: tuple[tuple[float, float, float, float], ...]
    ink: Field = field(
        default_factory=lambda: np.zeros(
            (
                round(HIGH_M / METRES_PER_PIXEL) * _FINE,
                round(WIDE_M / METRES_PER_PIXEL) * _FINE,
            )
        )
    )

    def lies(self, east: float, north: float) -> Place:
        """Return where a place of the ground lies on the leaning, cockled paper."""
        e, n = east - WIDE_M / 2, north - HIGH_M / 2
        skew = self.damage.skew
        lean = 0.02 * skew
        de = dn = 0.0
        for by_e, by_n, phase, way in self.waves:
            wave = 0.1 * skew * sin(by_e * e + by_n * n + phase)
            de, dn = de + wave * cos(way), dn + wave * sin(way)
        return (
            WIDE_M / 2 + e * (1 + 0.6 * lean) + lean * n + de,
            HIGH_M / 2 + n * (1 - 0.4 * lean) + 0.4 * lean * e + dn,
        )


def drawn(seed: int, damage: Damage) -> Drawn:
    """Return the plan of a seed, with damage; the same seed gives the same ground."""
    ground = np.random.default_rng((seed, 1))
    waves = tuple(
        (
            ground.uniform(-0.25, 0.25),
            ground.uniform(-0.25, 0.25),
            ground.uniform(0, 2 * pi),
            ground.uniform(0, 2 * pi),
        )
        for _ in range(3)
    )
    sheet = _Sheet(chance=np.random.default_rng((seed, 2)), damage=damage, waves=waves)
    head_bars = bool(ground.random() < 0.6)
    rectangles = _graves(ground)
    _furniture(sheet, ground)
    lies = tuple(_grave(sheet, r, n, head_bars) for n, r in enumerate(rectangles))
    _notes(sheet, rectangles)
    return Drawn(grey=_seen(sheet), graves=lies, head_bars=head_bars)


def _graves(chance: np.random.Generator) -> list[Rectangle]:
    """Return rows of graves in two or three blocks, each with a bearing and a pitch."""
    made: list[Rectangle] = []
    general = chance.uniform(-20.0, 20.0)
    east = 4.0 + chance.uniform(0, 2)
    while east < WIDE_M - 8.0:
        touching = chance.random() < 0.3
        bearing = general + (chance.uniform(-3.0, 3.0) if chance.random() < 0.5 else 0.0)
        width, length = chance.uniform(0.9, 1.25), chance.uniform(2.0, 2.7)
        gap = 0.0 if touching else chance.uniform(0.18, 0.5)
        rows = int(chance.integers(1, 4))
        for _ in range(rows):
            made += _row(chance, east, (width, length, gap, bearing))
            east += length + chance.uniform(0.5, 1.4)
            if east > WIDE_M - 7.0:
                break
        east += chance.uniform(0.8, 3.0)
    return [r for r in made if _well_within(r)]


def _row(
    chance: np.random.Generator, east: float, of: tuple[float, float, float, float]
) -> list[Rectangle]:
    width, length, gap, bearing = of
    north = 3.0 + chance.uniform(0, 3.0)
    end = HIGH_M - 4.0 - chance.uniform(0, 6.0)
    made = []
    while north < end:
        if chance.random() < 0.06:
            north += width + gap
            continue
        touching = gap == 0.0
        loose = 0.0 if touching else 1.0
        wide = width * (1 + loose * chance.normal(0, 0.045))
        long = length * (1 + loose * chance.normal(0, 0.035))
        angle = radians(bearing)
        along = north - HIGH_M / 2
        made.append(
            Rectangle(
                east=east + along * sin(angle) + loose * chance.normal(0, 0.06),
                north=HIGH_M / 2 + along * cos(angle),
                width=wide,
                length=long,
                bearing_deg=bearing + loose * chance.normal(0, 0.8),
            )
        )
        north += wide + (0.0 if touching else max(0.12, gap + chance.normal(0, 0.05)))
    return made


def _well_within(one: Rectangle) -> bool:
    return all(1.0 < e < WIDE_M - 1.0 and 1.0 < n < HIGH_M - 1.0 for e, n in one.corners())


def _grave(sheet: _Sheet, one: Rectangle, n: int, head_bars: bool) -> Rectangle:  # noqa: FBT001
    """Draw a grave, and return where it is drawn."""
    corners = [sheet.lies(*c) for c in one.corners()]
    where = _through(corners)
    ring = [*corners, corners[0]]
    for k, (a, b) in enumerate(pairwise(ring)):
        heavy = k == 0 and head_bars
        _ruled(sheet, a, b, width=0.11 if heavy else 0.05)
    lettering = sheet.damage.lettering
    if sheet.chance.random() < 0.8:
        _written(sheet, str(n + 1), where.centre, 0.62 + 0.3 * lettering, -one.bearing_deg)
    if sheet.chance.random() < 0.35 * lettering:
        words = ("Old vault", "re-opened", "kerb gone", "two deep", "see book", "J. W. 1884")
        e, north = where.centre
        at = e + sheet.chance.normal(0, 0.5), north + sheet.chance.normal(0, 0.5)
        text = words[int(sheet.chance.integers(len(words)))]
        _written(sheet, text, at, 0.6, sheet.chance.uniform(-25, 25))
    return where


def _through(corners: Sequence[Place]) -> Rectangle:
    """Return the rectangle that lies best through four corners that are nearly one's."""
    c = np.array(corners)
    head = (c[1] - c[0] + c[2] - c[3]) / 2
    foot = (c[3] - c[0] + c[2] - c[1]) / 2
    side = np.array([head[0] - foot[1], head[1] + foot[0]])
    turn = float(np.arctan2(side[0], side[1]))
    width, length = hypot(*head), hypot(*foot)
    middle = c.mean(axis=0)
    up, out = np.array([sin(turn), cos(turn)]), np.array([cos(turn), -sin(turn)])
    e, n = middle - up * width / 2 - out * length / 2
    return Rectangle(
        east=float(e),
        north=float(n),
        width=width,
        length=length,
        bearing_deg=float(np.degrees(turn)),
    )


def _ruled(sheet: _Sheet, a: Place, b: Place, *, width: float, depth: float = 0.9) -> None:
    """Draw a line by hand: a little too long or short, bowed, unsteady, worn in places."""
    chance = sheet.chance
    run = hypot(b[0] - a[0], b[1] - a[1])
    if run < 0.02:
        return
    over, under = chance.normal(0.02, 0.03, 2) / run
    a, b = (
        (a[0] + (a[0] - b[0]) * over, a[1] + (a[1] - b[1]) * over),
        (b[0] + (b[0] - a[0]) * under, b[1] + (b[1] - a[1]) * under),
    )
    across = (b[1] - a[1]) / run, (a[0] - b[0]) / run
    bow, waver = chance.normal(0, 0.015), chance.uniform(0.004, 0.016)
    phase, often = chance.uniform(0, 2 * pi), chance.uniform(0.8, 2.0)
    count = max(2, round(run / 0.25))
    places = []
    for k in range(count + 1):
        t = k / count
        off = bow * 4 * t * (1 - t) + waver * sin(phase + often * 2 * pi * t * run / 3)
        places.append(
            (
                a[0] + (b[0] - a[0]) * t + off * across[0],
                a[1] + (b[1] - a[1]) * t + off * across[1],
            )
        )
    thick = width * chance.uniform(0.8, 1.25)
    for whole in _worn(sheet, places):
        _laid(sheet, whole, thick, depth * chance.uniform(0.85, 1.05))


def _worn(sheet: _Sheet, places: list[Place]) -> list[list[Place]]:
    """Return what is left of a line of which a share has gone, in gaps of 0.1 to 0.6 m."""
    broken = sheet.damage.broken
    if broken <= 0.0:
        return [places]
    steps = [
        (a[0] + (b[0] - a[0]) * k / 5, a[1] + (b[1] - a[1]) * k / 5)
        for a, b in pairwise(places)
        for k in range(5)
    ] + [places[-1]]
    step = 0.05
    left: list[list[Place]] = [[]]
    going = sheet.chance.random() >= broken
    mean_gap = 0.3 / step
    mean_run = mean_gap * (1 - broken) / broken
    for place in steps:
        if going:
            left[-1].append(place)
        if sheet.chance.random() < 1 / (mean_run if going else mean_gap):
            going = not going
            if going:
                left.append([])
    return [run for run in left if len(run) > 1]


def _laid(sheet: _Sheet, places: Sequence[Place], width: float, depth: float) -> None:
    """Lay ink along a line: full to within half a width of its middle, soft at the edge."""
    scale = _FINE / METRES_PER_PIXEL
    high, wide = sheet.ink.shape
    for (e0, n0), (e1, n1) in pairwise(places):
        x0, y0, x1, y1 = e0 * scale, (HIGH_M - n0) * scale, e1 * scale, (HIGH_M - n1) * scale
        reach = width * scale / 2 + 1.5
        left, right = int(max(0, min(x0, x1) - reach)), int(min(wide, max(x0, x1) + reach + 1))
        top, bottom = int(max(0, min(y0, y1) - reach)), int(min(high, max(y0, y1) + reach + 1))
        if left >= right or top >= bottom:
            continue
        y, x = np.mgrid[top:bottom, left:right] + 0.5
        dx, dy = x1 - x0, y1 - y0
        t = np.clip(((x - x0) * dx + (y - y0) * dy) / max(dx * dx + dy * dy, 1e-9), 0.0, 1.0)
        away = np.hypot(x - x0 - t * dx, y - y0 - t * dy)
        here = depth * np.clip(width * scale / 2 + 0.5 - away, 0.0, 1.0)
        piece = sheet.ink[top:bottom, left:right]
        np.maximum(piece, here, out=piece)


def _written(sheet: _Sheet, text: str, at: Place, size: float, turn: float) -> None:
    """Write by hand: a text set letter by letter, each turned and shifted a little."""
    scale = _FINE / METRES_PER_PIXEL
    font = ImageFont.truetype(
        str(resource("fonts/SourceSans3-Regular.ttf")), round(size * scale)
    )
    wide = font.getlength(text)
    tile = Image.new("L", (int(wide) + 60, round(2 * size * scale) + 40))
    draw = ImageDraw.Draw(tile)
    x = 30.0
    for letter in text:
        rise = sheet.chance.normal(0, 0.04) * size * scale
        draw.text((x, tile.height / 2 + rise), letter, fill=225, font=font, anchor="lm")
        x += font.getlength(letter)
    turned = tile.rotate(
        turn + sheet.chance.normal(0, 3.0), Image.Resampling.BICUBIC, expand=True
    )
    left = round(at[0] * scale - turned.width / 2)
    top = round((HIGH_M - at[1]) * scale - turned.height / 2)
    x0, y0 = max(left, 0), max(top, 0)
    x1 = min(left + turned.width, sheet.ink.shape[1])
    y1 = min(top + turned.height, sheet.ink.shape[0])
    if x0 < x1 and y0 < y1:
        letters = np.asarray(turned)[y0 - top : y1 - top, x0 - left : x1 - left] / 255.0
        piece = sheet.ink[y0:y1, x0:x1]
        np.maximum(piece, letters, out=piece)


def _furniture(sheet: _Sheet, chance: np.random.Generator) -> None:
    """Draw walls, a path, trees, a hatched building, a vault and kerbs of other sizes."""
    for inset in (0.5, 0.9):
        ring = [
            (inset, inset),
            (WIDE_M - inset, inset + 0.3),
            (WIDE_M - inset - 0.4, HIGH_M - inset),
            (inset + 0.2, HIGH_M - inset),
        ]
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
            _ruled(sheet, sheet.lies(*a), sheet.lies(*b), width=0.07)
    for _ in range(int(chance.integers(2, 5))):
        _tree(sheet, chance)
    _building(sheet, chance)
    _path(sheet, chance)
    e, n = chance.uniform(3, WIDE_M - 6), chance.uniform(1.5, 3.0)
    for size in ((0.6, 0.6), (3.4, 3.6), (0.5, 2.4)):
        _outlined(sheet, e, n, size)
        e += size[0] + 1.2


def _outlined(sheet: _Sheet, e: float, n: float, size: tuple[float, float]) -> None:
    wide, high = size
    ring = [(e, n), (e + wide, n), (e + wide, n + high), (e, n + high)]
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        _ruled(sheet, sheet.lies(*a), sheet.lies(*b), width=0.06)


def _tree(sheet: _Sheet, chance: np.random.Generator) -> None:
    e, n = chance.uniform(3, WIDE_M - 3), chance.uniform(3, HIGH_M - 3)
    reach = chance.uniform(1.2, 3.6)
    ways = np.linspace(0, 2 * pi, 40)
    out = reach * (1 + 0.08 * np.sin(9 * ways) + chance.normal(0, 0.02, 40))
    edge = [sheet.lies(e + r * cos(w), n + r * sin(w)) for r, w in zip(out, ways, strict=True)]
    edge.append(edge[0])
    for run in _worn(sheet, edge):
        _laid(sheet, run, 0.045, 0.7)


def _building(sheet: _Sheet, chance: np.random.Generator) -> None:
    wide, high = chance.uniform(4, 7), chance.uniform(3, 5)
    e, n = WIDE_M - wide - 1.5, chance.uniform(4, HIGH_M - high - 4)
    _outlined(sheet, e, n, (wide, high))
    pitch = chance.uniform(0.35, 0.6)
    for k in range(int((wide + high) / pitch)):
        c = k * pitch
        a = (e + min(c, wide), n + max(0.0, c - wide))
        b = (e + max(0.0, c - high), n + min(c, high))
        _ruled(sheet, sheet.lies(*a), sheet.lies(*b), width=0.035, depth=0.7)


def _path(sheet: _Sheet, chance: np.random.Generator) -> None:
    n, swing = chance.uniform(8, HIGH_M - 8), chance.uniform(0.3, 1.5)
    for off in (0.0, 1.5):
        line = [(e, n + off + swing * sin(e / 6)) for e in np.arange(1.5, WIDE_M - 1.5, 0.4)]
        for k in range(0, len(line) - 2, 3):
            _laid(sheet, [sheet.lies(*p) for p in line[k : k + 3]], 0.04, 0.8)


def _notes(sheet: _Sheet, graves: Sequence[Rectangle]) -> None:
    """Write row letters, a title and, with much lettering, remarks across the graves."""
    for k, at in enumerate(((8.0, 1.6), (20.0, HIGH_M - 1.8), (33.0, HIGH_M - 1.8))):
        _written(sheet, ("NEW GROUND", "PLAN OF THE YARD", "North")[k], at, 0.8, 0.0)
    for _ in range(round(8 * sheet.damage.lettering)):
        one = graves[int(sheet.chance.integers(len(graves)))] if graves else None
        if one is not None:
            at = (one.centre[0] + 1.0, one.centre[1])
            _written(sheet, "not to be used again", at, 0.7, sheet.chance.uniform(-60, 60))


def _seen(sheet: _Sheet) -> Picture:
    """Return the plan as a scanner sees it."""
    damage, chance = sheet.damage, sheet.chance
    ink = sheet.ink.reshape(
        sheet.ink.shape[0] // _FINE, _FINE, sheet.ink.shape[1] // _FINE, _FINE
    ).mean(axis=(1, 3))
    ink = _blurred(ink, damage.blur_px) * (1.0 - damage.fading)
    paper = 225.0 * _paper(ink.shape, damage, chance)
    seen = paper * (1.0 - ink) + 45.0 * ink + chance.normal(0, damage.noise, ink.shape)
    grey = np.clip(np.rint(seen), 0, 255).astype(np.uint8)
    if not damage.quality:
        return grey
    out = BytesIO()
    Image.fromarray(grey).save(out, "JPEG", quality=damage.quality)
    return np.asarray(Image.open(out))


def _paper(shape: tuple[int, ...], damage: Damage, chance: np.random.Generator) -> Field:
    """Return how bright the paper is: clouds, and stains with dark, sharp edges."""
    y, x = np.mgrid[0 : shape[0], 0 : shape[1]] * METRES_PER_PIXEL
    bright = 1.0 - 0.02 * (1 + np.sin(x / 7 + 1.0) * np.cos(y / 5))
    for _ in range(round(14 * damage.stains)):
        e, n = chance.uniform(0, WIDE_M), chance.uniform(0, HIGH_M)
        size = chance.uniform(0.8, 5.0)
        u, v = x - e, y - n
        way = np.arctan2(v, u)
        ragged = 1 + 0.12 * np.sin(3 * way + e) + 0.05 * np.sin(8 * way + n)
        r = np.hypot(u, v) / size / ragged
        dark = damage.stains * chance.uniform(0.15, 0.45)
        tide = np.exp(-(((r - 1.0) * size / 0.12) ** 2))
        bright = bright * (
            1
            - dark * (0.7 / (1 + np.exp(np.minimum((r - 1) * size / 0.05, 60.0))) + 0.5 * tide)
        )
    return bright


def _blurred(ink: Field, sd: float) -> Field:
    """Return the ink blurred, each pixel spread over a bell of that standard deviation."""
    reach = max(1, round(3.5 * sd))
    weights = np.exp(-(np.arange(-reach, reach + 1) ** 2) / (2 * sd**2))
    weights /= weights.sum()
    for axis in (0, 1):
        padded = np.pad(ink, [(reach, reach) if a == axis else (0, 0) for a in (0, 1)])
        ink = sum(
            w * np.take(padded, range(k, k + ink.shape[axis]), axis=axis)
            for k, w in enumerate(weights)
        )
    return ink
