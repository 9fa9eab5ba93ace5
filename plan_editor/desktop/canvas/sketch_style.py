"""What a tone of a sketch looks like: colour, line, hatch and sign, each a difference."""

from dataclasses import dataclass
from functools import cache
from math import ceil

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QPen

from plan_editor.desktop.canvas.palette import LIGHT, Palette
from plan_editor.desktop.canvas.sight import Sight
from plan_editor.desktop.canvas.style import hatching
from plan_editor.drawing.sketch import Tone
from plan_editor.plan.look import Hatch, Pattern, Pen

LEVELS = 8
"""So many strengths of a fill are told apart."""

FAINTEST, FULLEST = 0.05, 0.45
"""How much of its colour a fill of the least and of the greatest strength has."""

WIDEST_MM, CLOSEST_MM = 4.5, 1.8
"""How far apart the lines of its hatch are, on paper."""

HALO_PX = 1.5
"""A line is seen so far round in the colour of the ground, so that it is seen on any scan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """How a tone is drawn.

    Args:
        colour: the name of a palette's colour.
        width: of a line, in pixels.
        dash: of a line, in widths of it; empty where it is unbroken.
        pattern, angle_deg: of a fill.
        strokes: how many strokes there are across the square of a dot.
    """

    colour: str
    width: float = 1.5
    dash: tuple[float, ...] = ()
    pattern: Pattern
    angle_deg: float = 45.0
    strokes: int = 0


MANNERS = {
    Tone.MEASURED: Manner(colour="slate", pattern=Pattern.LINES, angle_deg=0.0),
    Tone.GOOD: Manner(colour="moss", pattern=Pattern.DOTS),
    Tone.DOUBT: Manner(colour="straw", dash=(4.0, 2.5), pattern=Pattern.LINES, strokes=1),
    Tone.DANGER: Manner(colour="rust", width=2.5, pattern=Pattern.CROSSED, strokes=2),
    Tone.SOFT: Manner(
        colour="soft", width=1.0, dash=(1.0, 2.5), pattern=Pattern.LINES, angle_deg=135.0
    ),
}


def level_of(strength: float) -> int:
    """Return which of the strengths of a fill that are told apart this is; 0 for none."""
    return ceil(min(strength, 1.0) * LEVELS)


def colour(tone: Tone, palette: Palette) -> QColor:
    """Return the colour of a tone."""
    return QColor(getattr(palette, MANNERS[tone].colour))


def pen(tone: Tone, palette: Palette) -> QPen:
    """Return the pen of a tone; it is as wide at every scale."""
    manner = MANNERS[tone]
    made = QPen(colour(tone, palette), manner.width)
    made.setCosmetic(True)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if manner.dash:
        made.setDashPattern(manner.dash)
    return made


def halo(tone: Tone, palette: Palette) -> QPen:
    """Return the pen that goes under that of a tone."""
    ground = QColor(palette.ground)
    ground.setAlphaF(0.7)
    made = QPen(ground, MANNERS[tone].width + 2 * HALO_PX)
    made.setCosmetic(True)
    made.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return made


def tint(tone: Tone, level: int, palette: Palette) -> QColor:
    """Return the colour of a fill, from level 1 to ``LEVELS``."""
    made = colour(tone, palette)
    made.setAlphaF(FAINTEST + (FULLEST - FAINTEST) * (level - 1) / (LEVELS - 1))
    return made


def hatch(tone: Tone, level: int, sight: Sight) -> QBrush:
    """Return the hatch of a fill: the stronger it is, the closer."""
    return hatching(_hatch(tone, level), sight.palette, scale=sight.scale, ratio=sight.ratio)


@cache
def _hatch(tone: Tone, level: int) -> Hatch:
    manner = MANNERS[tone]
    share = (level - 1) // 2 / ((LEVELS - 1) // 2)  # finer steps would not be told apart
    return Hatch(
        pattern=manner.pattern,
        angle_deg=manner.angle_deg,
        spacing=WIDEST_MM + (CLOSEST_MM - WIDEST_MM) * share,
        size=0.5,
        pen=Pen(width=0.18, colour=getattr(LIGHT, manner.colour)),
    )
