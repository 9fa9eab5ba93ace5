"""A page: its frame, and the places of the plan, of what stands beside it, and of the title.

Frame by ISO 5457: 20 mm for filing on the left, 10 mm elsewhere.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.drawing.ink import Clip, Ink, Points, Stroke, Text
from plan_editor.drawing.lettering import shortened, size_of, width
from plan_editor.drawing.panel import Panel, stacked, words
from plan_editor.plan.look import Pen

FILING, EDGE = 20.0, 10.0
"""Margins of ISO 5457, left and elsewhere, in millimetres."""

PAD = 3.0
"""Kept free within the frame, in millimetres."""

_BODY_MM, _HEAD_MM, _TITLE_MM = 2.0, 2.4, 4.2
"""Height of capitals on paper that is held in the hand."""

_IN_HAND = 420.0

_BORDER = Pen(width=0.7)
_RULE = Pen(width=0.35)
_SOFT = "#566268"
_TITLE_LEADING = 1.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Sizes of lettering on a page, in millimetres."""

    body: float
    head: float
    title: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Where everything on a page is.

    The headline stands over the drawing, but where it is the first panel; its second line only
    where there is height for it.

    Args:
        width, height: of the paper.
        plan: frame of the drawing.
        columns: left, top and width of each column of panels.
        per_column: how many of the panels stand in each.
        block: left, top and width of the title block.
        sizes: of lettering.
        headed: the headline is the first panel; else it stands over the drawing.
    """

    width: float
    height: float
    plan: Clip
    columns: tuple[tuple[float, float, float], ...]
    per_column: tuple[int, ...]
    block: tuple[float, float, float]
    sizes: Sizes
    headed: bool = False

    @property
    def room(self) -> tuple[float, float]:
        """Width and height of the drawing's frame."""
        left, bottom, right, top = self.plan
        return right - left, top - bottom


def sizes_for(width: float, height: float) -> Sizes:
    """Return lettering that suits a paper: sheets too large for the hand are read from farther.

    Capitals of running text are 2 mm high on A4 and A3, and on A2 nearly the 2.5 mm that are
    the usual size of ISO 3098.
    """
    larger = max(1.0, max(width, height) / _IN_HAND) ** 0.5
    return Sizes(
        body=size_of(_BODY_MM * larger),
        head=size_of(_HEAD_MM * larger),
        title=size_of(_TITLE_MM * larger),
    )


def inner(width: float, height: float) -> Clip:
    """Return the frame of a page."""
    return FILING, EDGE, width - EDGE, height - EDGE


def page_ink(
    places: Arrangement, headline: tuple[str, str], panels: Sequence[Panel], block: Panel
) -> tuple[Ink, ...]:
    """Return all of a page but its drawing."""
    ink: list[Ink] = []
    if places.headed:
        panels = (headline_panel(headline, places.columns[0][2], places.sizes), *panels)
    else:
        ink.extend(_headline(places, headline))
    start = 0
    for (left, top, _), count in zip(places.columns, places.per_column, strict=True):
        for panel in panels[start : start + count]:
            ink.extend(panel.at(left, top))
            top -= panel.height + PAD  # noqa: PLW2901  # runs down the column
        start += count
    return (*ink, *_frames(places), *block.at(places.block[0], places.block[1]))


def head_height(sizes: Sizes) -> float:
    """Return the height of a headline of two lines over the drawing."""
    return title_height(sizes) + sizes.head * 1.5


def title_height(sizes: Sizes) -> float:
    """Return the height of a headline of one line over the drawing."""
    return sizes.title * 1.3


def headline_panel(headline: tuple[str, str], width: float, sizes: Sizes) -> Panel:
    """Return the headline as it stands at the head of a column."""
    title, below = headline
    told = words(title, width, size=sizes.title, bold=True, leading=_TITLE_LEADING)
    return stacked((told, words(below, width, size=sizes.head, colour=_SOFT)), PAD / 2)


def _headline(places: Arrangement, headline: tuple[str, str]) -> tuple[Ink, ...]:
    left, _, right, top = places.plan
    title, below = headline
    room = right - left - 2 * PAD
    size = places.sizes.title
    # a long title is written smaller before it is cut
    size *= max(0.6, min(1.0, room / (width(title, bold=True) * size or 1.0)))
    small = places.sizes.head
    ceiling = inner(places.width, places.height)[3]
    first = Text(
        text=shortened(title, size, room, bold=True),
        x=left + PAD,
        y=ceiling - places.sizes.title * 0.98,
        size=size,
        bold=True,
    )
    if ceiling - top < head_height(places.sizes) - 0.01:
        return (first,)
    second = Text(
        text=shortened(below, small, room),
        x=left + PAD,
        y=top + small * 0.62,
        size=small,
        colour=_SOFT,
    )
    return first, second


def _frames(places: Arrangement) -> tuple[Ink, ...]:
    return (
        Stroke(lines=(_ring(places.plan),), pen=_RULE, closed=True),
        Stroke(lines=(_ring(inner(places.width, places.height)),), pen=_BORDER, closed=True),
    )


def _ring(box: Clip) -> Points:
    left, bottom, right, top = box
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
