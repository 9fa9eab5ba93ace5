"""Where a picture says itself that it lies: a world file beside it, or GeoTIFF tags within.

Source of the tags: OGC 19-008r4, GeoTIFF 1.1, 7.1 and annexes A and B. A world file has six
lines: A, D, B, E of east = A·column + B·row + C, north = D·column + E·row + F, then C and F,
which are the place of the middle of the first pixel.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PIL.TiffImagePlugin import TiffImageFile

from plan_editor.errors import CannotRead
from plan_editor.geometry.bending import sound
from plan_editor.geometry.mappings import Affine, Straight
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.reading import opened
from plan_editor.scans.turning import upright

PIXEL_SCALE, TIE_POINTS, TRANSFORMATION, KEYS = 33550, 33922, 34264, 34735
"""Tags of a TIFF."""

MODEL_TYPE, RASTER_TYPE, GEOGRAPHIC, PROJECTED = 1024, 1025, 2048, 3072
"""Keys in the directory of keys."""

PIXEL_IS_POINT = 2
OWN = 32767
"""A system described by the file itself and not by its number."""

LARGEST_WORLD_FILE = 4096
"""Bytes; six lines of numbers are shorter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """What a picture says of its place.

    Args:
        fit: from pixels of the upright picture to coordinates.
        epsg: the number of their system; None where it is not told by a number.
        nameless: whether a system is described, but not by a number.
    """

    fit: Affine
    epsg: int | None = None
    nameless: bool = False


def world_file_names(picture: Path) -> tuple[str, ...]:
    """Return the names that the world file of a picture may have, the usual one first.

    The usual one takes the first and the last letter of the picture's suffix, and a w.
    """
    suffix = picture.suffix.removeprefix(".").lower()
    if not suffix:
        return ()
    endings = dict.fromkeys((f"{suffix[0]}{suffix[-1]}w", f"{suffix}w", "wld"))
    return tuple(f"{picture.stem}.{ending}" for ending in endings)


def read_world_file(content: bytes, facts: ScanFacts) -> Reference:
    """Return the place that a world file gives to a picture.

    Args:
        content: of the world file; a comma may stand for the decimal point.
        facts: of the picture.

    Raises:
        CannotRead: it is not six numbers, or they flatten the picture.
    """
    a, d, b, e, c, f = _six_numbers(content)
    reference = _reference((a, b, c - (a + b) / 2, d, e, f - (d + e) / 2), facts)
    if reference is None:
        raise CannotRead("its numbers would flatten the picture to a line")
    return reference


def _six_numbers(content: bytes) -> tuple[float, ...]:
    words = content[: LARGEST_WORLD_FILE + 1].decode("utf-8-sig", errors="replace").split()
    if len(content) > LARGEST_WORLD_FILE or len(words) != 6:
        raise CannotRead("it does not hold six lines with a number each")
    numbers = []
    for line, word in enumerate(words, start=1):
        try:
            number = float(word.replace(",", "."))
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            raise CannotRead(f"its line {line}, “{word[:20]}”, is no number")
        numbers.append(number)
    return tuple(numbers)


def read_tags(source: bytes | Path, facts: ScanFacts) -> Reference | None:
    """Return the place that GeoTIFF tags give to a page; None where there are none of use.

    Raises:
        CannotRead: it is no picture that can be used.
    """
    if facts.format != "TIFF":
        return None
    with opened(source, facts.page) as (image, _):
        tags = dict(image.tag_v2) if isinstance(image, TiffImageFile) else {}
    keys = _keys(tags.get(KEYS, ()))
    fit = _fit(tags)
    if fit is None:
        return None
    if keys.get(RASTER_TYPE) == PIXEL_IS_POINT:
        a, b, c, d, e, f = fit
        fit = (a, b, c - (a + b) / 2, d, e, f - (d + e) / 2)
    number = keys.get(PROJECTED, keys.get(GEOGRAPHIC, 0))
    named = 0 < number < OWN
    return _reference(
        fit, facts, epsg=number if named else None, nameless=MODEL_TYPE in keys and not named
    )


def _fit(tags: dict[int, Any]) -> Affine | None:
    """Return the six numbers, from the outer corner of the first pixel as stored."""
    matrix = _numbers(tags.get(TRANSFORMATION))
    if len(matrix) == 16:
        return matrix[0], matrix[1], matrix[3], matrix[4], matrix[5], matrix[7]
    scale, ties = _numbers(tags.get(PIXEL_SCALE)), _numbers(tags.get(TIE_POINTS))
    if len(scale) < 2 or len(ties) < 6:
        return None
    column, row, _, east, north, _ = ties[:6]
    return scale[0], 0.0, east - column * scale[0], 0.0, -scale[1], north + row * scale[1]


def _keys(directory: object) -> dict[int, int]:
    """Return the keys that are whole numbers; source: GeoTIFF 1.1, 7.1.2."""
    rows = _numbers(directory)
    found = {}
    for at in range(4, len(rows) - 3, 4):
        key, location, count, value = (int(n) for n in rows[at : at + 4])
        if (location, count) == (0, 1):
            found[key] = value
    return found


def _numbers(value: object) -> tuple[float, ...]:
    if not isinstance(value, Sequence) or not all(isinstance(n, int | float) for n in value):
        return ()
    return tuple(value) if all(map(math.isfinite, value)) else ()


def _reference(
    fit: Affine, facts: ScanFacts, *, epsg: int | None = None, nameless: bool = False
) -> Reference | None:
    """Return a reference of the upright picture, given the fit of the stored one."""
    turned = upright(fit, facts.turn, (facts.width, facts.height))
    sheet = (0.0, 0.0, float(facts.width), float(facts.height))
    if not sound(Straight(turned), sheet):
        return None
    return Reference(fit=turned, epsg=epsg, nameless=nameless)
