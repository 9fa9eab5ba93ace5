"""A scan through a way to the ground that bends: by a lattice of places, straight between."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from PIL import Image

from plan_editor.geometry.bending import outline
from plan_editor.geometry.mappings import Mapping, Places
from plan_editor.scans.decoding import WHITE
from plan_editor.scans.shelf import Frame
from plan_editor.scans.tiles import Level, Pyramid
from plan_editor.scans.turning import Pixels
from plan_editor.scans.wanted import Grid, folded, level_of, sheet_of

CELLS = (64, 32, 16, 8)
"""Pixels to a side of a cell of the lattice: the first that is near enough."""

NEAR_ENOUGH = 0.25
"""Pixels by which the middle of a cell may miss its true place."""

BLOCK = 1024
"""About so many pixels each way are made at once, from the part of the scan that they need."""

_FOUND = 0.1
"""A place on the scan counts as found when it maps back this near, in wanted pixels."""


def bent_strips(
    pyramid: Pyramid, mapping: Mapping, frame: Frame, grid: Grid
) -> Iterator[Pixels]:
    """Return strips of the north-up picture, as ``frame.strips`` cuts them.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
    """
    level = level_of(pyramid, mapping, grid)
    edge = shapely.Polygon(outline(mapping, sheet_of(pyramid)))
    shapely.prepare(edge)
    for top, bottom in frame.strips():
        wanted = _Wanted(mapping=mapping, grid=grid, edge=edge, scale=level.scale)
        yield _strip(level.afresh(), wanted, (0, top, frame.width, bottom))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """What is wanted of a level.

    Args:
        mapping: from scan pixels to the ground.
        grid: where the wanted pixels lie.
        edge: of the scan on the ground.
        scale: scan pixels to one of the level.
    """

    mapping: Mapping
    grid: Grid
    edge: shapely.Polygon
    scale: int

    def on_level(self, places: Places) -> Places:
        """Return the places on the level of places on the picture.

        Raises:
            CannotUse: one is not found, so strongly does the scan bend.
        """
        ground = self.grid.ground(places)
        with np.errstate(all="ignore"):
            paper = self.mapping.to_paper(ground)
            missed = np.abs(self.mapping.to_ground(paper) - ground).max(initial=0.0)
        if not missed <= _FOUND * self.grid.metres_per_pixel:
            raise folded()
        return paper / self.scale


Box = tuple[int, int, int, int]
"""Left, top, right and bottom in pixels of the picture."""


def _strip(level: Level, wanted: _Wanted, box: Box) -> Pixels:
    left, top, right, bottom = box
    made = np.full((bottom - top, right - left, *level.pixels.shape[2:]), WHITE, dtype=np.uint8)
    cells, quads = _lattice(wanted, box)
    blocks = (cells[:, :2] - (left, top)) // BLOCK
    for block in np.unique(blocks, axis=0):
        mine = (blocks == block).all(axis=1)
        x0, y0 = cells[mine, :2].min(axis=0)
        x1, y1 = cells[mine, 2:].max(axis=0)
        piece = _piece(level, cells[mine] - (x0, y0, x0, y0), quads[mine])
        made[y0 - top : y1 - top, x0 - left : x1 - left] = piece
    return made


def _lattice(wanted: _Wanted, box: Box) -> tuple[NDArray[np.int64], Places]:
    """Return the cells that meet the scan, n by 4, and their corners on the level, n by 4 by 2.

    The corners go from the upper left down and round, as Pillow wants them.
    """
    for side in CELLS:
        cells = _meeting(wanted, _cells(box, side))
        corners = cells[:, ((0, 1), (0, 3), (2, 3), (2, 1))].reshape(-1, 2)
        once, back = np.unique(corners, axis=0, return_inverse=True)
        quads = wanted.on_level(once.astype(np.float64))[back.ravel()].reshape(-1, 4, 2)
        middles = wanted.on_level((cells[:, :2] + cells[:, 2:]) / 2)
        if np.abs(quads.mean(axis=1) - middles).max(initial=0.0) <= NEAR_ENOUGH:
            return cells, quads
    raise folded()


def _cells(box: Box, side: int) -> NDArray[np.int64]:
    left, top, right, bottom = box
    x, y = np.meshgrid(np.arange(left, right, side), np.arange(top, bottom, side))
    ends = np.minimum(x + side, right), np.minimum(y + side, bottom)
    return np.stack([x, y, *ends], axis=2).reshape(-1, 4)


def _meeting(wanted: _Wanted, cells: NDArray[np.int64]) -> NDArray[np.int64]:
    low = wanted.grid.ground(cells[:, :2].astype(np.float64))
    high = wanted.grid.ground(cells[:, 2:].astype(np.float64))
    boxes = shapely.box(low[:, 0], high[:, 1], high[:, 0], low[:, 1])
    return cells[shapely.intersects(wanted.edge, boxes)]


def _piece(level: Level, cells: NDArray[np.int64], quads: Places) -> Pixels:
    """Return some cells of the picture, taking from the level only what they need."""
    width, height = cells[:, 2:].max(axis=0).tolist()
    # one pixel more all round: interpolation looks half a pixel farther
    low, high = quads.min(axis=(0, 1)) - 1, quads.max(axis=(0, 1)) + 1
    x0, y0 = np.maximum(np.floor(low), 0).astype(int).tolist()
    x1, y1 = np.minimum(np.ceil(high), (level.width, level.height)).astype(int).tolist()
    if x0 >= x1 or y0 >= y1:
        return np.full((height, width, *level.pixels.shape[2:]), WHITE, dtype=np.uint8)
    window = Image.fromarray(np.ascontiguousarray(level.pixels[y0:y1, x0:x1]))
    rows = (quads - (x0, y0)).reshape(-1, 8)
    moved = window.transform(
        (width, height),
        Image.Transform.MESH,
        list(zip(map(tuple, cells.tolist()), map(tuple, rows.tolist()), strict=True)),
        Image.Resampling.BILINEAR,
        fillcolor=(WHITE, WHITE, WHITE) if level.pixels.ndim == 3 else WHITE,
    )
    return np.asarray(moved)
