"""What is being looked at: all that the items need to know of the view while painting."""

from dataclasses import dataclass, field

import numpy as np

from plan_editor.desktop.canvas.palette import LIGHT, Palette
from plan_editor.desktop.canvas.runs import Points
from plan_editor.drawing.showing import Showing
from plan_editor.geometry.nearby import Box
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

OUTLINES_FROM = 3.0
"""Small things have an outline from so many pixels to a metre."""

MARKS_FROM = 6.0
"""Strokes, bars, marks along lines and dashes of small things are seen from here."""

LABELS_FROM = 12.0
"""Numbers and names are written from here."""


@dataclass(slots=True, kw_only=True)
class Sight:
    """Changes with every paint; the canvas alone writes it.

    Args:
        plan: the plan as it is now.
        palette: the colours.
        scale: logical pixels to a metre.
        ratio: device pixels to a logical one.
        origin: where the plan's origin lies on the screen, in whole logical pixels.
        exposed: what must be painted: least east and north, greatest east and north, in metres.
        chosen: what is chosen.
        showing: what of the plan is shown.
        over_base_plan: a base plan is to be seen through what is drawn over it.
    """

    plan: Plan = field(default_factory=Plan)
    palette: Palette = LIGHT
    scale: float = 1.0
    ratio: float = 1.0
    origin: tuple[int, int] = (0, 0)
    exposed: tuple[Box, ...] = ()
    chosen: frozenset[ItemId] = frozenset()
    showing: Showing = field(default_factory=Showing)
    over_base_plan: bool = False

    @property
    def bold(self) -> float:
        """How wide the few lines are that must be seen at once, in device pixels.

        Qt counts the width of a pen that is as wide at every scale in these.
        """
        return (3.0 if self.palette.strong else 2.0) * self.ratio

    def grown(self, pixels: float) -> tuple[Box, ...]:
        """Return what must be painted, and so many pixels more on every side."""
        more = pixels / self.scale
        return tuple((w - more, s - more, e + more, n + more) for w, s, e, n in self.exposed)

    def pixels(self, places: Points) -> list[list[int]]:
        """Return places on the ground as whole pixels of the screen, x right and y down.

        They are rounded before the scroll is taken off, or they would jitter while panning.
        """
        scaled = np.rint(places * (self.scale, -self.scale)).astype(int)
        moved: list[list[int]] = (scaled + self.origin).tolist()
        return moved

    def pixels_of(self, east: float, north: float) -> tuple[int, int]:
        """Return one place on the ground as a whole pixel of the screen."""
        ((x, y),) = self.pixels(np.array([[east, north]]))
        return x, y


def meet(one: Box, other: Box) -> bool:
    """Return whether two boxes have anything in common."""
    return (
        one[0] <= other[2] and one[2] >= other[0] and one[1] <= other[3] and one[3] >= other[1]
    )
