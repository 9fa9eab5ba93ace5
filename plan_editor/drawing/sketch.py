"""A sketch over the ground: arrows, ellipses and patches that explain a computation."""

from dataclasses import dataclass
from enum import StrEnum

from plan_editor.drawing.ink import Points


class Tone(StrEnum):
    """What a stroke of a sketch tells; colour only helps, so each has its own line too."""

    MEASURED = "measured"
    GOOD = "good"
    DOUBT = "doubt"
    DANGER = "danger"
    SOFT = "soft"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SketchLine:
    """A line over the ground.

    Args:
        points: n by 2, east and north in metres; closed where the last is the first.
        tone: what it tells.
        arrow: whether it ends in an arrow head.
    """

    points: Points
    tone: Tone = Tone.MEASURED
    arrow: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SketchDot:
    """A small open square at a place, with its name beside it."""

    east: float
    north: float
    text: str = ""
    tone: Tone = Tone.MEASURED


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SketchPatch:
    """A filled area, without outline.

    Args:
        points: n by 2, east and north in metres.
        strength: 0 to 1, how strongly it is filled.
        tone: what it tells.
    """

    points: Points
    strength: float
    tone: Tone = Tone.DOUBT


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sketch:
    """All that is sketched at a time, patches under lines under dots."""

    patches: tuple[SketchPatch, ...] = ()
    lines: tuple[SketchLine, ...] = ()
    dots: tuple[SketchDot, ...] = ()
