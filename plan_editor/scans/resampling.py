"""A scan through its fit: laid out north up on the ground, for the canvas and for print."""

import hashlib
import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from plan_editor.geometry.bending import outline
from plan_editor.geometry.mappings import Mapping
from plan_editor.scans.bent import bent_strips
from plan_editor.scans.shelf import Cancelled, Frame, Progress, frame_of, put_on_shelf
from plan_editor.scans.straight import straight_strips
from plan_editor.scans.tiles import Pyramid, open_tiles
from plan_editor.scans.turning import Pixels
from plan_editor.scans.wanted import Grid, count, pixel_side, sheet_of

Place = tuple[float, float]
"""East and north in metres."""

Extent = tuple[float, float, float, float]
"""Least east, least north, greatest east, greatest north, in metres."""

MOST_GRID_PIXELS = 200_000_000
"""A north-up picture is made coarser rather than larger than this."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NorthUp:
    """A scan laid out north up.

    Args:
        pyramid: its pixels; rows run south, columns east.
        west: easting of its left edge in metres.
        north: northing of its upper edge in metres.
        metres_per_pixel: the side of a pixel of its finest level.
        outline: of the scan itself, going round it: east and north in metres. Between it and
            the edges of the picture there is no scan.
    """

    pyramid: Pyramid
    west: float
    north: float
    metres_per_pixel: float
    outline: tuple[Place, ...]


def resample(
    pyramid: Pyramid, mapping: Mapping, extent: Extent, metres_per_pixel: float
) -> Pixels:
    """Return the scan as a north-up picture of an extent, white where there is no scan.

    The picture begins at the north-west corner of the extent and reaches at least to the other
    corner. Each pixel is interpolated between the four nearest of that level of the pyramid
    whose pixels, means of many, are about as large on the ground as the wanted ones.

    Args:
        pyramid: the scan.
        mapping: from scan pixels to metres.
        extent: what is wanted, in metres.
        metres_per_pixel: the side of a wanted pixel on the ground.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
    """
    west, south, east, north = extent
    width = count(east - west, metres_per_pixel)
    height = count(north - south, metres_per_pixel)
    frame = Frame(width=width, height=height, scale=1, colour=pyramid.colour)
    grid = Grid(west=west, north=north, metres_per_pixel=metres_per_pixel)
    strips = list(strips_of(pyramid, mapping, frame, grid))
    return np.concatenate(strips)


def north_up(
    pyramid: Pyramid,
    mapping: Mapping,
    shelf: Path,
    *,
    progress: Progress = lambda _: None,
    cancelled: Cancelled = lambda: False,
) -> NorthUp | None:
    """Return the whole scan laid out north up on the shelf, made if that was not done before.

    A pixel of it is as large on the ground as one of the scan's finest level, or larger where
    there would be more than 200 million. Cancelled it returns None, and nothing is kept.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
        NoRoom: the disk is full.
        NotAllowed: the folder may not be written.
    """
    west, south, east, north = extent_of(pyramid, mapping)
    side = pixel_side(pyramid, mapping) * pyramid.levels[0].scale
    side *= max(1.0, math.sqrt((east - west) * (north - south) / side**2 / MOST_GRID_PIXELS))
    folder = shelf / _name(pyramid, mapping)
    frame = Frame(
        width=count(east - west, side),
        height=count(north - south, side),
        scale=1,
        colour=pyramid.colour,
    )
    if frame_of(folder) != frame:
        grid = Grid(west=west, north=north, metres_per_pixel=side)
        strips = strips_of(pyramid, mapping, frame, grid)
        if not put_on_shelf(folder, frame, strips, progress=progress, cancelled=cancelled):
            return None
    progress(1.0)
    return NorthUp(
        pyramid=open_tiles(folder),
        west=west,
        north=north,
        metres_per_pixel=side,
        outline=_outline(pyramid, mapping),
    )


def extent_of(pyramid: Pyramid, mapping: Mapping) -> Extent:
    """Return the extent of the whole scan on the ground, in metres.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
    """
    pixel_side(pyramid, mapping)
    easts, norths = zip(*_outline(pyramid, mapping), strict=True)
    return min(easts), min(norths), max(easts), max(norths)


def _outline(pyramid: Pyramid, mapping: Mapping) -> tuple[Place, ...]:
    places = outline(mapping, sheet_of(pyramid)).tolist()
    return tuple((east, north) for east, north in places)


def _name(pyramid: Pyramid, mapping: Mapping) -> str:
    fit = hashlib.sha256(repr(mapping).encode()).hexdigest()
    return f"{pyramid.folder.name}-{fit[:16]}"


def strips_of(pyramid: Pyramid, mapping: Mapping, frame: Frame, grid: Grid) -> Iterator[Pixels]:
    """Return strips of a north-up picture, as ``frame.strips`` cuts them.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
    """
    if mapping.is_straight:
        return straight_strips(pyramid, mapping, frame, grid)
    return bent_strips(pyramid, mapping, frame, grid)
