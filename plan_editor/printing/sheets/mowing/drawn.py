"""The drawing of the mowing map."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import shapely

from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.compose import compose as composed
from plan_editor.drawing.compose import grouped
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.ink import Clipped, Ink
from plan_editor.drawing.labels import Obstacles, Wish, place
from plan_editor.drawing.tones import pale
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.zones import RUST, ringed, zone_ground, zone_ink
from plan_editor.kinds import grass
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Hatch, Look, Pattern, Pen
from plan_editor.printing.plan_page import Drawn
from plan_editor.printing.sheets.mowing.told import Told
from plan_editor.printing.usual import (
    underlays,
)

_MOSS = "#44662F"


FRESH = Look(
    pen=Pen(width=0.35, colour="#8A6410"),
    hatch=Hatch(pattern=Pattern.CROSSED, spacing=1.2, pen=Pen(width=0.18, colour="#8A6410")),
)


def drawn(told: Told, viewport: Viewport) -> Drawn:
    """Return the map: everything pale but what it is about."""
    marked = {i.id for i in told.marked}
    others = grouped(i for i in told.items if i.id not in marked)
    beneath = [g for g in others if g.kind.order <= grass.KIND.order]
    above = [g for g in others if g.kind.order > grass.KIND.order]
    stones = tuple(k for z in told.zones for k in z.kept_from)
    shapes = [z.shape for z in told.zones]
    labels = place(
        (*_numbers(told, viewport), *_until(told, viewport)),
        _clear_of(stones, viewport),
        viewport.frame,
    )
    over = (*ringed([k.footprint for k in stones], viewport), *labels.ink)
    ink: tuple[Ink, ...] = (
        *underlays(told.backdrops, viewport),
        *composed(beneath, viewport, quiet),
        *composed(grouped(told.marked), viewport),
        _framed(zone_ground(shapes, viewport), viewport),
        *composed(above, viewport, quiet),
        _framed(zone_ink(shapes, viewport), viewport),
        _framed(_fresh(told, viewport), viewport),
        _framed(over, viewport),
    )
    return Drawn(ink=ink, remarks=_left_out(labels.left_out))


def quiet(kind: Kind, look: Look) -> Look | None:
    """Return how things are drawn that the map is not about."""
    # what a grave space may be used for is nothing to a mower
    del look
    return None if kind.figure else pale(kind, kind.look)


def _left_out(texts: Sequence[str]) -> tuple[str, ...]:
    if not texts:
        return ()
    return (f"There was no room to write: {', '.join(texts)}.",)


def _framed(ink: tuple[Ink, ...], viewport: Viewport) -> Clipped:
    return Clipped(box=viewport.frame, ink=ink)


def _fresh(told: Told, viewport: Viewport) -> tuple[Ink, ...]:
    if not told.fresh:
        return ()
    shapes = viewport.shapes([g.shape for g in told.fresh])
    return area_ink(shapes, FRESH, np.array([], dtype=object))


def _numbers(told: Told, viewport: Viewport) -> list[Wish]:
    """Return the number of each unsafe stone, in a box."""
    wishes = []
    for zone in told.zones:
        for kept in zone.kept_from:
            shape = viewport.shape(kept.footprint)
            x, y = float(shape.centroid.x), float(shape.centroid.y)
            wish = Wish(
                text=kept.item.number or "no number",
                places=np.zeros((0, 2)),
                target=(x, y),
                size=2.3,
                bold=True,
                colour=RUST,
                boxed=True,
            )
            half = np.array(wish.extent) / 2
            ways = np.array(
                [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)]
            )
            wishes.append(_at(wish, (x, y) + ways * (half + 3.0)))
    return wishes


def _at(wish: Wish, places: Any) -> Wish:
    return replace(wish, places=places)


def _until(told: Told, viewport: Viewport) -> list[Wish]:
    """Return the day until which each piece of grass is left, in the middle of it."""
    wishes = []
    for item in told.resting:
        shape = viewport.shape(item.shape) if item.shape is not None else shapely.Point()
        point = shape.representative_point()
        steps = np.array([(0, 0), (0, 5), (0, -5), (8, 0), (-8, 0)])
        wishes.append(
            Wish(
                text=f"uncut until {in_words(item.details.uncut_until)}",
                places=np.array([(point.x, point.y)]) + steps,
                target=(float(point.x), float(point.y)),
                size=2.6,
                bold=True,
                colour=_MOSS,
                boxed=True,
            )
        )
    return wishes


def _clear_of(stones: Sequence[Any], viewport: Viewport) -> Obstacles:
    shapes = viewport.shapes([k.footprint for k in stones])
    around = shapely.buffer(shapes, 1.5) if len(shapes) else np.array([], dtype=object)
    return Obstacles(open=np.array([], dtype=object), solid=around)
