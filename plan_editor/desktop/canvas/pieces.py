"""Items of one look as runs of points to be filled and drawn. No Qt here.

Marks along lines, bars and scallops are those of a sheet at 1:200 and as large on the ground:
the canvas is such a sheet, looked at from nearer or farther.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.desktop.canvas.runs import (
    NO_POINTS,
    NOTHING,
    Points,
    Runs,
    joined,
    runs_of,
    runs_of_arrays,
    runs_of_equal,
)
from plan_editor.drawing.along import decorated, scalloped, stations
from plan_editor.drawing.ink import Ink, Stroke
from plan_editor.drawing.points import crown
from plan_editor.drawing.removal import crossed_through
from plan_editor.drawing.rings import lines_of, rings_of
from plan_editor.drawing.symbols import circle, turn_deg
from plan_editor.plan.item import Item, Status
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Across, Along, Look, Mark, Pen

PAPER_MM = 0.2
"""A millimetre on the sheet, in metres on the ground at 1:200."""

BAR = 0.6
"""The head bar's share of the head line."""

BAR_M = 0.1
"""Its thickness: 0.5 mm on the sheet."""

FACE_M = 0.24
"""The stroke towards the reader of a stone: 1.2 mm on the sheet."""

CROSSED_PAST_M = 0.4
"""A cross through what is to be removed reaches no farther past it."""

CROWN = Along(mark=Mark.SCALLOPS, every=3.0)
"""The scallops of a tree's crown."""

Shapes = NDArray[np.object_]
Corners = NDArray[np.float64]
"""Shape (n, 4, 2): rectangles, each beginning with its head line."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """What is drawn of some items of one look.

    Args:
        areas: rings to be filled.
        outline: lines to be drawn with the look's pen.
        solids: rings to be filled with the pen's colour.
        thin: finer lines, seen from nearby only: strokes across, marks along, crowns, crosses
            through what is to be removed.
        dotted: circles within which the ground is left alone.
        points: where symbols stand.
        across: how broad in metres is what each of them stands for; 0.0 where it is not known.
        turns: by how many degrees clockwise each of them is turned.
        letters: where the letters on a line stand.
    """

    areas: Runs
    outline: Runs
    solids: Runs
    thin: Runs
    dotted: Runs
    points: Points
    across: NDArray[np.float64]
    turns: NDArray[np.float64]
    letters: Points


def pieces(kind: Kind, look: Look, items: Sequence[Item[Any]]) -> Pieces:
    """Return what is drawn of items that have a shape and this look."""
    shapes = np.array([i.shape for i in items], dtype=object)
    dimensions = shapely.get_dimensions(shapes)
    widths = np.array([kind.width_m(i.details) for i in items])
    turns = np.array([turn_deg(kind.facing_deg(i.details)) for i in items])
    lines, line_widths = shapes[dimensions == 1], widths[dimensions == 1]
    body = shapes[dimensions == 2]
    strips, edges = _strips(lines, line_widths, look)
    areas = runs_of(np.concatenate([body, strips]))
    corners = _corners(items)
    return Pieces(
        areas=areas,
        outline=_outline(look, areas, np.concatenate([body, edges]), has_lines=len(lines) > 0),
        solids=_solids(look, areas, corners),
        thin=joined(
            [
                *_across(look, corners),
                *_along(look, np.concatenate([body, strips]), lines),
                *_crowns(kind, items),
                *_crossed(items, shapes),
            ]
        ),
        dotted=runs_of_arrays(_roots(kind, items)),
        points=shapely.get_coordinates(shapes[dimensions == 0]),
        across=widths[dimensions == 0],
        turns=turns[dimensions == 0],
        letters=_letters(look.along, lines),
    )


def spread_m(kind: Kind, item: Item[Any]) -> float:
    """Return how far in metres crown, roots and crosses reach out of an item's shape."""
    past = CROSSED_PAST_M if item.status is Status.TO_BE_REMOVED else 0.0
    if not kind.crown and not kind.roots:
        return past
    crown_m = max(kind.crown_m(item.details) or (0.0,)) + CROWN.every * PAPER_MM
    return max(past, crown_m, kind.roots_m(item.details) or 0.0)


def _strips(lines: Shapes, widths: NDArray[np.float64], look: Look) -> tuple[Shapes, Shapes]:
    """Return the areas of lines that have a width; and the edges or lines that are drawn."""
    wide = widths > 0
    halves = widths[wide] / 2
    strips = shapely.buffer(
        lines[wide], halves, cap_style="flat", join_style="mitre", mitre_limit=3.0
    )
    if not look.edges_only:
        return strips, np.concatenate([lines[~wide], strips])
    closed = shapely.is_closed(lines[wide])
    sides = [
        shapely.offset_curve(
            lines[wide][~closed], way * halves[~closed], join_style="mitre", mitre_limit=3.0
        )
        for way in (1, -1)
    ]
    return strips, np.concatenate([lines[~wide], strips[closed], *sides])


