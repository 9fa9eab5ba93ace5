"""How a page can be arranged round a drawing that needs a certain room.

Everything stands in a column to the right of the drawing, or in a band of columns below it; the
title block is low right both ways.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import accumulate

from plan_editor.drawing.page import (
    PAD,
    Arrangement,
    Sizes,
    head_height,
    inner,
    sizes_for,
    title_height,
)
from plan_editor.drawing.panel import Panel

_NARROWEST = 20.0
"""A column is at least so many times as wide as its lettering is high."""

_COLUMNS = tuple(_NARROWEST + 2.0 * n for n in range(16))

Size = tuple[float, float]
"""Width and height, in millimetres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands beside a drawing, by the width that it is given.

    Args:
        panels: what is told, in the order of reading.
        head: the headline, where it stands at the head of the column.
        block: how high the title block is.
    """

    panels: Callable[[float], Sequence[Panel]]
    head: Callable[[float], Panel]
    block: Callable[[float], float]


class Manner(StrEnum):
    """Where headline and title block stand on a page."""

    FOOT = "headline over the drawing, title block at the foot of the column"
    STRIP = "headline of one line over the drawing, title block along the bottom of the page"
    HEAD = "headline at the head of the column, title block at its foot"
    BELOW = "headline over the drawing, columns below it, title block along the bottom"


def arrangements(paper: Size, beside: Beside, least: Size) -> Iterator[Arrangement]:
    """Yield the arrangements in which a drawing has at least the room that it needs."""
    for manner in Manner:
        found = arranged(paper, beside, least, manner)
        if found is not None:
            yield found


def arranged(paper: Size, beside: Beside, least: Size, manner: Manner) -> Arrangement | None:
    """Return the page arranged in one manner, or None where there is no room for everything."""
    if manner is Manner.BELOW:
        return _below(paper, beside, least)
    return _with_column(paper, beside, least, manner)


def _with_column(
    paper: Size, beside: Beside, least: Size, manner: Manner
) -> Arrangement | None:
    """Return the page with the narrowest column that holds everything."""
    left, bottom, right, top = inner(*paper)
    sizes = sizes_for(*paper)
    strip = beside.block(right - left) if manner is Manner.STRIP else 0.0
    over = _over(manner, sizes)
    broadest = min(right - left - least[0], (right - left) / 2)
    high = top - bottom - strip
    if high - over < least[1] or broadest < _NARROWEST * sizes.body:
        return None

    def stands_in(column: float) -> tuple[Panel, ...]:
        room = column - 2 * PAD
        head = (beside.head(room),) if manner is Manner.HEAD else ()
        return (*head, *beside.panels(room))

    def holds(column: float) -> bool:
        block = 0.0 if strip else beside.block(column)
        return sum(p.height + PAD for p in stands_in(column)) + PAD + block <= high

    if not holds(broadest):
        return None
    tried = (c * sizes.body for c in _COLUMNS if c * sizes.body < broadest)
    column = next((c for c in tried if holds(c)), broadest)
    side = right - column
    across = (left, right - left) if strip else (side, column)
    block = strip or beside.block(column)
    return Arrangement(
        width=paper[0],
        height=paper[1],
        plan=(left, bottom + strip, side, top - over),
        columns=((side + PAD, top - PAD, column - 2 * PAD),),
        per_column=(len(stands_in(column)),),
        block=(across[0], bottom + block, across[1]),
        sizes=sizes,
        headed=manner is Manner.HEAD,
    )


def _over(manner: Manner, sizes: Sizes) -> float:
    """Return the height of the headline over the drawing."""
    # the title block along the bottom says what the second line would
    heights = {Manner.HEAD: 0.0, Manner.STRIP: title_height(sizes)}
    return heights.get(manner, head_height(sizes))


def _below(paper: Size, beside: Beside, least: Size) -> Arrangement | None:
    """Return the page with the lowest band that holds everything."""
    left, bottom, right, top = inner(*paper)
    sizes = sizes_for(*paper)
    block = beside.block(right - left)
    ceiling = top - head_height(sizes)
    high, per_column = min(_bands(right - left, beside, sizes.body))
    band = bottom + block + high + PAD
    if right - left < least[0] or ceiling - band < max(least[1], (top - bottom) / 5):
        return None
    count = len(per_column)
    column = _column(right - left, count)
    return Arrangement(
        width=paper[0],
        height=paper[1],
        plan=(left, band, right, ceiling),
        columns=tuple(
            (left + PAD + n * (column + PAD), band - PAD, column) for n in range(count)
        ),
        per_column=per_column,
        block=(left, bottom + block, right - left),
        sizes=sizes,
    )


def _bands(
    width: float, beside: Beside, body: float
) -> Iterator[tuple[float, tuple[int, ...]]]:
    """Yield how high a band of one, two, three … columns is, and how many panels each holds."""
    most = max(1, int(width / (_NARROWEST * body)))
    for count in range(1, most + 1):
        heights = [p.height for p in beside.panels(_column(width, count))]
        per_column = _balanced(heights, count)
        yield _highest(heights, per_column), per_column


def _column(width: float, count: int) -> float:
    return (width - PAD * (count + 1)) / count


def _balanced(heights: Sequence[float], count: int) -> tuple[int, ...]:
    """Return how many panels go in each column so that the highest column is lowest."""
    if count == 1:
        return (len(heights),)
    tries = ((n, *_balanced(heights[n:], count - 1)) for n in range(len(heights) + 1))
    return min(tries, key=lambda t: (_highest(heights, t), [-n for n in t]))


def _highest(heights: Sequence[float], per_column: Sequence[int]) -> float:
    ends = accumulate(per_column)
    return max(
        sum(h + PAD for h in heights[end - n : end])
        for n, end in zip(per_column, ends, strict=True)
    )
