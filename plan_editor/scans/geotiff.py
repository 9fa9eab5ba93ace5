"""A scan written for other programs: north up with GeoTIFF tags, or with a world file.

Source of the tags and keys: OGC 19-008r4, GeoTIFF 1.1, 7.1 and annex B.
"""

import math
from dataclasses import dataclass
from pathlib import Path

from PIL import Image
from PIL.TiffImagePlugin import ImageFileDirectory_v2
from PIL.TiffTags import ASCII, DOUBLE, SHORT

from plan_editor.geometry.mappings import Affine, Mapping
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.referencing import (
    KEYS,
    MODEL_TYPE,
    OWN,
    PIXEL_SCALE,
    PROJECTED,
    RASTER_TYPE,
    TIE_POINTS,
)
from plan_editor.scans.resampling import extent_of, strips_of
from plan_editor.scans.shelf import Frame
from plan_editor.scans.tiles import Pyramid
from plan_editor.scans.turning import upright
from plan_editor.scans.wanted import Grid, count, pixel_side

MOST_WRITTEN = 150_000_000
"""A larger picture is written coarser: it is held whole while it is packed."""

_TEXTS, _CITATION, _UNITS, _COPYRIGHT = 34737, 1026, 3076, 33432
_PROJECTED_MODEL, _PIXEL_IS_AREA, _METRE = 1, 1, 9001


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in which coordinate system a picture lies.

    Args:
        east, north: of the plan's origin, in metres.
        epsg: the number of the system; None of a local grid.
    """

    east: float
    north: float
    epsg: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A picture that was written: its size, and the side of a pixel in metres."""

    width: int
    height: int
    metres_per_pixel: float
    coarser: bool


def write_geotiff(
    pyramid: Pyramid, mapping: Mapping, out: Path, *, place: Place, copyright_line: str
) -> Written:
    """Write a whole scan north up, white where there is none, as a GeoTIFF.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
        OSError: the file cannot be written.
    """
    west, south, east, north = extent_of(pyramid, mapping)
    finest = pixel_side(pyramid, mapping) * pyramid.levels[0].scale
    most = math.sqrt((east - west) * (north - south) / MOST_WRITTEN)
    side = max(finest, most)
    frame = Frame(
        width=count(east - west, side),
        height=count(north - south, side),
        scale=1,
        colour=pyramid.colour,
    )
    grid = Grid(west=west, north=north, metres_per_pixel=side)
    image = Image.new("RGB" if pyramid.colour else "L", (frame.width, frame.height))
    tops = (top for top, _ in frame.strips())
    for top, strip in zip(tops, strips_of(pyramid, mapping, frame, grid), strict=True):
        image.paste(Image.fromarray(strip), (0, top))
    tags = _tags(west + place.east, north + place.north, side, place.epsg, copyright_line)
    image.save(out, "TIFF", compression="tiff_adobe_deflate", tiffinfo=tags)
    return Written(
        width=frame.width, height=frame.height, metres_per_pixel=side, coarser=side > finest
    )


def world_file(fit: Affine, facts: ScanFacts) -> str:
    """Return the world file of a picture: six lines.

    Args:
        fit: from its upright pixels to coordinates.
        facts: of the picture; one that is turned is described as it is stored.
    """
    a, b, c, d, e, f = _as_stored(fit, facts)
    # the last two are the place of the middle of the first pixel
    lines = (a, d, b, e, c + (a + b) / 2, f + (d + e) / 2)
    return "".join(f"{number:.15g}\n" for number in lines)


def _as_stored(fit: Affine, facts: ScanFacts) -> Affine:
    # a quarter to one side is undone by one to the other; all else undoes itself
    back = {6: 8, 8: 6}.get(facts.turn, facts.turn)
    size = (facts.width, facts.height)
    return upright(fit, back, size[::-1] if facts.turn >= 5 else size)


def _tags(
    west: float, north: float, side: float, epsg: int | None, copyright_line: str
) -> ImageFileDirectory_v2:
    tags = ImageFileDirectory_v2()
    _put(tags, PIXEL_SCALE, DOUBLE, (side, side, 0.0))
    _put(tags, TIE_POINTS, DOUBLE, (0.0, 0.0, 0.0, west, north, 0.0))
    if epsg is None or epsg >= OWN:
        text = "Local grid|"
        _put(tags, _TEXTS, ASCII, text)
        keys = (
            (MODEL_TYPE, 0, 1, OWN),
            (RASTER_TYPE, 0, 1, _PIXEL_IS_AREA),
            (_CITATION, _TEXTS, len(text), 0),
            (_UNITS, 0, 1, _METRE),
        )
    else:
        keys = (
            (MODEL_TYPE, 0, 1, _PROJECTED_MODEL),
            (RASTER_TYPE, 0, 1, _PIXEL_IS_AREA),
            (PROJECTED, 0, 1, epsg),
            (_UNITS, 0, 1, _METRE),
        )
    head = (1, 1, 0, len(keys))
    _put(tags, KEYS, SHORT, (*head, *(n for key in keys for n in key)))
    if copyright_line:
        _put(tags, _COPYRIGHT, ASCII, copyright_line.replace("©", "(c)"))
    return tags


def _put(tags: ImageFileDirectory_v2, tag: int, sort: int, value: object) -> None:
    tags.tagtype[tag] = sort
    tags[tag] = value
