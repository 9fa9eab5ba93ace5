"""A draughtsman's pen: lines and letters that no ruler made, on a flat sheet at 300 dpi."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, radians, sin
from random import Random

from paper import SHEET, sheet_of_ground
from PIL import Image, ImageDraw, ImageFont
from story import dice

from plan_editor.resources import resource

DPI = 300
Places = Sequence[tuple[float, float]]
"""Inches across and up on the sheet."""


@dataclass(frozen=True, slots=True)
class Layer:
    """One ink: where there is how much of it, 0 to 255, and the hand that lays it on."""

    image: Image.Image
    hand: Random

    @property
    def draw(self) -> ImageDraw.ImageDraw:
        """What draws on it."""
        return ImageDraw.Draw(self.image)


def layer(topic: str) -> Layer:
    """Return an empty layer the size of the sheet."""
    size = (round(SHEET[0] * DPI), round(SHEET[1] * DPI))
    return Layer(Image.new("L", size), dice(topic))


def on_sheet(places: Iterable[Sequence[float]]) -> list[tuple[float, float]]:
    """Return places on the ground as inches on the sheet."""
    return [sheet_of_ground(p[0], p[1]) for p in places]


def stroke(on: Layer, places: Places, *, width: float = 0.012, depth: int = 235) -> None:
    """Draw a line through places with an unsteady hand; width in inches."""
    wavy = _wavy(on.hand, places)
    thick = max(2, round(width * DPI * on.hand.uniform(0.88, 1.15)))
    on.draw.line([_dot(p) for p in wavy], fill=depth, width=thick, joint="curve")


def closed(on: Layer, places: Places, *, width: float = 0.012, depth: int = 235) -> None:
    """Draw an outline side by side, each line a little too long at its corners."""
    for one, other in zip(places, [*places[1:], places[0]], strict=True):
        run = hypot(other[0] - one[0], other[1] - one[1])
        if run < 1e-6:
            continue
        over = on.hand.uniform(0.0, 0.012) / run
        dx, dy = (other[0] - one[0]) * over, (other[1] - one[1]) * over
        ends = [(one[0] - dx, one[1] - dy), (other[0] + dx, other[1] + dy)]
        stroke(on, ends, width=width, depth=depth)


def dashed(on: Layer, places: Places, *, dash: float = 0.09, gap: float = 0.05) -> None:
    """Draw a broken line through places."""
    steps = _stepped(places, 0.01)
    period = round((dash + gap) / 0.01)
    length = round(dash / 0.01)
    for start in range(0, len(steps) - 2, period):
        stroke(on, steps[start : start + length + 1 : 3], width=0.009)


def hatched(on: Layer, outline: Places, *, spacing: float = 0.07) -> None:
    """Hatch an outline from lower left to upper right."""
    mask = Image.new("L", on.image.size)
    ImageDraw.Draw(mask).polygon([_dot(p) for p in outline], fill=255)
    lines = Layer(Image.new("L", on.image.size), on.hand)
    xs, ys = [p[0] for p in outline], [p[1] for p in outline]
    tall = max(ys) - min(ys)
    x = min(xs) - tall
    while x < max(xs):
        stroke(lines, [(x, min(ys)), (x + tall, max(ys))], width=0.007, depth=190)
        x += spacing * on.hand.uniform(0.85, 1.15)
    on.image.paste(
        lines.image, mask=Image.composite(mask, Image.new("L", mask.size), lines.image)
    )


def washed(on: Layer, outline: Places, depth: int) -> None:
    """Lay a wash of colour within an outline."""
    on.draw.polygon([_dot(p) for p in outline], fill=depth)


def spot(on: Layer, at: tuple[float, float], radius: float) -> None:
    """Make a round spot of ink."""
    on.draw.ellipse(_round(at, radius), fill=225)


def ring(on: Layer, at: tuple[float, float], radius: float) -> None:
    """Draw a small circle."""
    on.draw.ellipse(_round(at, radius), outline=225, width=3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """How a text is written: size and spacing in inches, turned anticlockwise, how black."""

    size: float
    turn_deg: float = 0.0
    spacing: float = 0.0
    depth: int = 230


def letter(on: Layer, text: str, at: tuple[float, float], hand: Hand) -> None:
    """Write a text about its middle, letter by letter."""
    font = _font(round(hand.size * DPI))
    widths = [font.getlength(c) / DPI + hand.spacing for c in text]
    along = -sum(widths) / 2
    c, s = cos(radians(hand.turn_deg)), sin(radians(hand.turn_deg))
    for character, wide in zip(text, widths, strict=True):
        middle = along + wide / 2
        off = on.hand.gauss(0.0, hand.size * 0.018)
        place = at[0] + middle * c - off * s, at[1] + middle * s + off * c
        if character != " ":
            _one(on, character, place, hand)
        along += wide


def _one(on: Layer, character: str, at: tuple[float, float], hand: Hand) -> None:
    turn = hand.turn_deg + on.hand.gauss(0.0, 1.8)
    upright = _sloping(character, round(hand.size * DPI))
    drawn = upright.rotate(turn, resample=Image.Resampling.BICUBIC, expand=True)
    x, y = _dot(at)
    corner = round(x - drawn.width / 2), round(y - drawn.height / 2)
    on.image.paste(hand.depth, corner, drawn)


@cache
def _font(pixels: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(resource("fonts/SourceSans3-Regular.ttf")), pixels)


@cache
def _sloping(character: str, pixels: int) -> Image.Image:
    """Return a letter as a mask, leaning as a draughtsman's italic does."""
    side = 2 * pixels
    upright = Image.new("L", (side, side))
    ImageDraw.Draw(upright).text(
        (side / 2, side / 2), character, fill=255, font=_font(pixels), anchor="mm"
    )
    lean = 0.2
    return upright.transform(
        upright.size,
        Image.Transform.AFFINE,
        (1, lean, -lean * side / 2, 0, 1, 0),
        resample=Image.Resampling.BICUBIC,
    )


def _round(at: tuple[float, float], radius: float) -> tuple[float, float, float, float]:
    left_top = _dot((at[0] - radius, at[1] + radius))
    return (*left_top, *_dot((at[0] + radius, at[1] - radius)))


def _dot(place: tuple[float, float]) -> tuple[float, float]:
    return place[0] * DPI, (SHEET[1] - place[1]) * DPI


def _stepped(places: Places, step: float) -> list[tuple[float, float]]:
    steps = [places[0]]
    for (x0, y0), (x1, y1) in pairwise(places):
        count = max(1, round(hypot(x1 - x0, y1 - y0) / step))
        steps += [
            (x0 + (x1 - x0) * k / count, y0 + (y1 - y0) * k / count)
            for k in range(1, count + 1)
        ]
    return steps


def _wavy(hand: Random, places: Places) -> list[tuple[float, float]]:
    """Return a line that strays up to about a hundredth of an inch, slowly."""
    phases = [hand.uniform(0.0, 2 * pi) for _ in range(4)]
    wild = hand.uniform(0.0015, 0.0045)
    return [
        (
            x + wild * (sin(9 * y + 5 * x + phases[0]) + 0.5 * sin(31 * x + phases[1])),
            y + wild * (sin(8 * x - 6 * y + phases[2]) + 0.5 * sin(29 * y + phases[3])),
        )
        for x, y in _stepped(places, 0.05)
    ]


def bearing_on_sheet(one: tuple[float, float], other: tuple[float, float]) -> float:
    """Return the turn, anticlockwise from level, of a line between two places."""
    return degrees(atan2(other[1] - one[1], other[0] - one[0]))
