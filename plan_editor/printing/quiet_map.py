"""A map that is pale but for what it is about: things with their numbers, zones, a way."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.compose import compose as composed
from plan_editor.drawing.compose import grouped
from plan_editor.drawing.ink import Ink, Points, Stroke
from plan_editor.drawing.labels import place
from plan_editor.drawing.lettering import size_of
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.drawing.zones import ringed, zone_ground, zone_ink
from plan_editor.plan.item import Item
from plan_editor.plan.look import INK, Pen
from plan_editor.printing.pale_map import clear_of, framed, named, no_room, quiet, round_stones
from plan_editor.printing.plan_page import Drawn

_ROUND = np.array([(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)])
_IN_THE_LIST = "What they belong to is drawn there, and told of beside or after the map."
_WAY = Pen(width=0.7, colour=INK, dash=(2.4, 1.2))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Numbered:
    """A thing with what is written at it.

    Args:
        shape: of the thing, in metres.
        text: what is written.
        boxed: in a box.
        colour: of the lettering.
    """

    shape: BaseGeometry
    text: str
    boxed: bool = False
    colour: str = INK


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class QuietMap:
    """What is drawn.

    Args:
        items: all that is drawn.
        marked: those of them that the map is about, in full strength.
        numbered: what is written at them.
        zones: to keep out of.
        ringed: unsafe things.
        ways: (n, 2) each, in metres: drawn as a heavy broken line.
        pen: of these lines.
        size_mm: height of the capitals written at things.
    """

    items: tuple[Item[Any], ...]
    marked: tuple[Item[Any], ...]
    numbered: tuple[Numbered, ...] = ()
    zones: tuple[BaseGeometry, ...] = ()
    ringed: tuple[BaseGeometry, ...] = ()
    ways: tuple[Points, ...] = ()
    pen: Pen = field(default=_WAY)
    size_mm: float = 2.2


def drawn(about: QuietMap, viewport: Viewport, under: Sequence[Ink] = ()) -> Drawn:
    """Return the map; what found no room is told."""
    marked = {i.id for i in about.marked}
    others = grouped(i for i in about.items if i.id not in marked)
    wanted = [_wish(n, viewport, about.size_mm) for n in about.numbered]
    numbers = place(
        wanted, round_stones([n.shape for n in about.numbered], viewport), viewport.frame
    )
    names = place(
        named(others, viewport), clear_of(others, numbers.taken, viewport), viewport.frame
    )
    ways = tuple(viewport.paper(w) for w in about.ways)
    ink = (
        *under,
        framed(zone_ground(about.zones, viewport), viewport),
        *composed(others, viewport, quiet),
        *composed(grouped(about.marked), viewport),
        framed(zone_ink(about.zones, viewport), viewport),
        framed((Stroke(lines=ways, pen=about.pen),) if ways else (), viewport),
        framed((*ringed(about.ringed, viewport), *names.ink, *numbers.ink), viewport),
    )
    remarks = (
        *no_room("numbers", numbers.left_out, _IN_THE_LIST),
        *no_room("names", names.left_out),
    )
    return Drawn(ink=ink, remarks=remarks)


def readable(about: QuietMap, viewport: Viewport) -> bool:
    """Return whether all that is to be written at things finds room."""
    wanted = [_wish(n, viewport, about.size_mm) for n in about.numbered]
    solid = round_stones([n.shape for n in about.numbered], viewport)
    return not place(wanted, solid, viewport.frame).left_out


def _wish(one: Numbered, viewport: Viewport, size_mm: float) -> Wish:
    on_paper = viewport.shape(one.shape)
    middle = on_paper.representative_point()
    at = (float(shapely.get_x(middle)), float(shapely.get_y(middle)))
    wish = Wish(
        text=one.text,
        places=np.zeros((0, 2)),
        target=at,
        size=size_of(size_mm),
        bold=True,
        colour=one.colour,
        boxed=one.boxed,
    )
    left, bottom, right, top = on_paper.bounds
    # a wall is as long as the paper: its number stands at its middle all the same
    half = np.minimum(np.array([right - left, top - bottom]) / 2, 4.0)
    reach = np.array(wish.extent) / 2 + half + 1.8
    return replace(wish, places=at + _ROUND * reach)
