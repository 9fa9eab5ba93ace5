"""From a place on the screen to a pointer on the ground: what is caught, what lies under it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.nearby import Box
from plan_editor.geometry.snapping import Snap, SnapKind, snap
from plan_editor.plan.item import ItemId
from plan_editor.session import Session
from plan_editor.survey.grids.grid import LOCAL

CATCH_PX = 10.0
"""A place so near the pointer is caught, in logical pixels."""

FINGER_PX = 8.0
"""What a tool's reach stands for, in logical pixels."""

MOST_CAUGHT = 400
"""With more things than this within reach, seen from afar, nothing is caught."""

WORDS = {
    SnapKind.CORNER: "on a corner of",
    SnapKind.CROSSING: "on a crossing of",
    SnapKind.MIDDLE: "on the middle of a side of",
    SnapKind.FOOT: "square to",
    SnapKind.EDGE: "on the edge of",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place on the ground, caught or not.

    Args:
        east, north: metres about the plan's origin.
        caught: whether it is that of something on the plan.
        words: what was caught: ``on a corner of Wall W 3``.
    """

    east: float
    north: float
    caught: bool = False
    words: str = ""


def placed(
    session: Session,
    shown: frozenset[str],
    under: Sequence[BaseGeometry],
    place: Place,
    reach: float,
) -> Place:
    """Return the place that is meant by one that was pointed at.

    Args:
        session: what is worked on.
        shown: names of the kinds that can be seen: only they are caught.
        under: lines of base plans near the place.
        place: where the pointer is.
        reach: metres within which something is caught.
    """
    items = session.document.plan.items
    near = session.document.index.boxes.near(place.east, place.north, reach)
    seen = map(items.__getitem__, near)
    # the edge of a scan is no place on the ground
    found = [i for i in seen if i.kind.name in shown and not i.kind.pinned]
    if len(found) + len(under) > MOST_CAUGHT:
        return place
    shapes = [*(i.shape for i in found if i.shape is not None), *under]
    start = session.answer.origin
    caught = snap(shapes, east=place.east, north=place.north, reach=reach, start=start)
    if caught is None:
        return place
    return Place(
        east=caught.east,
        north=caught.north,
        caught=True,
        words=_words(caught, [i.called() for i in found]),
    )


def hits(
    session: Session, shown: frozenset[str], place: Place, reach: float
) -> tuple[ItemId, ...]:
    """Return what can be seen and moved by hand under a place, the top one first."""
    items = session.document.plan.items
    return tuple(
        i
        for i in session.hits(place.east, place.north, reach)
        if items[i].kind.name in shown and not items[i].kind.pinned
    )


def coordinates(session: Session, place: Place) -> str:
    """Return a place in the plan's coordinate system: ``E 553 112.48  N 421 087.15``.

    That the numbers are those of a local grid is said; others are too large to be.
    """
    grid = session.document.plan.grid
    east, north = grid.to_crs(place.east, place.north)
    local = "  local grid" if grid.crs == LOCAL else ""
    return f"E {_spaced(east)}  N {_spaced(north)}{local}"


def boxes_of(session: Session, ids: Iterable[ItemId]) -> list[Box]:
    """Return the boxes of those items that have a place."""
    boxes = session.document.index.boxes
    return [boxes.box(i) for i in ids if i in boxes]


def _words(caught: Snap, names: Sequence[str]) -> str:
    name = names[caught.index] if caught.index < len(names) else "the base plan"
    return f"{WORDS[caught.what]} {name}"


def _spaced(metres: float) -> str:
    # groups of three apart by a thin space that does not break
    return f"{metres:,.2f}".replace(",", "\u202f")
