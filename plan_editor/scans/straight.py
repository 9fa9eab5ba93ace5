"""A scan through a way to the ground that keeps parallels parallel, strip by strip."""

import math
from collections.abc import Iterator

import numpy as np
from PIL import Image

from plan_editor.geometry.mappings import Affine, Mapping
from plan_editor.scans.decoding import WHITE
from plan_editor.scans.shelf import Frame
from plan_editor.scans.tiles import Level, Pyramid
from plan_editor.scans.turning import Pixels
from plan_editor.scans.wanted import Grid, level_of

STRIP_ROWS = 256


def straight_strips(
    pyramid: Pyramid, mapping: Mapping, frame: Frame, grid: Grid
) -> Iterator[Pixels]:
    """Return strips of the north-up picture, as ``frame.strips`` cuts them.

    Raises:
        CannotUse: the six numbers flatten the scan to a line or a point, or are not finite.
    """
    level = level_of(pyramid, mapping, grid)
    to_level = _grid_to_level(mapping.straight, grid, level.scale)
    for top, bottom in frame.strips():
        fresh = level.afresh()
        pieces = [
            _piece(fresh, to_level, frame.width, first, min(first + STRIP_ROWS, bottom))
            for first in range(top, bottom, STRIP_ROWS)
        ]
        yield np.concatenate(pieces)


def _grid_to_level(numbers: Affine, grid: Grid, scale: int) -> Affine:
    """Return the six numbers from pixels of the grid to pixels of a level."""
    a, b, c, d, e, f = numbers
    area = (a * e - b * d) * scale
    side = grid.metres_per_pixel
    de, dn = grid.west - c, grid.north - f
    return (
        e * side / area,
        b * side / area,
        (e * de - b * dn) / area,
        -d * side / area,
        -a * side / area,
        (a * dn - d * de) / area,
    )


def _piece(level: Level, to_level: Affine, width: int, top: int, bottom: int) -> Pixels:
    """Return some rows of the grid, taking from the level only what they need."""
    a, b, c, d, e, f = to_level
    xs = [a * x + b * y + c for x in (0, width) for y in (top, bottom)]
    ys = [d * x + e * y + f for x in (0, width) for y in (top, bottom)]
    # one pixel more all round: interpolation looks half a pixel farther
    x0, x1 = max(0, math.floor(min(xs)) - 1), min(level.width, math.ceil(max(xs)) + 1)
    y0, y1 = max(0, math.floor(min(ys)) - 1), min(level.height, math.ceil(max(ys)) + 1)
    shape = (bottom - top, width, *level.pixels.shape[2:])
    if x0 >= x1 or y0 >= y1:
        return np.full(shape, WHITE, dtype=np.uint8)
    window = Image.fromarray(np.ascontiguousarray(level.pixels[y0:y1, x0:x1]))
    moved = window.transform(
        (width, bottom - top),
        Image.Transform.AFFINE,
        (a, b, b * top + c - x0, d, e, e * top + f - y0),
        Image.Resampling.BILINEAR,
        fillcolor=(WHITE, WHITE, WHITE) if level.pixels.ndim == 3 else WHITE,
    )
    return np.asarray(moved)
