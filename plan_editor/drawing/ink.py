"""Ink: all that a renderer can draw. Millimetres on paper, x right and y up from bottom left.

A renderer knows nothing of churchyards, and whoever composes ink knows nothing of PDF or Qt.
"""

from dataclasses import dataclass, field
from enum import Enum
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from plan_editor.plan.look import INK, Pen

Points = NDArray[np.float64]
"""An array of shape (n, 2): x and y in millimetres on paper. Never written to."""

Clip = tuple[float, float, float, float]
"""Left, bottom, right, top in millimetres on paper."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stroke:
    """Lines drawn with one pen; many in one stroke, so that a hatch is one piece of ink.

    Args:
        lines: each an array of points.
        closed: whether each line returns to its start.
    """

    lines: tuple[Points, ...]
    pen: Pen = field(default_factory=Pen)
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fill:
    """Areas of one flat colour.

    Args:
        rings: outer and inner rings of one or more areas; inside by the even-odd rule.
    """

    rings: tuple[Points, ...]
    colour: str = INK


class Anchor(Enum):
    """Which point of a text lies at its place: across, and from the baseline up."""

    LEFT = "left"
    MIDDLE = "middle"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text.

    Args:
        x, y: where its baseline begins, has its middle, or ends.
        size: height of the lettering (of the em) in millimetres.
        bold: in the semibold face.
        turn_deg: turned anticlockwise about x, y.
        halo: a margin in the paper's colour, so that it reads on lines; millimetres, or 0.
    """

    text: str
    x: float
    y: float
    size: float = 2.5
    bold: bool = False
    colour: str = INK
    anchor: Anchor = Anchor.LEFT
    turn_deg: float = 0.0
    halo: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """An upright picture: rows from the top, 8-bit grey (h, w) or RGB (h, w, 3).

    Args:
        left, bottom, right, top: where its edges lie.
        opacity: 1.0 covers what is beneath.
    """

    pixels: NDArray[np.uint8]
    left: float
    bottom: float
    right: float
    top: float
    opacity: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Clipped:
    """Ink that is cut off at the edges of a box."""

    box: Clip
    ink: "tuple[Ink, ...]"


Ink = Stroke | Fill | Text | Picture | Clipped


class Renderer(Protocol):
    """Whatever puts ink on something."""

    def draw(self, ink: Ink) -> Any:
        """Draw one piece of ink over what is there."""
        ...
