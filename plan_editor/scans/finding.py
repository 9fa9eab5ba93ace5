"""Rectangles found in a whole scan: piece by piece, through its way to the ground."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, hypot, sqrt

import numpy as np
import shapely

from plan_editor.errors import CannotUse
from plan_editor.geometry.bending import outline
from plan_editor.geometry.mappings import Mapping
from plan_editor.geometry.outlines import Rectangle
from plan_editor.scans.heads import turned_to_heads
from plan_editor.scans.judging import Judged, all_of, alone
from plan_editor.scans.rectangles import NARROW_PX, rectangles
from plan_editor.scans.resampling import Extent, extent_of, resample
from plan_editor.scans.shelf import Cancelled, Progress
from plan_editor.scans.sought import Size, Sought, Span
from plan_editor.scans.tiles import Pyramid
from plan_editor.scans.turning import Pixels
from plan_editor.scans.wanted import pixel_side, sheet_of

PIECE_PX = 1400
"""About so many pixels each way are looked at at once, and what reaches over their edge."""

MOST_PX = 150_000_000
"""A scan of more pixels than this is looked at more coarsely."""

FEWEST_PX = 7.0
"""With fewer pixels to the narrow side of what is sought, nothing can be told."""

_SLACK_PX = 4.0
"""Seen from two pieces, the middle of a rectangle differs by less."""

_LIGHT = np.array((0.299, 0.587, 0.114), dtype=np.float32)
"""How bright red, green and blue are. Source: ITU-R BT.601."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One rectangle that a scan shows.

    Args:
        rectangle: on the ground, in metres.
        score: how sure it is, from 0 to 1.
    """

    rectangle: Rectangle
    score: float


def rectangles_in(
    pyramid: Pyramid,
    mapping: Mapping,
    sought: Sought,
    *,
    progress: Progress = lambda _: None,
    cancelled: Cancelled = lambda: False,
) -> tuple[Found, ...] | None:
    """Return the rectangles of the wanted sizes and bearings; None when it was cancelled.

    Args:
        pyramid: the scan.
        mapping: from scan pixels to metres.
        sought: sizes in metres, and bearings on the ground.
        progress: told the share that is done, from 0 to 1.
        cancelled: asked before each piece whether to stop.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open, or its pixels are too
            large to show such rectangles.
    """
    extent = extent_of(pyramid, mapping)
    side = _pixel(pyramid, mapping, extent, sought)
    in_pixels = _in_pixels(sought, side)
    sheet = shapely.Polygon(outline(mapping, sheet_of(pyramid)))
    pieces = tuple(p for p in _pieces(extent, side) if sheet.intersects(shapely.box(*p)))
    beyond = side * ceil(
        max(hypot(s.width.high, s.length.high) for s in in_pixels.sizes) / 2 + NARROW_PX / 2
    )
    seen: list[Judged] = []
    for done, piece in enumerate(pieces):
        progress(done / len(pieces))
        if cancelled():
            return None
        wider = piece[0] - beyond, piece[1] - beyond, piece[2] + beyond, piece[3] + beyond
        grey = _grey(resample(pyramid, mapping, wider, side))
        seen.append(_of_piece(rectangles(grey, in_pixels), piece, extent, side, beyond))
    progress(1.0)
    judged = turned_to_heads(alone(all_of(seen)), sought)
    return tuple(_on_ground(judged, extent, side))


def _pixel(pyramid: Pyramid, mapping: Mapping, extent: Extent, sought: Sought) -> float:
    """Return the side in metres of the pixels that are looked at."""
    narrow = min(min(s.width.middle, s.length.middle) for s in sought.sizes)
    west, south, east, north = extent
    side = max(
        pixel_side(pyramid, mapping) * pyramid.levels[0].scale,
        narrow / NARROW_PX,
        sqrt((east - west) * (north - south) / MOST_PX),
    )
    if narrow / side < FEWEST_PX:
        raise CannotUse(
            f"The scan is too coarse to look for things {narrow:.2f} m wide: a pixel of it"
            f" covers {side:.2f} m. Nothing was changed. Scan the plan again, finer, or trace"
            " by hand."
        )
    return side


def _in_pixels(sought: Sought, side: float) -> Sought:
    def pixels(span: Span) -> Span:
        return Span(span.low / side, span.high / side)

    sizes = (Size(width=pixels(s.width), length=pixels(s.length)) for s in sought.sizes)
    return Sought(sizes=tuple(sizes), bearings=sought.bearings)


def _pieces(extent: Extent, side: float) -> Iterator[Extent]:
    """Return pieces that cover an extent, each a whole number of pixels from its north-west."""
    west, south, east, north = extent
    across, down = (
        max(1, ceil(metres / side / PIECE_PX)) for metres in (east - west, north - south)
    )
    wide = ceil((east - west) / side / across) * side
    high = ceil((north - south) / side / down) * side
    for row in range(down):
        for column in range(across):
            left, top = west + column * wide, north - row * high
            yield left, top - high, left + wide, top


def _grey(pixels: Pixels) -> Pixels:
    if pixels.ndim == 2:
        return pixels
    grey: Pixels = np.rint(pixels.astype(np.float32) @ _LIGHT).astype(np.uint8)
    return grey


def _of_piece(
    judged: Judged, piece: Extent, extent: Extent, side: float, beyond: float
) -> Judged:
    """Return what has its middle in a piece or hardly beyond, in pixels from the north-west.

    What lies on an edge is so found from one side at least; of two, one is left out later.
    """
    west, south, east, north = piece
    slack = _SLACK_PX * side
    boxes = judged.boxes.moved(
        (west - beyond - extent[0]) / side, (extent[3] - north - beyond) / side
    )
    ground_east = extent[0] + boxes.right * side
    ground_north = extent[3] - boxes.down * side
    inside = (west - slack <= ground_east) & (ground_east <= east + slack)
    inside &= (south - slack <= ground_north) & (ground_north <= north + slack)
    return judged.on(boxes).some(inside)


def _on_ground(judged: Judged, extent: Extent, side: float) -> Iterator[Found]:
    boxes = judged.boxes
    corner = boxes.corners()[:, 0]
    columns = zip(
        (extent[0] + corner[:, 0] * side).tolist(),
        (extent[3] - corner[:, 1] * side).tolist(),
        (boxes.width * side).tolist(),
        (boxes.length * side).tolist(),
        np.degrees(boxes.turn).tolist(),
        judged.scores.tolist(),
        strict=True,
    )
    for east, north, width, length, bearing, score in columns:
        yield Found(
            rectangle=Rectangle(
                east=east,
                north=north,
                width=width,
                length=length,
                bearing_deg=bearing % 360.0,
            ),
            score=score,
        )
