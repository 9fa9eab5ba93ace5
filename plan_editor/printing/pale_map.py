"""What a map that is pale but for its subject has in common: pale looks, names to go by."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.compose import Group
from plan_editor.drawing.ink import Clipped, Ink
from plan_editor.drawing.labels import Obstacles, Shapes
from plan_editor.drawing.lettering import size_of
from plan_editor.drawing.obstacles import obstacles
from plan_editor.drawing.rows import row_wishes, rows
from plan_editor.drawing.tones import pale
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.drawing.wishes import wishes
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Look

_SOFT = "#566268"
_NAME = size_of(2.0)

_NAMED = {"building": size_of(2.5), "gate": _NAME, "path": _NAME, "tree": _NAME}
"""What bears its name on the map, and how large."""

_LARGE_M = 5.0
"""A tree is known by its name where its crown reaches so far, or where it is a veteran."""

_CLEAR = 1.5


def quiet(kind: Kind, look: Look) -> Look | None:
    """Return how things are drawn that the map is not about."""
    # what a grave space may be used for is nothing to a mower or a visitor
    del look
    return None if kind.figure else pale(kind, kind.look)


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


def framed(ink: tuple[Ink, ...], viewport: Viewport) -> Clipped:
    """Return ink that ends at the frame of the drawing."""
    return Clipped(box=viewport.frame, ink=ink)


def no_room(what: str, left_out: Sequence[Wish], told: str = "") -> tuple[str, ...]:
    """Return a remark on what found no room to be written, if anything, and what to do.

    Args:
        what: they are, as more than one: ``numbers``.
        left_out: these.
        told: where what they belong to is to be found all the same, as a sentence.
    """
    if not left_out:
        return ()
    texts = ", ".join(w.text for w in left_out)
    rest = " ".join(filter(None, (told, "A larger scale or larger paper has more room.")))
    return (f"There was no room on the map to write these {what}: {texts}. {rest}",)


def _names(others: Sequence[Group], viewport: Viewport) -> Iterable[Wish]:
    """Return the names of buildings and of the ways in, then of paths and great trees."""
    items = [item for group in others for item in group.items]
    seen = set()
    for wish in wishes(others, viewport):
        item = items[wish.own]
        if item.kind.name in _NAMED and (text := _name(item)) and text not in seen:
            needed = item.kind.name in {"building", "gate"}
            seen.add(text)
            yield replace(
                wish, text=text, size=_NAMED[item.kind.name], colour=_SOFT, optional=not needed
            )


def _name(item: Item) -> str:
    if item.kind.name != "tree":
        return str(item.details.name)
    reach = item.details.crown_m or (0.0,)
    known = item.details.veteran or max(reach) >= _LARGE_M
    return str(item.details.species).capitalize() if known else ""
