"""What is written on the mowing map: stones to keep from, dates, names to find one's way by."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import numpy as np
import shapely

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.lettering import size_of
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.drawing.zones import RUST
from plan_editor.ground.clearance import KeptFrom
from plan_editor.plan.item import Item
from plan_editor.printing.sheets.mowing.told import Told

_MOSS = "#44662F"
_SOFT = "#566268"

_STONE = size_of(2.5)
_NAME = size_of(2.0)

_ROUND = np.array([(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)])
_FROM_STONE = 3.0


def warned(told: Told, viewport: Viewport) -> tuple[Wish, ...]:
    """Return the labels that the map is about: numbers of unsafe stones, and dates."""
    numbers = (_number(k, viewport) for z in told.zones for k in z.kept_from)
    return (*numbers, *_until(told, viewport))


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
