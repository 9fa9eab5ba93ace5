"""Waypoints, routes and tracks of GPX files, versions 1.0 and 1.1.

Source: GPX 1.1 Schema Documentation, topografix.com/GPX/1/1. Latitude and longitude are in
degrees of WGS 84, by that definition.
"""

from collections.abc import Iterator
from pathlib import Path
from xml.etree.ElementTree import Element, ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import fromstring

from plan_editor.errors import CannotRead
from plan_editor.exchange.points import MOST_POINTS, FilePoint, PointFile, day_of

MOST_BYTES = 50_000_000

HANDHELD_SD_M = 5.0
"""A telephone under open sky is right to about 4.9 m. Source: gps.gov, GPS accuracy, after van
Diggelen and Enge, ION GNSS 2015; trees and walls make it worse."""

WGS84 = "EPSG:4326"

_SPACES = frozenset(
    {"http://www.topografix.com/GPX/1/1", "http://www.topografix.com/GPX/1/0", ""}
)
_HOW_GOOD = (
    f"The file does not say how well its points are known; {HANDHELD_SD_M:g} m is taken, as is"
    " usual of a telephone under open sky. Nothing is dug or set out from such points."
)


def is_gpx(path: Path) -> bool:
    """Return whether a file's name says that it is GPX."""
    return path.suffix.lower() == ".gpx"


def gpx_points(path: Path) -> PointFile:
    """Return the points of a GPX file; those of a route or track are joined.

    The type of a waypoint is its code; the type or the name of a route or track is the code of
    all its points.

    Raises:
        CannotRead: it is not there, is no GPX, is damaged, hostile or too large, or empty.
    """
    root = _root(path)
    points: list[FilePoint] = []
    faults: list[str] = []
    for number, (element, line) in enumerate(_elements(root), 1):
        if number > MOST_POINTS:
            raise CannotRead(
                f"{path.name} has more than {MOST_POINTS:,} points. Nothing was read. Keep only"
                " those of the churchyard."
            )
        try:
            points.append(_point(element, number, line))
        except ValueError as fault:
            faults.append(f"Point {number} was left out: {fault}.")
    if not points:
        raise CannotRead(f"{path.name} holds no points. Nothing was read.")
    return PointFile(
        name=path.name,
        points=tuple(points),
        degrees=True,
        left_out=tuple(faults),
        crs=WGS84,
        taken=(_HOW_GOOD,),
    )


def _root(path: Path) -> Element:
    try:
        if path.exists() and not path.is_file():
            raise CannotRead(f"{path.name} is a folder or a device. Nothing was read.")
        if path.stat().st_size > MOST_BYTES:
            raise CannotRead(
                f"{path.name} is larger than {MOST_BYTES // 1_000_000} MB. Nothing was read."
                " Keep only the points of the churchyard."
            )
        root: Element = fromstring(path.read_bytes(), forbid_dtd=True)
    except DefusedXmlException as error:
        raise CannotRead(
            f"{path.name} holds declarations that no GPX file needs and that can do harm."
            " Nothing was read."
        ) from error
    except (ParseError, ValueError, LookupError, RecursionError) as error:
        raise CannotRead(
            f"{path.name} is damaged or no GPX file: {error}. Nothing was read. Export it"
            " again."
        ) from error
    except OSError as error:
        raise CannotRead(
            f"{path} cannot be read: {error.strerror}. Nothing was read."
        ) from error
    if _name(root) != "gpx":
        raise CannotRead(f"{path.name} is XML, but no GPX. Nothing was read.")
    return root


def _elements(root: Element) -> Iterator[tuple[Element, str]]:
    """Return each point with the code of its route or track, "" of a waypoint."""
    yield from ((point, "") for point in _children(root, "wpt"))
    segments = [(s, t) for t in _children(root, "trk") for s in _children(t, "trkseg")]
    lines = [(r, r) for r in _children(root, "rte")] + segments
    for run, (line, told) in enumerate(lines, 1):
        code = _code(told, run)
        yield from ((p, code) for name in ("rtept", "trkpt") for p in _children(line, name))


def _children(element: Element, name: str) -> Iterator[Element]:
    return (child for child in element if _name(child) == name)


def _code(line: Element, run: int) -> str:
    """Return the code of a line with a number that no other line has."""
    word, *rest = (_text(line, "type") or _text(line, "name") or "track").split()
    numbered = word if word[-1].isdigit() else f"{word}0{run}"
    return " ".join((numbered, *rest))


def _point(element: Element, number: int, line: str) -> FilePoint:
    """Return a point.

    Raises:
        ValueError: it has no latitude and longitude, or a height that is no number.
    """
    height = _text(element, "ele")
    return FilePoint(
        line=number,
        name=_text(element, "name"),
        x=_angle(element, "lon", 180.0),
        y=_angle(element, "lat", 90.0),
        height=float(height) if height else None,
        sd_m=HANDHELD_SD_M,
        code=line or _text(element, "type"),
        words=_text(element, "desc") or _text(element, "cmt"),
        date=day_of(_text(element, "time")),
        joined=bool(line),
    )


def _angle(element: Element, name: str, most: float) -> float:
    text = element.get(name, "")
    angle = float(text) if text else most + 1.0
    if not abs(angle) <= most:
        raise ValueError(f"its {name} is “{text[:20]}”")
    return angle


def _text(element: Element, name: str) -> str:
    found = next((c.text for c in element if _name(c) == name), None)
    return " ".join((found or "").split())


def _name(element: Element) -> str:
    """Return the name of an element of GPX; "" of one from elsewhere."""
    space, _, name = str(element.tag).rpartition("}")
    return name if space.lstrip("{") in _SPACES else ""
