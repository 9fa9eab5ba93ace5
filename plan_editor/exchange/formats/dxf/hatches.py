"""Hatches: the patterns of the plan as DXF patterns, with islands where areas have holes."""

from math import cos, radians, sin, sqrt
from typing import Any, TypeAlias

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.exchange.formats.dxf.board import Board, Entity
from plan_editor.exchange.formats.dxf.pens import dressed
from plan_editor.plan.look import Hatch, Pattern

Family: TypeAlias = list[Any]
"""Lines of a pattern: angle, a point of the first, the way to the next, dashes (DXF, HATCH)."""

_OUTER, _INNER = 1, 16  # flags of a boundary: external, outermost
_CUSTOM = 2


def add_hatch(board: Board, shape: BaseGeometry, hatch: Hatch, layer: str) -> Entity:
    """Return the hatch of an area, added to the drawing; neighbours join without a step."""
    attributes = dressed(board.document, hatch.pen).attributes() | {"layer": layer}
    made = board.space.add_hatch(color=attributes["color"], dxfattribs=attributes)
    made.set_pattern_fill(
        hatch.pattern.name,
        color=attributes["color"],
        style=0,
        pattern_type=_CUSTOM,
        definition=families(hatch, board.metres_per_mm),
    )
    for polygon in shapely.get_parts(shape):
        outer, *holes = shapely.get_rings(polygon)
        _path(board, made, outer, _OUTER)
        for hole in holes:
            _path(board, made, hole, _INNER)
    return made


def families(hatch: Hatch, metres_per_mm: float) -> list[Family]:
    """Return the lines that make a pattern, in metres, the same that are drawn on paper.

    Dots, strokes and crosses stand in rows, each row set half a step against the last.
    """
    s, size = hatch.spacing * metres_per_mm, hatch.size * metres_per_mm
    match hatch.pattern:
        case Pattern.LINES:
            return [_ruled(hatch.angle_deg, s)]
        case Pattern.CROSSED:
            return [_ruled(hatch.angle_deg, s), _ruled(hatch.angle_deg + 90.0, s)]
        case Pattern.DOTS:
            return [[0.0, (0.0, 0.0), (s / 2, s), [0.0, -s]]]
        case Pattern.STROKES:
            return [[90.0, (0.0, -size / 2), (s / 2, s), [size, size - 2 * s]]]
        case Pattern.CROSSES:
            half, long = 0.4 * size, 0.8 * sqrt(2) * size
            dashes = [long, long - 2 * sqrt(2) * s]
            return [
                [45.0, (-half, -half), (s / 2, s), dashes],
                [135.0, (half, -half), (-s / 2, s), dashes],
            ]


def _ruled(angle_deg: float, spacing: float) -> Family:
    angle = radians(angle_deg)
    return [angle_deg, (0.0, 0.0), (-spacing * sin(angle), spacing * cos(angle)), []]


def _path(board: Board, hatch: Entity, ring: BaseGeometry, flags: int) -> None:
    points = board.true(shapely.get_coordinates(ring)[:-1])
    hatch.paths.add_polyline_path(points.tolist(), is_closed=True, flags=flags)
