"""Draws the pictures of the sample's papers: ``python sample_plans/sketches.py``.

They are drawings in the manner of an inspector's sketches, not photographs, and show nothing
that exists. The files are kept, because two versions of a library may pack a picture otherwise.
"""

from collections.abc import Callable
from math import cos, radians, sin
from pathlib import Path
from random import Random

from PIL import Image, ImageDraw, ImageFont
from story import dice

from plan_editor.resources import resource

SIZE = (960, 720)
PAPER, INK, SOFT, GRASS, RED = "#F7F3E8", "#1E2A2F", "#9AA09C", "#6F8560", "#9A3B22"
_LINE = 5

Places = list[tuple[float, float]]


def leaning_stone(draw: ImageDraw.ImageDraw) -> None:
    """Draw a headstone that leans, with a plumb line beside it."""
    _ground(draw, 560)
    lean = radians(9.0)
    foot = (470.0, 560.0)

    def at(across: float, up: float) -> tuple[float, float]:
        return (
            foot[0] + across * cos(lean) + up * sin(lean),
            foot[1] + across * sin(lean) - up * cos(lean),
        )

    stone: Places = [at(-90, -20), at(-90, 330)]
    stone += [at(90 * -cos(radians(a)), 330 + 70 * sin(radians(a))) for a in range(0, 181, 10)]
    stone += [at(90, 330), at(90, -20)]
    draw.polygon(stone, fill="#D9D3C3")
    draw.line([*stone, stone[0]], fill=INK, width=_LINE, joint="curve")
    for up in (290, 255, 220):
        draw.line([at(-55, up), at(55, up)], fill=SOFT, width=4)
    draw.line([(380, 120), (380, 560)], fill=RED, width=4)
    draw.ellipse((370, 550, 390, 580), fill=RED)
    _words(draw, "9° to the east", (650, 300), RED)


def open_joints(draw: ImageDraw.ImageDraw) -> None:
    """Draw a rubble wall whose joints are open in the middle."""
    _ground(draw, 600)
    chance = dice("sketch of the wall")
    for course in range(7):
        _course(draw, chance, course)
    draw.rectangle((60, 130, 900, 165), outline=INK, width=_LINE, fill="#D9D3C3")
    draw.line([(300, 640), (660, 640)], fill=RED, width=4)
    _words(draw, "joints open over 6 m", (330, 655), RED)


def leaning_tree(draw: ImageDraw.ImageDraw) -> None:
    """Draw a small tree that the wind has half thrown."""
    _ground(draw, 580)
    chance = dice("sketch of the tree")
    for turn in (52, 60, 66):
        top = (260 + 430 * sin(radians(turn)), 580 - 430 * cos(radians(turn)))
        draw.line([(260, 580), top], fill=INK, width=10)
        for _ in range(26):
            x, y = top[0] + chance.uniform(-90, 70), top[1] + chance.uniform(-70, 70)
            draw.ellipse((x - 16, y - 11, x + 16, y + 11), outline=GRASS, width=3)
    _words(draw, "lifting at the root", (110, 620), RED)


SKETCHES: dict[str, Callable[[ImageDraw.ImageDraw], None]] = {
    "harrowmere-c12.jpg": leaning_stone,
    "harrowmere-south-wall.jpg": open_joints,
    "harrowmere-t29.jpg": leaning_tree,
}


def draw_all(folder: Path) -> None:
    """Draw every picture into a folder."""
    for name, sketch in SKETCHES.items():
        image = Image.new("RGB", SIZE, PAPER)
        sketch(ImageDraw.Draw(image))
        image.save(folder / name, "JPEG", quality=80, optimize=True)


def _ground(draw: ImageDraw.ImageDraw, level: int) -> None:
    draw.line([(40, level), (920, level)], fill=INK, width=_LINE)
    chance = dice(f"grass at {level}")
    for _ in range(90):
        x = chance.uniform(50, 910)
        draw.line([(x, level), (x + chance.uniform(-6, 6), level - 16)], fill=GRASS, width=3)


def _course(draw: ImageDraw.ImageDraw, chance: Random, course: int) -> None:
    top, x = 170 + 61 * course, 60.0
    while x < 895:
        wide = min(chance.uniform(60, 130), 900 - x)
        loose = 320 < x < 620 and 1 < course < 6
        gap = 9 if loose else 2
        box = (x + gap, top + gap, x + wide - gap, top + 61 - gap)
        draw.rounded_rectangle(box, radius=12, outline=INK, width=4, fill="#E6E1D3")
        x += wide


def _words(draw: ImageDraw.ImageDraw, words: str, at: tuple[float, float], colour: str) -> None:
    font = ImageFont.truetype(resource("fonts/SourceSans3-Regular.ttf"), 40)
    draw.text(at, words, fill=colour, font=font)


if __name__ == "__main__":
    draw_all(Path(__file__).parent)
