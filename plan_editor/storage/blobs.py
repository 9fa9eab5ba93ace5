"""Shapes to and from GeoPackage binary (OGC 12-128r19, clause 2.1.3).

A blob holds true coordinates of the coordinate system, so that any program shows the shape in
place; the model holds metres about the plan's origin. Coming back, the origin is taken off and
the rest rounded to the millimetre, which gives exactly what went in: whole millimetres lie
further apart than what a float loses in the sum.
"""

import struct
from collections.abc import Callable, Mapping, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.storage.wkb import is_plain
from plan_editor.survey.grids.grid import Grid

Blob = bytes | None

_MAGIC = b"GP\x00"
_EDGE = struct.Struct("<d")
_HEADER = struct.Struct("<3sBi4d")
_BOXED = 0b0000_0011  # little-endian, with a box of east and north
_BOX_NUMBERS = (0, 4, 6, 6, 8)  # by the envelope code in bits 1 to 3
_EMPTY, _EXTENDED = 0x10, 0x20
_WKB_START = _HEADER.size
_AS_WRITTEN = _MAGIC + bytes((_BOXED,))


def encoded(shapes: Sequence[BaseGeometry | None], grid: Grid, srs_id: int) -> list[Blob]:
    """Return shapes in plan metres as blobs in coordinates of the grid; None stays None."""
    placed = _shifted(np.array(shapes, dtype=object), grid.east, grid.north)
    boxes = shapely.bounds(placed).tolist()
    # east and north least and greatest; the box has them in the order east, east, north, north
    return [
        None
        if wkb is None
        else _HEADER.pack(_MAGIC, _BOXED, srs_id, box[0], box[2], box[1], box[3]) + wkb
        for wkb, box in zip(
            shapely.to_wkb(placed, output_dimension=2).tolist(), boxes, strict=True
        )
    ]


def decoded(blobs: Sequence[Blob], grid: Grid) -> NDArray[np.object_]:
    """Return blobs as shapes in plan metres, to the millimetre; None without a usable shape.

    Height and measure are dropped. A shape is not checked for crossing itself.
    """
    wkbs = np.array([_wkb(blob) for blob in blobs], dtype=object)
    shapes = shapely.from_wkb(wkbs, on_invalid="ignore")
    if (shapely.has_z(shapes) | shapely.has_m(shapes)).any():
        shapes = shapely.force_2d(shapes)
    shapes[shapely.is_empty(shapes)] = None
    flat, owner = shapely.get_coordinates(shapes, return_index=True)
    moved = (flat - np.array((grid.east, grid.north))).round(3) + 0.0
    near = (np.abs(moved) < FARTHEST).all(axis=1)
    if not near.all():
        shapes[np.unique(owner[~near])] = None
        moved = moved[~np.isin(owner, owner[~near])]
    return np.asarray(shapely.set_coordinates(shapes, moved))


def _shifted(shapes: NDArray[np.object_], east: float, north: float) -> NDArray[np.object_]:
    moved = shapely.get_coordinates(shapes) + np.array((east, north))
    return np.asarray(shapely.set_coordinates(shapes, moved))


def _wkb(blob: Blob) -> bytes | None:
    if blob is None:
        return None
    start = _WKB_START if blob[:4] == _AS_WRITTEN else _start_of_wkb(blob)
    if start is None:
        return None
    wkb = blob[start:]
    return wkb if is_plain(wkb) else None


def _start_of_wkb(blob: object) -> int | None:
    if not isinstance(blob, bytes) or len(blob) < 8 or blob[:3] != _MAGIC:
        return None
    code = blob[3] >> 1 & 0b111
    if code >= len(_BOX_NUMBERS) or blob[3] & (_EMPTY | _EXTENDED):
        return None
    return 8 + 8 * _BOX_NUMBERS[code]


def _box(blob: object) -> tuple[float, float, float, float] | None:
    """Return least and greatest east and north of a blob; None without a usable shape."""
    if not isinstance(blob, bytes) or (start := _start_of_wkb(blob)) is None:
        return None
    if start > 8 and len(blob) >= 40:
        e0, e1, n0, n1 = struct.unpack_from("<4d" if blob[3] & 1 else ">4d", blob, 8)
        return e0, e1, n0, n1
    wkb = _wkb(blob)
    shape: BaseGeometry | None = shapely.from_wkb(wkb, on_invalid="ignore")
    if shape is None or shape.is_empty:
        return None
    e0, n0, e1, n1 = shape.bounds
    return e0, e1, n0, n1


def _edge(place: int) -> Callable[[object], float | None]:
    at = 8 + 8 * place

    def edge(blob: object) -> float | None:
        if isinstance(blob, bytes) and blob[:4] == _AS_WRITTEN and len(blob) > _WKB_START:
            return float(_EDGE.unpack_from(blob, at)[0])
        box = _box(blob)
        return None if box is None else box[place]

    return edge


def _is_empty(blob: object) -> int | None:
    if isinstance(blob, bytes) and blob[:4] == _AS_WRITTEN and len(blob) > _WKB_START:
        return 0
    return None if blob is None else int(_box(blob) is None)


FUNCTIONS: Mapping[str, Callable[[object], float | None]] = {
    "ST_MinX": _edge(0),
    "ST_MaxX": _edge(1),
    "ST_MinY": _edge(2),
    "ST_MaxY": _edge(3),
    "ST_IsEmpty": _is_empty,
}
"""What the R-tree triggers of the standard call; every connection must have them."""
