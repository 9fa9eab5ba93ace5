"""A page: its frame, and the places of the plan, of what stands beside it, and of the title.

Either everything stands in a column to the right of the plan, or in a band below it; the title
block is low right both ways. Frame by ISO 5457: 20 mm for filing on the left, 10 mm elsewhere.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.drawing.ink import Clip, Ink, Stroke, Text
from plan_editor.drawing.lettering import shortened, width
from plan_editor.drawing.panel import Panel
from plan_editor.plan.look import Pen

FILING, EDGE = 20.0, 10.0
"""Margins of ISO 5457, left and elsewhere, in millimetres."""

PAD = 3.0
"""Kept free within the frame, in millimetres."""

_COLUMNS = (58.0, 64.0, 70.0, 76.0, 83.0, 90.0, 98.0, 108.0, 120.0, 150.0)
_BODY = 2.5
_BORDER = Pen(width=0.7)
_RULE = Pen(width=0.35)
_SOFT = "#566268"

Panels = Callable[[float], Sequence[Panel]]
"""Lay out what stands beside the plan in a width."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Sizes of lettering on a page, in millimetres."""

    body: float
    head: float
    title: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Where everything on a page is.

    Args:
        width, height: of the paper.
        plan: frame of the drawing.
        columns: left, top and width of each column of panels.
        per_column: how many of the panels stand in each.
        block: left, top and width of the title block.
        sizes: of lettering.
    """

    width: float
    height: float
    plan: Clip
    columns: tuple[tuple[float, float, float], ...]
    per_column: tuple[int, ...]
    block: tuple[float, float, float]
    sizes: Sizes

    @property
    def room(self) -> tuple[float, float]:
        """Width and height of the drawing's frame."""
        left, bottom, right, top = self.plan
        return right - left, top - bottom


def sizes_for(width: float, height: float) -> Sizes:
    """Return lettering that suits a paper: larger sheets are read from farther off."""
    larger = (max(width, height) / 297.0) ** 0.35
    return Sizes(body=_BODY * larger, head=3.1 * larger, title=6.2 * larger)


def inner(width: float, height: float) -> Clip:
    """Return the frame of a page."""
    return FILING, EDGE, width - EDGE, height - EDGE


def beside_plan(
    width: float, height: float, panels: Panels, block: Callable[[float], float]
) -> Arrangement | None:
    """Return the arrangement with a column to the right, the narrowest that holds all.

    The paper is ``width`` by ``height``; ``block`` tells how high a title block of a width is.
    """
    left, bottom, right, top = inner(width, height)
    sizes = sizes_for(width, height)
    for column in (broad * sizes.body / _BODY for broad in _COLUMNS):
        made = panels(column - 2 * PAD)
        needed = sum(p.height + PAD for p in made) + PAD + block(column)
        if needed <= top - bottom and column < (right - left) / 2:
            side = right - column
            return Arrangement(
                width=width,
                height=height,
                plan=(left, bottom, side, top - head_height(sizes)),
                columns=((side + PAD, top - PAD, column - 2 * PAD),),
                per_column=(len(made),),
                block=(side, bottom + block(column), column),
                sizes=sizes,
            )
    return None


def below_plan(
    width: float, height: float, panels: Panels, block: Callable[[float], float]
) -> Arrangement | None:
    """Return the arrangement with a band of columns below; None where nothing is left above."""
    left, bottom, right, top = inner(width, height)
    sizes = sizes_for(width, height)
    count = max(2, int((right - left) // 95.0))
    column = (right - left - PAD * (count + 1)) / count
    made = panels(column)
    per_column = _balanced([p.height for p in made], count)
    high = _highest([p.height for p in made], per_column)
    band = bottom + block(right - left) + high + PAD
    if band + (top - bottom) / 4 > top:
        return None
    return Arrangement(
        width=width,
        height=height,
        plan=(left, band, right, top - head_height(sizes)),
        columns=tuple(
            (left + PAD + n * (column + PAD), band - PAD, column) for n in range(count)
        ),
        per_column=per_column,
        block=(left, bottom + block(right - left), right - left),
        sizes=sizes,
    )


def _balanced(heights: Sequence[float], count: int) -> tuple[int, ...]:
    """Return how many panels go in each column so that the highest column is lowest."""
    if count == 1:
        return (len(heights),)
    tries = ((n, *_balanced(heights[n:], count - 1)) for n in range(len(heights) + 1))
    return min(tries, key=lambda t: (_highest(heights, t), [-n for n in t]))


def _highest(heights: Sequence[float], per_column: Sequence[int]) -> float:
    ends = np.cumsum(per_column)
    return max(
        sum(h + PAD for h in heights[end - n : end])
        for n, end in zip(per_column, ends, strict=True)
    )


def page_ink(
    places: Arrangement, headline: tuple[str, str], panels: Sequence[Panel], block: Panel
) -> tuple[Ink, ...]:
    """Return all of a page but its drawing."""
    ink: list[Ink] = list(_headline(places, headline))
    start = 0
    for (left, top, _), count in zip(places.columns, places.per_column, strict=True):
        for panel in panels[start : start + count]:
            ink.extend(panel.at(left, top))
            top -= panel.height + PAD  # noqa: PLW2901  # runs down the column
        start += count
    return (*ink, *_frames(places), *block.at(places.block[0], places.block[1]))


def head_height(sizes: Sizes) -> float:
    """Return the height of the headline over the drawing."""
    return sizes.title * 1.25 + sizes.head * 1.6


def _headline(places: Arrangement, headline: tuple[str, str]) -> tuple[Ink, ...]:
    left, _, right, top = places.plan
    title, below = headline
    room = right - left - 2 * PAD
    size = places.sizes.title
    # a long title is written smaller before it is cut
    size *= max(0.6, min(1.0, room / (width(title, bold=True) * size or 1.0)))
    small = places.sizes.head
    ceiling = top + head_height(places.sizes)
    return (
        Text(
            text=shortened(title, size, room, bold=True),
            x=left + PAD,
            y=ceiling - places.sizes.title * 1.1,
            size=size,
            bold=True,
        ),
        Text(
            text=shortened(below, small, room),
            x=left + PAD,
            y=top + small * 0.62,
            size=small,
            colour=_SOFT,
        ),
    )


def _frames(places: Arrangement) -> tuple[Ink, ...]:
    return (
        Stroke(lines=(_ring(places.plan),), pen=_RULE, closed=True),
        Stroke(lines=(_ring(inner(places.width, places.height)),), pen=_BORDER, closed=True),
    )


def _ring(box: Clip) -> "np.ndarray[tuple[int, int], np.dtype[np.float64]]":
    left, bottom, right, top = box
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
