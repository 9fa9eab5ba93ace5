"""A label that is wished for, and its ink once it has a place."""

from dataclasses import dataclass

import numpy as np

from plan_editor.drawing.ink import Anchor, Fill, Ink, Points, Stroke, Text
from plan_editor.drawing.lettering import CAPITAL, SMALLEST, width
from plan_editor.plan.look import INK, Pen

HALO = 0.35
"""Margin in the paper's colour about a label, in millimetres."""

_BOX_MARGIN = 0.7
_LEADER = Pen(width=0.18)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wish:
    """A label that is to be drawn.

    Args:
        text: what it says.
        places: (n, 2): where its middle would lie, the dearest first; NaN where it has no room.
        target: what a leader would point to.
        turn_deg: turned anticlockwise.
        size: of the lettering, in millimetres.
        boxed: in a box.
        halo: margin in the paper's colour where it has no box.
        own: number of the obstacle that it belongs to and may lie on; -1 for none.
        like: labels of one name have their first and second places changed over together, where
            the first would do for few of them; empty for none.
        optional: left out without a word where it has no room of its own.
    """

    text: str
    places: Points
    target: tuple[float, float]
    turn_deg: float = 0.0
    size: float = SMALLEST
    bold: bool = False
    colour: str = INK
    boxed: bool = False
    halo: float = HALO
    own: int = -1
    like: str = ""
    optional: bool = False

    @property
    def extent(self) -> tuple[float, float]:
        """Its length and height on paper, box included, in millimetres."""
        more = 2 * _BOX_MARGIN if self.boxed else 0.0
        long = width(self.text, bold=self.bold) * self.size
        return long + more, self.size * CAPITAL + more


def leader(wish: Wish, at: Points) -> Ink:
    """Return the line from what a label is about to the label, whose middle is given."""
    # as far as the nearest side of the label
    target = np.array(wish.target)
    half = np.array(wish.extent) / 2
    end = np.clip(target, at - half, at + half)
    return Stroke(lines=(np.array([target, end]),), pen=_LEADER)


def written(wish: Wish, x: float, y: float) -> tuple[Ink, ...]:
    """Return the ink of a label about its middle, with its box where it has one."""
    drop = wish.size * CAPITAL / 2
    turn = np.radians(wish.turn_deg)
    text = Text(
        text=wish.text,
        x=x + float(np.sin(turn)) * drop,
        y=y - float(np.cos(turn)) * drop,
        size=wish.size,
        bold=wish.bold,
        colour=wish.colour,
        anchor=Anchor.MIDDLE,
        turn_deg=wish.turn_deg,
        halo=0.0 if wish.boxed else wish.halo,
    )
    if not wish.boxed:
        return (text,)
    half_w, half_h = wish.extent[0] / 2, wish.extent[1] / 2
    ring = np.array([(x - half_w, y - half_h), (x + half_w, y - half_h),
                     (x + half_w, y + half_h), (x - half_w, y + half_h)])  # fmt: skip
    pen = Pen(width=0.25, colour=wish.colour)
    return (
        Fill(rings=(ring,), colour="#FFFFFF"),
        Stroke(lines=(ring,), pen=pen, closed=True),
        text,
    )
