"""How a kind is drawn: pens, hatches and symbols in millimetres on paper.

The same values dress the canvas, the PDF and the DXF. Ink first: line type and hatching carry
the meaning, so that it survives a black-and-white copy; colour only helps.
"""

from dataclasses import dataclass
from enum import StrEnum

INK = "#1E2A2F"
"""The colour of a line that has none of its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """A line: its width (ISO 128 series: 0.18, 0.25, 0.35, 0.5, 0.7), colour, and dashes.

    Args:
        width: millimetres on paper.
        colour: ``#rrggbb``.
        dash: lengths on and off in turn, millimetres on paper; empty for an unbroken line.
    """

    width: float = 0.25
    colour: str = INK
    dash: tuple[float, ...] = ()


class Pattern(StrEnum):
    """What an area is filled with."""

    LINES = "lines"
    CROSSED = "crossed lines"
    DOTS = "dots"
    STROKES = "short upright strokes"
    CROSSES = "crossed strokes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """A pattern that fills an area: spacing and size of its marks in millimetres on paper."""

    pattern: Pattern = Pattern.LINES
    angle_deg: float = 45.0
    spacing: float = 2.0
    size: float = 1.0
    pen: Pen = Pen(width=0.18)


class Mark(StrEnum):
    """What is repeated along a line."""

    TICKS = "cross-strokes"
    SCALLOPS = "scallops"
    ARROWS = "arrows"
    LETTERS = "letters in gaps"


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """Marks along a line, every so many millimetres of paper."""

    mark: Mark
    every: float = 5.0
    size: float = 1.2
    text: str = ""


class Across(StrEnum):
    """Strokes across a rectangle, which tell the state of a grave space."""

    NONE = "none"
    ONE = "one corner to corner"
    TWO = "both corner to corner"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How items of a kind are drawn.

    Args:
        pen: the outline of an area, or the line; None draws none.
        fill: ``#rrggbb`` under the hatch; always pale enough to be left out of a copy without
            loss.
        hatch: the pattern inside an area.
        along: marks along the line.
        symbol: name of a drawing in ``resources/symbols`` for a point, without suffix.
        symbol_mm: its height on paper.
        head_bar: a short thick bar across the head end of a rectangle.
        across: strokes across a rectangle.
        face: a thin stroke outwards from the middle of a rectangle's head line: the side from
            which a stone is read.
        solid: the footprint is filled with the pen's colour (a stone seen from above).
        edges_only: for a line with a width, only its two edges are drawn.
    """

    pen: Pen | None = Pen()
    fill: str | None = None
    hatch: Hatch | None = None
    along: Along | None = None
    symbol: str = ""
    symbol_mm: float = 2.5
    head_bar: bool = False
    across: Across = Across.NONE
    face: bool = False
    solid: bool = False
    edges_only: bool = False
