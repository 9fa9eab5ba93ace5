"""Rows of graves, found from how the graves lie; nothing of them is stored.

Two graves stand next to each other in a row where their head lines run the same way within
``ALIKE_DEG``, the middle of the one's head lies less than ``ASIDE_M`` before or behind the
head line of the other, and no more than ``APART_M`` along it, which leaves room for some graves
that nobody has traced. Rows of a churchyard are laid with a cord along the heads, so that the
heads are in line even where the graves differ in length. These figures are common practice and
our own; no standard gives them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.geometry.bearings import bearing
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import Axis, Place
from plan_editor.kinds import grave
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan

ALIKE_DEG = 20.0
"""Head lines of neighbours in a row differ by less than this."""

ASIDE_M = 0.7
"""Heads of neighbours in a row are out of line by less than this."""

APART_M = 5.0
"""Heads of neighbours in a row are no farther apart than this, along it."""

Numbers = NDArray[np.float64]
Whole = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Graves side by side, with their heads in line.

    Args:
        kind: the name of their kind.
        ids: the graves in order along the row, the way in which their head lines run.
        start: where the row's axis meets the outer end of the first one's head line, east and
            north in metres.
        end: the same of the last one.
        bearing_deg: the bearing of the axis, from start to end.
        heads_along: how far along the axis, from the start, the middle of each one's head is.
        pitch_m: the median distance from the middle of one head to the next, along the axis.
    """

    kind: str
    ids: tuple[ItemId, ...]
    start: Place
    end: Place
    bearing_deg: float
    heads_along: tuple[float, ...]
    pitch_m: float

    @property
    def axis(self) -> Axis:
        """The row's line, from its start."""
        return Axis(start=self.start, bearing_deg=self.bearing_deg)

    @property
    def length_m(self) -> float:
        """From the outer end of the first head line to that of the last."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


def rows(plan: Plan, kind: Kind = grave.KIND) -> tuple[Row, ...]:
    """Return the rows in which things of a kind stand, two or more in each.

    Cost: one pass over what is near each; a thousand graves take some milliseconds.
    """
    return rows_among([i for i in plan.of(kind) if i.rectangle is not None])


def row_of(plan: Plan, item: ItemId) -> Row | None:
    """Return the row in which something stands, or None where it stands in none."""
    there = plan.items.get(item)
    if there is None or there.rectangle is None:
        return None
    return next((row for row in rows(plan, there.kind) if item in row.ids), None)


def rows_among(items: Sequence[Item[Any]]) -> tuple[Row, ...]:
    """Return the rows in which these stand; those that are no rectangles are passed over."""
    held = [(i, i.rectangle) for i in items if i.rectangle is not None]
    heads, turns = _heads([r for _, r in held])
    groups = _joined(len(held), *_neighbours(heads, turns))
    return tuple(_row([held[n] for n in group]) for group in groups if len(group) > 1)


def row_through(items: Sequence[Item[Any]]) -> Row | None:
    """Return these things as one row, whatever they look like; None of fewer than two."""
    held = [(i, i.rectangle) for i in items if i.rectangle is not None]
    return _row(held) if len(held) > 1 else None


def _heads(rectangles: Sequence[Rectangle]) -> tuple[Numbers, Numbers]:
    """Return the middles of head lines, east and north in metres, and their bearings."""
    told = [(r.east, r.north, r.width / 2, r.bearing_deg) for r in rectangles]
    east, north, half, turns = np.array(told).reshape(-1, 4).T
    way = np.radians(turns)
    return np.column_stack((east + half * np.sin(way), north + half * np.cos(way))), turns


def _neighbours(heads: Numbers, turns: Numbers) -> tuple[Whole, Whole]:
    """Return pairs of which the second stands next after the first in its row."""
    points = np.asarray(shapely.points(heads), dtype=object)
    first, second = shapely.STRtree(points).query(points, "dwithin", hypot(APART_M, ASIDE_M))
    # the way in which both lie, in the mean: the same pair is judged alike from either side
    apart = (turns[second] - turns[first] + 180.0) % 360.0 - 180.0
    mean = np.radians(turns[first] + apart / 2)
    de, dn = (heads[second] - heads[first]).T
    along, aside = de * np.sin(mean) + dn * np.cos(mean), de * np.cos(mean) - dn * np.sin(mean)
    fits = (np.abs(apart) < ALIKE_DEG) & (np.abs(aside) < ASIDE_M)
    fits &= (along > np.abs(aside)) & (along <= APART_M)
    first, second, along = first[fits], second[fits], along[fits]
    # of all that follow, the nearest; and of all that precede that one, the nearest
    order = np.lexsort((along, first))
    _, nearest = np.unique(first[order], return_index=True)
    kept = order[nearest]
    first, second, along = first[kept], second[kept], along[kept]
    order = np.lexsort((along, second))
    _, nearest = np.unique(second[order], return_index=True)
    kept = order[nearest]
    return first[kept], second[kept]


def _joined(count: int, first: Whole, second: Whole) -> list[list[int]]:
    """Return chains of neighbours: each has one that follows at most, and one that precedes."""
    after = dict(zip(first.tolist(), second.tolist(), strict=True))
    chains = []
    for begin in sorted(set(range(count)) - set(after.values())):
        chain = [begin]
        while (following := after.get(chain[-1])) is not None:
            chain.append(following)
        chains.append(chain)
    return chains


def _row(held: Sequence[tuple[Item[Any], Rectangle]]) -> Row:
    heads, turns = _heads([r for _, r in held])
    middle = heads.mean(axis=0)
    way = _way(heads - middle, turns)
    along = (heads - middle) @ way
    order = np.argsort(along, kind="stable")
    placed = [held[n] for n in order.tolist()]
    reaches = (placed[0][1].width / 2, placed[-1][1].width / 2)
    ends = middle + np.outer((along[order[0]] - reaches[0], along[order[-1]] + reaches[1]), way)
    (start, end) = ((float(e), float(n)) for e, n in ends.tolist())
    return Row(
        kind=placed[0][0].kind.name,
        ids=tuple(item.id for item, _ in placed),
        start=start,
        end=end,
        bearing_deg=bearing(*way.tolist()),
        heads_along=tuple((along[order] - along[order[0]] + reaches[0]).tolist()),
        pitch_m=float(np.median(np.diff(along[order]))),
    )


def _way(heads: Numbers, turns: Numbers) -> Numbers:
    """Return the unit vector along the heads, the way in which the head lines run."""
    # the axis of inertia: the way in which the heads are spread most
    _, _, axes = np.linalg.svd(heads, full_matrices=False)
    lines = np.array([np.sin(np.radians(turns)).sum(), np.cos(np.radians(turns)).sum()])
    way: Numbers = axes[0] if axes[0] @ lines >= 0 else -axes[0]
    return way
