"""Graves that have left a row in which there is room for them."""

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from plan_editor.checking.straight_rows import FEWEST
from plan_editor.geometry.ranks import head_of
from plan_editor.ground.rows import Row
from plan_editor.plan.item import Item

FARTHEST_M = 1.5
"""A head farther before or behind a row is not of it: half a plot's length of 9 ft."""

ROOM = 0.6
"""A row has room for one whose head is so much of its pitch from every other head."""

MOST_DEG = 45.0
"""One turned by more lies another way on purpose, or head to foot, as clergy sometimes do."""


def strays(rows: Sequence[Row], items: Sequence[Item[Any]]) -> Iterator[tuple[Item[Any], Row]]:
    """Return each that stands in no long row, with the row in which there is room for it.

    Args:
        rows: every row of their kind.
        items: everything of their kind that is a rectangle.
    """
    long = [row for row in rows if len(row.ids) >= FEWEST]
    placed = {i for row in long for i in row.ids}
    loose = [i for i in items if i.id not in placed and i.rectangle is not None]
    if not loose:
        return
    heads = np.array([head_of(i.rectangle) for i in loose if i.rectangle is not None])
    turns = np.array([i.rectangle.bearing_deg for i in loose if i.rectangle is not None])
    for row in long:
        for n in np.flatnonzero(_fits(row, heads, turns)).tolist():
            yield loose[n], row


def _fits(row: Row, heads: NDArray[np.float64], turns: NDArray[np.float64]) -> Any:
    along, aside = _within(row, heads)
    turned = (turns - row.bearing_deg + 180.0) % 360.0 - 180.0
    there = np.array(row.heads_along)
    room = np.abs(along[:, None] - there[None, :]).min(axis=1) > ROOM * row.pitch_m
    inside = (along > there[0]) & (along < there[-1])
    return inside & room & (np.abs(aside) <= FARTHEST_M) & (np.abs(turned) <= MOST_DEG)


def _within(row: Row, heads: NDArray[np.float64]) -> tuple[Any, Any]:
    turn = np.radians(row.bearing_deg)
    way = np.array((np.sin(turn), np.cos(turn)))
    from_start = heads - np.array(row.start)
    return from_start @ way, from_start @ np.array((way[1], -way[0]))
