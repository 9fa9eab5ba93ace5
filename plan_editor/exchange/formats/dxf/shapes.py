"""Areas, lines and spreading crowns as closed and open polylines in true coordinates."""

from typing import Any

import numpy as np
import shapely

from plan_editor.drawing.compose import Group
from plan_editor.drawing.ink import Points
from plan_editor.drawing.points import ROOTS, crown
from plan_editor.drawing.tones import proposed
from plan_editor.exchange.formats.dxf.board import Board, Entity, drawn_with, mark, size_of
from plan_editor.exchange.formats.dxf.layers import Presentation, layer_of
from plan_editor.exchange.formats.dxf.pens import CENTRE_LINE, Attributes, line_type
from plan_editor.plan.item import Item, Status
from plan_editor.plan.look import Look

_MITRE = 2.0


def look_of(group: Group) -> Look:
    """Return how the items of a group are drawn, their status included."""
    return proposed(group.look) if group.status is Status.PROPOSED else group.look


def draw_areas(board: Board, group: Group, items: list[Item[Any]]) -> None:
    """Draw areas: each ring of each is a closed polyline, marked as an outline or a hole."""
    attributes = _attributes(board, group)
    for item in items:
        for polygon in shapely.get_parts(item.shape):
            outer, *holes = shapely.get_rings(polygon)
            _ring(board, item, outer, "outline", attributes)
            for hole in holes:
                _ring(board, item, hole, "hole", attributes)


def draw_lines(board: Board, group: Group, items: list[Item[Any]]) -> None:
    """Draw lines; one with a width is a chain line along its middle between its two edges."""
    attributes = _attributes(board, group)
    middle = attributes | {"linetype": line_type(board.document, CENTRE_LINE)}
    for item in items:
        width_m = size_of(group.kind, item)
        line = _polyline(board, shapely.get_coordinates(item.shape), attributes)
        mark(line, item, "line", width_m)
        if width_m:
            line.update_dxf_attribs(middle)
            strip = item.shape.buffer(  # type: ignore[union-attr]  # it has a shape: it was chosen by it
                width_m / 2, cap_style="flat", join_style="mitre", mitre_limit=_MITRE
            )
            for ring in shapely.get_rings(strip):
                _ring(board, item, ring, "edge", attributes)


def draw_spread(board: Board, group: Group, items: list[Item[Any]]) -> None:
    """Draw how far points spread: crowns as outlines, the ground round roots as circles."""
    kind = group.kind
    if not kind.crown and not kind.roots:
        return
    attributes = _attributes(board, group)
    for item in items:
        at = shapely.get_coordinates(item.shape)
        spread, radius = kind.crown_m(item.details), kind.roots_m(item.details)
        if spread is not None and min(spread) > 0:
            outline = _polyline(board, at + crown(spread), attributes, close=True)
            mark(outline, item, "crown")
        if radius:
            layer = layer_of(board.document, kind, Presentation.HATCHING)
            pen = drawn_with(board.document, layer, ROOTS, kind.look.pen)
            circle = board.space.add_circle(board.true(at)[0], radius, dxfattribs=pen)
            mark(circle, item, "roots")


def _attributes(board: Board, group: Group) -> Attributes:
    layer = layer_of(board.document, group.kind, Presentation.ELEMENT)
    return drawn_with(board.document, layer, look_of(group).pen, group.kind.look.pen)


def _ring(board: Board, item: Item[Any], ring: Any, part: str, attributes: Attributes) -> None:
    points = shapely.get_coordinates(ring)[:-1]
    mark(_polyline(board, points, attributes, close=True), item, part)


def _polyline(
    board: Board, points: Points, attributes: Attributes, *, close: bool = False
) -> Entity:
    true = np.asarray(board.true(points))
    return board.space.add_lwpolyline(
        true.tolist(), format="xy", close=close, dxfattribs=attributes
    )
