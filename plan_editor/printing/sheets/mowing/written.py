"""What is written on the mowing map: stones to keep from, dates, names to find one's way by."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.compose import Group
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.labels import Obstacles, Shapes
from plan_editor.drawing.lettering import size_of
from plan_editor.drawing.obstacles import obstacles
from plan_editor.drawing.rows import row_wishes, rows
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.drawing.wishes import wishes
from plan_editor.drawing.zones import RUST
from plan_editor.ground.clearance import KeptFrom
from plan_editor.kinds import building, gate, path, tree
from plan_editor.plan.item import Item
from plan_editor.printing.sheets.mowing.told import Told

_MOSS = "#44662F"
_SOFT = "#566268"

_STONE = size_of(2.5)
_NAME = size_of(2.0)

_NAMED = {building.KIND: size_of(2.5), gate.KIND: _NAME, path.KIND: _NAME, tree.KIND: _NAME}
"""What bears its name on the map, and how large."""

_LARGE_M = 5.0
"""A tree is known by its name where its crown reaches so far, or where it is a veteran."""

_ROUND = np.array([(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)])
_FROM_STONE = 3.0
_CLEAR = 1.5


def warned(told: Told, viewport: Viewport) -> tuple[Wish, ...]:
    """Return the labels that the map is about: numbers of unsafe stones, and dates."""
    numbers = (_number(k, viewport) for z in told.zones for k in z.kept_from)
    return (*numbers, *_until(told, viewport))


def round_stones(stones: Sequence[BaseGeometry], viewport: Viewport) -> Obstacles:
    """Return what those labels keep clear of: the stones to keep from."""
    shapes = viewport.shapes(stones)
    around = shapely.buffer(shapes, _CLEAR) if len(shapes) else shapes
    return Obstacles(open=np.array([], dtype=object), solid=around)


def named(others: Sequence[Group], viewport: Viewport) -> tuple[Wish, ...]:
    """Return the labels to find one's way by: names, then the ends of the rows."""
    ends = (
        w for row in rows(others, viewport) for w in row_wishes(row, size=_NAME, colour=_SOFT)
    )
    return (*_names(others, viewport), *ends)


def clear_of(others: Sequence[Group], taken: Shapes, viewport: Viewport) -> Obstacles:
    """Return what names keep clear of: what stands on the ground, and room that is taken."""
    found = obstacles(others, viewport)
    return replace(found, solid=np.concatenate([taken, found.solid]))


def _number(kept: KeptFrom, viewport: Viewport) -> Wish:
    """Return the number of an unsafe stone, in a box."""
    middle = viewport.shape(kept.footprint).centroid
    at = (float(middle.x), float(middle.y))
    wish = Wish(
        text=kept.item.number or _without_number(kept.item),
        places=np.zeros((0, 2)),
        target=at,
        size=_STONE,
        bold=True,
        colour=RUST,
        boxed=True,
    )
    return replace(wish, places=at + _ROUND * (np.array(wish.extent) / 2 + _FROM_STONE))


def _without_number(item: Item[Any]) -> str:
    return "no number" if item.kind.name == "memorial" else item.called()


def _until(told: Told, viewport: Viewport) -> Iterable[Wish]:
    """Return the day until which each piece of grass is left, in the middle of it."""
    steps = np.array([(0, 0), (0, 5), (0, -5), (8, 0), (-8, 0)])
    for item in told.resting:
        shape = viewport.shape(item.shape) if item.shape is not None else shapely.Point()
        point = shape.representative_point()
        yield Wish(
            text=f"uncut until {in_words(item.details.uncut_until)}",
            places=np.array([(point.x, point.y)]) + steps,
            target=(float(point.x), float(point.y)),
            size=_NAME,
            bold=True,
            colour=_MOSS,
            boxed=True,
        )


def _names(others: Sequence[Group], viewport: Viewport) -> Iterable[Wish]:
    """Return the names of buildings and of the ways in, then of paths and great trees."""
    items = [item for group in others for item in group.items]
    seen = set()
    for wish in wishes(others, viewport):
        item = items[wish.own]
        if item.kind in _NAMED and (text := _name(item)) and text not in seen:
            needed = item.kind in {building.KIND, gate.KIND}
            seen.add(text)
            yield replace(
                wish, text=text, size=_NAMED[item.kind], colour=_SOFT, optional=not needed
            )


def _name(item: Item) -> str:
    if item.kind != tree.KIND:
        return str(item.details.name)
    reach = item.details.crown_m or (0.0,)
    known = item.details.veteran or max(reach) >= _LARGE_M
    return str(item.details.species).capitalize() if known else ""
