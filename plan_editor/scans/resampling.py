"""A scan through its fit: laid out north up on the ground, for the canvas and for print."""

import hashlib
import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image

from plan_editor.errors import CannotUse
from plan_editor.scans.decoding import WHITE, Pixels
from plan_editor.scans.shelf import Cancelled, Frame, Progress, frame_of, put_on_shelf
from plan_editor.scans.tiles import Level, Pyramid, open_tiles

Affine = tuple[float, float, float, float, float, float]
"""a, b, c, d, e, f of east = a·px + b·py + c, north = d·px + e·py + f."""

Place = tuple[float, float]
"""East and north in metres."""

Extent = tuple[float, float, float, float]
"""Least east, least north, greatest east, greatest north, in metres."""

MOST_GRID_PIXELS = 200_000_000
"""A north-up picture is made coarser rather than larger than this."""

STRIP_ROWS = 256


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NorthUp:
    """A scan laid out north up.

    Args:
        pyramid: its pixels; rows run south, columns east.
        west: easting of its left edge in metres.
        north: northing of its upper edge in metres.
        metres_per_pixel: the side of a pixel of its finest level.
        corners: of the scan itself, going round it: east and north in metres. Between them and
            the edges of the picture there is no scan.
    """

    pyramid: Pyramid
    west: float
    north: float
    metres_per_pixel: float
    corners: tuple[Place, ...]


def resample(
    pyramid: Pyramid, pixel_to_ground: Affine, extent: Extent, metres_per_pixel: float
) -> Pixels:
    """Return the scan as a north-up picture of an extent, white where there is no scan.

    The picture begins at the north-west corner of the extent and reaches at least to the other
    corner. Each pixel is interpolated between the four nearest of that level of the pyramid
    whose pixels, means of many, are about as large on the ground as the wanted ones.

    Args:
        pyramid: the scan.
        pixel_to_ground: from scan pixels to metres.
        extent: what is wanted, in metres.
        metres_per_pixel: the side of a wanted pixel on the ground.

    Raises:
        CannotUse: the six numbers flatten the scan to a line or a point, or are not finite.
    """
    west, south, east, north = extent
    width = _count(east - west, metres_per_pixel)
    height = _count(north - south, metres_per_pixel)
    frame = Frame(width=width, height=height, scale=1, colour=pyramid.colour)
    grid = _Grid(west=west, north=north, metres_per_pixel=metres_per_pixel)
    strips = list(_strips(pyramid, pixel_to_ground, frame, grid))
    return np.concatenate(strips)


def north_up(
    pyramid: Pyramid,
    pixel_to_ground: Affine,
    shelf: Path,
    *,
    progress: Progress = lambda _: None,
    cancelled: Cancelled = lambda: False,
) -> NorthUp | None:
    """Return the whole scan laid out north up on the shelf, made if that was not done before.

    A pixel of it is as large on the ground as one of the scan's finest level, or larger where
    there would be more than 200 million. Cancelled it returns None, and nothing is kept.

    Raises:
        CannotUse: the six numbers flatten the scan to a line or a point, or are not finite.
        NoRoom: the disk is full.
        NotAllowed: the folder may not be written.
    """
    west, south, east, north = extent_of(pyramid, pixel_to_ground)
    side = _pixel_side(pixel_to_ground) * pyramid.levels[0].scale
    side *= max(1.0, math.sqrt((east - west) * (north - south) / side**2 / MOST_GRID_PIXELS))
    folder = shelf / _name(pyramid, pixel_to_ground)
    frame = Frame(
        width=_count(east - west, side),
        height=_count(north - south, side),
        scale=1,
        colour=pyramid.colour,
    )
    if frame_of(folder) != frame:
        grid = _Grid(west=west, north=north, metres_per_pixel=side)
        strips = _strips(pyramid, pixel_to_ground, frame, grid)
        if not put_on_shelf(folder, frame, strips, progress=progress, cancelled=cancelled):
            return None
    progress(1.0)
    return NorthUp(
        pyramid=open_tiles(folder),
        west=west,
        north=north,
        metres_per_pixel=side,
        corners=_corners(pyramid, pixel_to_ground),
    )


def extent_of(pyramid: Pyramid, pixel_to_ground: Affine) -> Extent:
    """Return the extent of the whole scan on the ground, in metres.

    Raises:
        CannotUse: the six numbers flatten the scan to a line or a point, or are not finite.
    """
    _pixel_side(pixel_to_ground)
    easts, norths = zip(*_corners(pyramid, pixel_to_ground), strict=True)
    return min(easts), min(norths), max(easts), max(norths)


def _corners(pyramid: Pyramid, pixel_to_ground: Affine) -> tuple[Place, ...]:
    a, b, c, d, e, f = pixel_to_ground
    wide, high = pyramid.width, pyramid.height
    return tuple(
        (a * px + b * py + c, d * px + e * py + f)
        for px, py in ((0, 0), (wide, 0), (wide, high), (0, high))
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """Where the wanted pixels lie."""

    west: float
    north: float
    metres_per_pixel: float


def _count(metres: float, side: float) -> int:
    # a hair less, so that a whole number of pixels does not become one more by rounding
    return max(1, math.ceil(metres / side - 1e-6))


def _pixel_side(pixel_to_ground: Affine) -> float:
    """Return the side in metres of a square as large on the ground as a scan pixel."""
    a, b, _, d, e, _ = pixel_to_ground
    area = abs(a * e - b * d)
    longest = max(math.hypot(a, d), math.hypot(b, e))
    if not all(map(math.isfinite, pixel_to_ground)) or area <= 1e-9 * longest**2:
        raise CannotUse(
            "The scan cannot be laid on the ground: this fit would flatten it to a line. "
            "Nothing was changed; check the points that were clicked and their coordinates."
        )
    return math.sqrt(area)


def _name(pyramid: Pyramid, pixel_to_ground: Affine) -> str:
    fit = hashlib.sha256(repr(pixel_to_ground).encode()).hexdigest()
    return f"{pyramid.folder.name}-{fit[:16]}"


def _strips(
    pyramid: Pyramid, pixel_to_ground: Affine, frame: Frame, grid: _Grid
) -> Iterator[Pixels]:
    """Return strips of the north-up picture, as ``frame.strips`` cuts them."""
    scan_pixels = grid.metres_per_pixel / _pixel_side(pixel_to_ground)
    level = pyramid.levels[pyramid.level_for(scan_pixels)]
    to_level = _grid_to_level(pixel_to_ground, grid, level.scale)
    for top, bottom in frame.strips():
        fresh = level.afresh()
        pieces = [
            _piece(fresh, to_level, frame.width, first, min(first + STRIP_ROWS, bottom))
            for first in range(top, bottom, STRIP_ROWS)
        ]
        yield np.concatenate(pieces)


def _grid_to_level(pixel_to_ground: Affine, grid: _Grid, scale: int) -> Affine:
    """Return the six numbers from pixels of the grid to pixels of a level."""
    a, b, c, d, e, f = pixel_to_ground
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
