"""Bearings, in degrees clockwise from grid north: read and write."""

import math
import re

POINTS = {
    "n": 0.0,
    "ne": 45.0,
    "e": 90.0,
    "se": 135.0,
    "s": 180.0,
    "sw": 225.0,
    "w": 270.0,
    "nw": 315.0,
}
"""Bearings of the points of the compass."""

WHAT_IS_READ = "Write a bearing like 75, 75.5, 75°30', N 30 E or NE."

_ANGLES = tuple(
    re.compile(form, re.ASCII)
    for form in (
        r"(\d+(?:[.,]\d+)?)\s*°?",
        r"(\d+)\s*[°\s-]\s*(\d+(?:[.,]\d+)?)\s*'?",
        r"(\d+)\s*[°\s-]\s*(\d+)\s*['\s-]\s*(\d+(?:[.,]\d+)?)\s*\"?",
    )
)
"""Degrees; degrees and minutes; degrees, minutes and seconds."""

_QUADRANT = re.compile(r"([ns])\s*([^nsew]*?)\s*([ew])")
_TYPED_AS = str.maketrans({"′": "'", "’": "'", "\u00b4": "'", "″": '"', "”": '"', "º": "°"})


def bearing(east: float, north: float) -> float:
    """Return the bearing of a way that goes so far east and north.

    Raises:
        ValueError: it goes nowhere.
    """
    if east == 0.0 and north == 0.0:
        raise ValueError("a way without length has no bearing")
    return normal(math.degrees(math.atan2(east, north)))


def along(bearing_deg: float, distance: float) -> tuple[float, float]:
    """Return how far east and north one comes by going a distance on a bearing."""
    angle = math.radians(bearing_deg)
    return distance * math.sin(angle), distance * math.cos(angle)


def normal(degrees: float) -> float:
    """Return the same direction as a number from 0 to under 360."""
    turned_back = degrees % 360.0
    return 0.0 if turned_back == 360.0 else turned_back  # -1e-20 % 360 is 360


def read(text: str) -> float:
    """Return a bearing as typed, in degrees from 0 to under 360.

    Read are degrees (``75``, ``75.5``), degrees, minutes and seconds (``75°30'``,
    ``75 30 15``), quarters of the circle (``N 30 E`` is 30, ``S 30 W`` is 210) and the eight
    points (``NE``).

    Raises:
        ValueError: it is none of these; the text says what can be written.
    """
    plain = text.strip().casefold().translate(_TYPED_AS).replace("''", '"')
    if plain in POINTS:
        return POINTS[plain]
    quadrant = _QUADRANT.fullmatch(plain)
    angle = _angle(plain if quadrant is None else quadrant[2])
    if angle is None or angle > (360.0 if quadrant is None else 90.0):
        raise ValueError(f"“{text.strip()}” is not a bearing. {WHAT_IS_READ}")
    if quadrant is None:
        return normal(angle)
    toward_east = angle if quadrant[1] == "n" else 180.0 - angle
    return normal(toward_east if quadrant[3] == "e" else -toward_east)


def as_degrees(bearing_deg: float, places: int = 1) -> str:
    """Return a bearing as text in degrees: ``75.5°``."""
    return f"{normal(round(bearing_deg, places)):.{places}f}°"


def _angle(plain: str) -> float | None:
    """Return degrees, minutes and seconds as degrees, or None where it is no angle."""
    for form in _ANGLES:
        found = form.fullmatch(plain)
        if found is not None:
            degrees, *parts = (float(n.replace(",", ".")) for n in found.groups())
            if any(part >= 60.0 for part in parts):
                return None
            return degrees + sum(part / 60.0 ** (i + 1) for i, part in enumerate(parts))
    return None
