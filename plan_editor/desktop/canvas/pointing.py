"""From a place on the screen to a pointer on the ground: what is caught, what lies under it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.nearby import Box
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.snapping import Snap, SnapKind, snap
from plan_editor.plan.item import Item, ItemId
from plan_editor.session import Session
from plan_editor.survey.grids.grid import LOCAL

CATCH_PX = 10.0
"""A place so near the pointer is caught, in logical pixels."""

FINGER_PX = 8.0
"""What a tool's reach stands for, in logical pixels."""

MOST_CAUGHT = 400
"""With more things than this within reach, seen from afar, nothing is caught."""

HEADS_M = 6.0
"""The head and foot lines of a grave lead on so far past it: the next ones stand in line."""

WORDS = {
    SnapKind.CORNER: "on a corner of",
    SnapKind.CROSSING: "on a crossing of",
    SnapKind.MIDDLE: "on the middle of a side of",
    SnapKind.FOOT: "square to",
    SnapKind.EDGE: "on the edge of",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """A straight line that places are caught on, though nothing of the plan lies there.

    Args:
        line: in metres; its ends mean nothing.
        on: how a place lies to it: ``in line with``.
        name: what it is: ``the head of Grave C 14``.
    """

    line: LineString
    on: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Beneath:
    """What base plans show near a place: lines of drawings, and what is inked on scans."""

    drawn: Sequence[BaseGeometry] = ()
    inked: Sequence[Axis] = ()


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
    beneath: Beneath,
    place: Place,
    reach: float,
) -> Place:
    """Return the place that is meant by one that was pointed at.

    Args:
        session: what is worked on.
        shown: names of the kinds that can be seen: only they are caught.
        beneath: lines of base plans near the place.
        place: where the pointer is.
        reach: metres within which something is caught.
    """
    # the edge of a scan is no place on the ground
    found = [i for i in _seen(session, shown, place, reach) if not i.kind.pinned]
    if len(found) + len(beneath.drawn) > MOST_CAUGHT:
        return place
    shapes = [*(i.shape for i in found if i.shape is not None), *beneath.drawn]
    axes = (*heads(session, shown, place), *beneath.inked) if session.aims else ()
    caught = snap(
        shapes,
        at=(place.east, place.north),
        reach=reach,
        start=session.answer.origin,
        axes=[axis.line for axis in axes],
    )
    if caught is None:
        return place
    names = [*(i.called() for i in found), *("the base plan" for _ in beneath.drawn)]
    return Place(
        east=caught.east, north=caught.north, caught=True, words=_words(caught, names, axes)
    )


def heads(session: Session, shown: frozenset[str], place: Place) -> list[Axis]:
    """Return the head and foot lines of the graves near a place, led on both ways."""
    return [
        Axis(line=line, on="in line with", name=f"{what} of {item.called()}")
        for item in _seen(session, shown, place, HEADS_M)
        if item.rectangle is not None and item.kind.look.head_bar
        for what, line in _led_on(item.rectangle)
    ]


def _seen(
    session: Session, shown: frozenset[str], place: Place, reach: float
) -> Iterator[Item[Any]]:
    """Return what can be seen of which the box is within so many metres of a place."""
    items = session.document.plan.items
    near = session.document.index.boxes.near(place.east, place.north, reach)
    found = map(items.__getitem__, near)
    return (i for i in found if i.kind.name in shown and session.showing.shows(i))


def _led_on(rectangle: Rectangle) -> Iterator[tuple[str, LineString]]:
    corners = np.array(rectangle.corners())
    along = (corners[1] - corners[0]) / rectangle.width * HEADS_M
    yield "the head", LineString([corners[0] - along, corners[1] + along])
    yield "the foot", LineString([corners[3] - along, corners[2] + along])


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
    """Return the boxes of those items that have a place, or tell one to look at."""
    boxes = session.document.index.boxes
    items = [i for n in ids if (i := session.document.plan.items.get(n)) is not None]
    found = (boxes.box(i.id) if i.id in boxes else i.kind.view_m(i.details) for i in items)
    return [box for box in found if box is not None]


def _words(caught: Snap, names: Sequence[str], axes: Sequence[Axis]) -> str:
    if caught.what is SnapKind.AXIS:
        axis = axes[caught.index - len(names)]
        return f"{axis.on} {axis.name}"
    called = [*names, *(axis.name for axis in axes)]
    return f"{WORDS[caught.what]} {called[caught.index]}"


def _spaced(metres: float) -> str:
    # groups of three apart by a thin space that does not break
    return f"{metres:,.2f}".replace(",", "\u202f")
