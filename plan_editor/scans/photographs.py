"""Photographs: made smaller, their day and place read and then left out of them."""

import io
import re
from contextlib import suppress
from dataclasses import dataclass
from math import isfinite
from typing import Any

from PIL import ExifTags, Image

from plan_editor.scans.decoding import decoded
from plan_editor.scans.reading import opened

LONGEST = 1600
"""Pixels of the longer side at most: a hand's breadth of print, and small enough to keep."""

QUALITY = 85
_TAKEN = re.compile(r"(\d{4}):(\d{2}):(\d{2}) ")


@dataclass(frozen=True, slots=True, kw_only=True)
class Photograph:
    """A photograph as the plan keeps it.

    Args:
        content: JPEG of at most ``LONGEST`` pixels a side, upright, with nothing written in it.
        width, height: in pixels.
        taken: ISO date, as the camera noted it; empty where it did not.
        place: longitude and latitude in degrees of WGS 84, as the camera noted it, or None.
    """

    content: bytes
    width: int
    height: int
    taken: str
    place: tuple[float, float] | None


def photograph(source: bytes) -> Photograph:
    """Return a picture made ready to be kept.

    Raises:
        CannotRead: it is no picture that can be used, or it was cut short.
    """
    with opened(source) as (image, _):
        noted = image.getexif()
        taken, place = _taken(noted), _place(noted)
    found = decoded(source)
    small = Image.fromarray(found.strip(0, found.height))
    small.thumbnail((LONGEST, LONGEST))
    written = io.BytesIO()
    small.save(written, "JPEG", quality=QUALITY, optimize=True)
    return Photograph(
        content=written.getvalue(),
        width=small.width,
        height=small.height,
        taken=taken,
        place=place,
    )


def _taken(noted: Image.Exif) -> str:
    """Return the day. Source: CIPA DC-008 (Exif 2.32), tags 36867 and 306."""
    when = noted.get_ifd(ExifTags.IFD.Exif).get(ExifTags.Base.DateTimeOriginal)
    found = _TAKEN.match(str(when or noted.get(ExifTags.Base.DateTime, "")))
    return "-".join(found.groups()) if found and found[1] != "0000" else ""


def _place(noted: Image.Exif) -> tuple[float, float] | None:
    """Return longitude and latitude. Source: CIPA DC-008 (Exif 2.32), GPS tags 1 to 4."""
    told = noted.get_ifd(ExifTags.IFD.GPSInfo)
    gps = ExifTags.GPS
    east = _degrees(told.get(gps.GPSLongitude), told.get(gps.GPSLongitudeRef), "W")
    north = _degrees(told.get(gps.GPSLatitude), told.get(gps.GPSLatitudeRef), "S")
    if east is None or north is None or abs(east) > 180.0 or abs(north) > 90.0:
        return None
    # a camera without a fix writes noughts
    return None if east == north == 0.0 else (east, north)


def _degrees(told: Any, side: Any, negative: str) -> float | None:
    with suppress(TypeError, ValueError, ZeroDivisionError):
        degrees, minutes, seconds = (float(part) for part in told)
        found = degrees + minutes / 60 + seconds / 3600
        if isfinite(found):
            return -found if str(side).upper().startswith(negative) else found
    return None
