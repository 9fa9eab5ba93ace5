"""One thing of a drawing as lines: each sort of entity in its own way."""

from collections.abc import Callable, Iterable, Mapping
from itertools import islice
from math import radians
from typing import Any, TypeAlias

import numpy as np
from ezdxf.entities.boundary_paths import (
    AbstractEdge,
    ArcEdge,
    EllipseEdge,
    LineEdge,
    PolylinePath,
    SplineEdge,
)
from ezdxf.math import ConstructionEllipse, Vec3

from plan_editor.exchange.formats.dxf.arcs import (
    MOST_CHORDS,
    TooLarge,
    anticlockwise,
    arc,
    bulged,
)
from plan_editor.exchange.formats.dxf.pieces import Space

Entity: TypeAlias = Any
"""Any entity: ezdxf makes their attributes at run time, so that types would say nothing."""

_ORIGIN = np.zeros(3)
_FULL_TURN = (0.0, 2 * np.pi)
_SPAN_CHORDS = 8  # between two knots of a spline, before its chords are measured


def lines_of(entity: Entity, within: float) -> list[Space] | None:
    """Return the lines that an entity consists of, or None where it is of no such sort.

    Args:
        entity: of a layout or block.
        within: greatest distance between chord and curve, in the units of the drawing.

    Raises:
        TooLarge: it would take too many points.
        Exception: whatever ezdxf raises where the entity is damaged.
    """
    found = _WAYS.get(entity.dxftype())
    return None if found is None else found(entity, within)


def _line(entity: Entity, within: float) -> list[Space]:
    del within
    return [_space((entity.dxf.start, entity.dxf.end))]


def _circle(entity: Entity, within: float) -> list[Space]:
    return [_circular(entity, _FULL_TURN, within)]


def _arc(entity: Entity, within: float) -> list[Space]:
    dxf = entity.dxf
    turn = anticlockwise(radians(dxf.start_angle), radians(dxf.end_angle))
    return [_circular(entity, turn, within)]


def _circular(entity: Entity, turn: tuple[float, float], within: float) -> Space:
    radius = abs(entity.dxf.radius)
    centre = np.array(entity.dxf.center.xyz)
    u, v = np.array([radius, 0.0, 0.0]), np.array([0.0, radius, 0.0])
    return _to_world(arc(centre, u, v, turn, within), entity)


def _ellipse(entity: Entity, within: float) -> list[Space]:
    return [_elliptic(entity.construction_tool(), within)]


def _elliptic(found: ConstructionEllipse, within: float) -> Space:
    centre, u, v = (np.array(a.xyz) for a in (found.center, found.major_axis, found.minor_axis))
    return arc(centre, u, v, anticlockwise(found.start_param, found.end_param), within)


def _spline(entity: Entity, within: float) -> list[Space]:
    return [_limited(entity.construction_tool().flattening(within, segments=_SPAN_CHORDS))]


def _lwpolyline(entity: Entity, within: float) -> list[Space]:
    found = np.array(entity.get_points("xyb"), dtype=np.float64).reshape(-1, 3)
    bulges = found[:, 2].copy()
    found[:, 2] = entity.dxf.elevation
    line = bulged(found, bulges, closed=entity.closed, within=within)
    return [_to_world(line, entity)]


_FRAME_OF_SPLINE = 16  # vertex flag: a control point, which the curve does not pass through


def _polyline(entity: Entity, within: float) -> list[Space]:
    if entity.is_polygon_mesh or entity.is_poly_face_mesh:
        return [_faced(face) for face in entity.virtual_entities()]
    kept = [v for v in entity.vertices if not v.dxf.flags & _FRAME_OF_SPLINE]
    corners = _space(v.dxf.location for v in kept)
    if entity.is_3d_polyline:
        straight = np.zeros(len(corners))
        return [bulged(corners, straight, closed=entity.is_closed, within=within)]
    corners[:, 2] = entity.dxf.elevation.z
    bulges = np.array([v.dxf.get("bulge", 0.0) for v in kept])
    line = bulged(corners, bulges, closed=entity.is_closed, within=within)
    return [_to_world(line, entity)]


def _face(entity: Entity, within: float) -> list[Space]:
    del within
    return [_faced(entity)]


def _faced(entity: Entity) -> Space:
    return _space(entity.wcs_vertices(close=True))


def _mesh(entity: Entity, within: float) -> list[Space]:
    del within
    corners = _space(entity.vertices)
    return [corners[[*face, face[0]]] for face in entity.faces]


def _leader(entity: Entity, within: float) -> list[Space]:
    del within
    return [_space(entity.vertices)]


def _hatch(entity: Entity, within: float) -> list[Space]:
    height = entity.dxf.elevation.z
    lines = [line for path in entity.paths for line in _boundary(path, within)]
    for line in lines:
        line[:, 2] += height
    return [_to_world(line, entity) for line in lines]


def _boundary(path: Any, within: float) -> list[Space]:
    if isinstance(path, PolylinePath):
        found = np.array(path.vertices, dtype=np.float64).reshape(-1, 3)
        bulges = found[:, 2].copy()
        found[:, 2] = 0.0
        return [bulged(found, bulges, closed=True, within=within)]
    return [_edge(edge, within) for edge in path.edges]


def _edge(edge: AbstractEdge, within: float) -> Space:
    match edge:
        case LineEdge():
            return _space((Vec3(edge.start), Vec3(edge.end)))
        case ArcEdge():
            turn = anticlockwise(radians(edge.start_angle), radians(edge.end_angle))
            u = np.array([edge.radius, 0.0, 0.0])
            v = np.array([0.0, edge.radius, 0.0])
            return arc(np.array(Vec3(edge.center).xyz), u, v, turn, within)
        case EllipseEdge():
            return _elliptic(edge.construction_tool(), within)
        case SplineEdge():
            curve = edge.construction_tool()
            return _limited(curve.flattening(within, segments=_SPAN_CHORDS))
        case _:
            raise TypeError(edge)


def _limited(points: Iterable[Vec3]) -> Space:
    kept = list(islice(points, MOST_CHORDS + 1))
    if len(kept) > MOST_CHORDS:
        raise TooLarge
    return _space(kept)


def _space(points: Iterable[Iterable[float]]) -> Space:
    return np.array([tuple(p) for p in points], dtype=np.float64).reshape(-1, 3)


def _to_world(points: Space, entity: Entity) -> Space:
    """Return points of the plane in which a flat entity is drawn as points of the drawing."""
    plane = entity.ocs()
    if not plane.transform:
        return points
    return np.asarray(points @ np.array([plane.ux.xyz, plane.uy.xyz, plane.uz.xyz]))


_WAYS: Mapping[str, Callable[[Entity, float], list[Space]]] = {
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "ELLIPSE": _ellipse,
    "SPLINE": _spline,
    "HELIX": _spline,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
    "SOLID": _face,
    "TRACE": _face,
    "3DFACE": _face,
    "MESH": _mesh,
    "HATCH": _hatch,
    "MPOLYGON": _hatch,
    "LEADER": _leader,
}