def _outline(look: Look, areas: Runs, drawn: Shapes, *, has_lines: bool) -> Runs:
    if look.pen is None or look.solid or _scalloped(look):
        return NOTHING
    return runs_of(drawn) if has_lines else areas


def _scalloped(look: Look) -> bool:
    return look.along is not None and look.along.mark is Mark.SCALLOPS


def _corners(items: Iterable[Item[Any]]) -> Corners:
    outlines = [i.shape for i in items if i.rectangle is not None]
    if not outlines:
        return np.empty((0, 4, 2))
    return shapely.get_coordinates(outlines).reshape(-1, 5, 2)[:, :4]


def _solids(look: Look, areas: Runs, corners: Corners) -> Runs:
    if look.solid:
        return areas
    return _head_bars(corners) if look.head_bar and len(corners) else NOTHING


def _head_bars(corners: Corners) -> Runs:
    start, end = corners[:, 0], corners[:, 1]
    down = corners[:, 3] - start
    inwards = down / np.hypot(down[:, 0], down[:, 1])[:, None] * BAR_M
    middle, half = (start + end) / 2, (end - start) * BAR / 2
    one, other = middle - half, middle + half
    return runs_of_equal(np.stack([one, one + inwards, other + inwards, other, one], axis=1))


def _across(look: Look, corners: Corners) -> Iterator[Runs]:
    if not len(corners):
        return
    if look.across is not Across.NONE:
        yield runs_of_equal(corners[:, (0, 2)])
    if look.across is Across.TWO:
        yield runs_of_equal(corners[:, (1, 3)])
    if look.face:
        middle = (corners[:, 0] + corners[:, 1]) / 2
        back = corners[:, 3] - corners[:, 0]
        out = back / np.hypot(back[:, 0], back[:, 1])[:, None] * FACE_M
        yield runs_of_equal(np.stack([middle, middle - out], axis=1))


def _along(look: Look, areas: Shapes, lines: Shapes) -> Iterator[Runs]:
    along, pen = look.along, look.pen or Pen()
    if along is None or along.mark is Mark.LETTERS:
        return
    if along.mark is Mark.SCALLOPS and len(areas):
        yield _grounded(scalloped(_on_paper(rings_of(areas)), along, pen))
        return
    for line in _on_paper(lines_of(lines)):
        first, *marks = decorated((line,), along, pen)
        yield _grounded(*(marks or (first,)))


def _crossed(items: Sequence[Item[Any]], shapes: Shapes) -> Iterator[Runs]:
    gone = np.array([i.status is Status.TO_BE_REMOVED for i in items])
    if gone.any():
        on_paper = shapely.transform(shapes[gone], lambda c: c / PAPER_MM)
        yield _grounded(*crossed_through(on_paper))


def _letters(along: Along | None, lines: Shapes) -> Points:
    if along is None or along.mark is not Mark.LETTERS or not len(lines):
        return NO_POINTS
    places = [stations(line, along.every * PAPER_MM)[0] for line in lines_of(lines)]
    return np.concatenate(places)


def _crowns(kind: Kind, items: Iterable[Item[Any]]) -> Iterator[Runs]:
    told = ((i, kind.crown_m(i.details)) for i in items)
    rings = tuple(
        (shapely.get_coordinates(item.shape)[0] + crown(spread)) / PAPER_MM
        for item, spread in told
        if spread is not None and min(spread) > 0.0
    )
    if rings:
        yield _grounded(scalloped(rings, CROWN, Pen()))


def _roots(kind: Kind, items: Iterable[Item[Any]]) -> Iterator[Points]:
    for item in items:
        if radius := kind.roots_m(item.details):
            east, north = shapely.get_coordinates(item.shape)[0]
            ring = circle(east, north, radius)
            yield np.vstack([ring, ring[:1]])


def _on_paper(lines: Iterable[Points]) -> tuple[Points, ...]:
    return tuple(line / PAPER_MM for line in lines)


def _grounded(*ink: Ink) -> Runs:
    """Return the lines of strokes, from millimetres on the sheet to metres on the ground."""
    strokes = [one for one in ink if isinstance(one, Stroke)]
    lines = ((li, stroke.closed) for stroke in strokes for li in stroke.lines)
    whole = (np.vstack([line, line[:1]]) if closed else line for line, closed in lines)
    return runs_of_arrays(line * PAPER_MM for line in whole)
