"""The key: a line for each look that is actually drawn, with a sample of it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, box
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.along import scalloped
from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.compose import Dress, Group, as_declared
from plan_editor.drawing.ink import Fill, Ink, Stroke
from plan_editor.drawing.lines import line_ink
from plan_editor.drawing.points import ROOTS, crown
from plan_editor.drawing.removal import crossed_through
from plan_editor.drawing.symbols import circle, placed, symbol
from plan_editor.drawing.tones import proposed
from plan_editor.plan.item import Status
from plan_editor.plan.kind import Form
from plan_editor.plan.look import Along, Look, Mark, Pen

WIDE, HIGH = 11.0, 4.1
"""Room of a sample, in millimetres."""

_WALL_MM = 1.2
_HEDGE_MM = 2.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A line of the key: a sample about 0, 0 in its room, and what it stands for.

    Args:
        figure: how much there is of it, at the end of the line.
    """

    text: str
    sample: tuple[Ink, ...]
    figure: str = ""


def entries(groups: Iterable[Group], dress: Dress = as_declared) -> tuple[Entry, ...]:
    """Return a line for each look that is drawn, then one for each unusual status."""
    groups = tuple(groups)
    found: dict[str, Entry] = {}
    for group in groups:
        look = dress(group.kind, group.look)
        if look is not None and group.legend and group.legend not in found:
            found[group.legend] = Entry(text=group.legend, sample=_sample(group, look))
    return (*found.values(), *_crowned(groups, dress), *_statuses(groups))


def _sample(group: Group, look: Look) -> tuple[Ink, ...]:
    # as its first item is drawn, at a size that suits the key
    item = group.items[0]
    dimensions = shapely.get_dimensions(item.shape)
    if item.form is Form.RECTANGLE:
        return _rectangle(
            look, item.rectangle.width / item.rectangle.length if item.rectangle else 1.0
        )
    if dimensions == 2:
        return _area(look)
    if dimensions == 1:
        return _line(look, wide=bool(group.kind.width))
    return _point(look)


def _rectangle(look: Look, broad: float) -> tuple[Ink, ...]:
    # head to the left, as graves lie; a stone is drawn as broad as it is next to them
    if broad > 1.0:
        shape = _turned(1.0, 3.6)
    elif broad > 0.8:
        shape = _turned(3.4, 3.4)
    else:
        shape = _turned(7.6, 3.6)
    array = np.array([shape], dtype=object)
    return area_ink(array, look, array)


def _turned(long: float, broad: float) -> BaseGeometry:
    # the outline begins with the head line, from south to north
    x, y = long / 2, broad / 2
    return shapely.polygons([(-x, -y), (-x, y), (x, y), (x, -y)])


def _area(look: Look) -> tuple[Ink, ...]:
    shape = box(-WIDE / 2 + 0.5, -HIGH / 2 + 0.3, WIDE / 2 - 0.5, HIGH / 2 - 0.3)
    return area_ink(np.array([shape], dtype=object), look, np.array([], dtype=object))


def _line(look: Look, *, wide: bool) -> tuple[Ink, ...]:
    line = np.array([LineString([(-WIDE / 2, 0.0), (WIDE / 2, 0.0)])], dtype=object)
    scalloped_ = look.along is not None and look.along.mark is Mark.SCALLOPS
    width = (_HEDGE_MM if scalloped_ or look.fill else _WALL_MM) if wide else 0.0
    short = None if look.along is None else replace(look.along, every=_short(look.along))
    return line_ink(line, replace(look, along=short), np.array([width]))


def _short(along: Along) -> float:
    return min(along.every, WIDE if along.mark in {Mark.LETTERS, Mark.ARROWS} else WIDE / 3)


def _point(look: Look) -> tuple[Ink, ...]:
    pen = look.pen or Pen()
    if not look.symbol:
        return (Fill(rings=(circle(0.0, 0.0, 0.4),), colour=pen.colour),)
    return placed(symbol(look.symbol), np.zeros((1, 2)), look.symbol_mm, pen)


def protection_entries(groups: Iterable[Group]) -> tuple[Entry, ...]:
    """Return the line of the key for ground that is left alone, where there is any."""
    rooted = any(g.kind.roots_m(i.details) for g in groups if g.kind.roots for i in g.items)
    ring = Stroke(lines=(circle(0.0, 0.0, 2.0),), pen=ROOTS, closed=True)
    return (Entry(text="Root protection area", sample=(ring,)),) if rooted else ()


def _crowned(groups: Sequence[Group], dress: Dress) -> tuple[Entry, ...]:
    pens = [
        look.pen or Pen()
        for group in groups
        if group.kind.crown and any(group.kind.crown_m(i.details) for i in group.items)
        if (look := dress(group.kind, group.look)) is not None
    ]
    if not pens:
        return ()
    small = Along(mark=Mark.SCALLOPS, every=1.8)
    outline = scalloped((crown((1.9, 3.6, 1.9, 3.6)),), small, pens[0])
    return (Entry(text="Spread of a crown", sample=(outline,)),)


def _statuses(groups: Sequence[Group]) -> tuple[Entry, ...]:
    drawn = {group.status for group in groups}
    shape = np.array([box(-3.8, -1.7, 3.8, 1.7)], dtype=object)
    none = np.array([], dtype=object)
    plain = Look(pen=Pen(width=0.25))
    found = []
    if Status.PROPOSED in drawn:
        found.append(Entry(text="Proposed", sample=area_ink(shape, proposed(plain), none)))
    if Status.TO_BE_REMOVED in drawn:
        small = np.array([box(-3.0, -0.8, 3.0, 0.8)], dtype=object)
        crossed = (*area_ink(small, plain, none), *crossed_through(small))
        found.append(Entry(text="To be removed", sample=crossed))
    return tuple(found)
