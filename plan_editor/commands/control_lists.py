"""The list of points of a fit: one left out, renamed, better known, gone; others taken in."""

from collections.abc import Iterable
from dataclasses import replace

from plan_editor.commands.control import Point, Points
from plan_editor.commands.placing import read_coordinate
from plan_editor.errors import CannotUse
from plan_editor.survey.fits.models import Control

LEAST_SD_M, MOST_SD_M = 0.001, 100.0


def with_used(points: Points, at: int, *, used: bool) -> Points:
    """Return the points with one of them taking part, or left out."""
    return _with_one(points, at, replace(points[at], used=used))


def without(points: Points, at: int) -> Points:
    """Return the points without one of them."""
    return (*points[:at], *points[at + 1 :])


def called_otherwise(points: Points, at: int, name: str) -> Points:
    """Return the points with one of them called otherwise."""
    control = replace(points[at].control, name=" ".join(name.split()))
    return _with_one(points, at, replace(points[at], control=control))


def as_known(points: Points, at: int, sd: float | None) -> Points:
    """Return the points with one of them given a standard deviation, all errors in it.

    Raises:
        CannotUse: it is less than a millimetre, or more than a churchyard is long.
    """
    if sd is not None and not LEAST_SD_M <= sd <= MOST_SD_M:
        raise CannotUse(
            "The standard deviation was not changed: it is given in metres, from 0.001 to 100."
        )
    control = replace(points[at].control, sd=sd)
    return _with_one(points, at, replace(points[at], control=control, read=True))


def read_sd(text: str) -> float | None:
    """Return a typed standard deviation, in metres; None where nothing is typed.

    Raises:
        CannotUse: it is no number.
    """
    return read_coordinate(text, "standard deviation") if text.strip() else None


def taken_in(points: Points, more: Iterable[Control]) -> Points:
    """Return the points with others after them; of those of one name the later one stays."""
    found = list(points)
    for control in more:
        same = [n for n, p in enumerate(found) if p.control.name == control.name != ""]
        found = [p for n, p in enumerate(found) if n not in same]
        found.append(Point(control=control))
    return tuple(found)


def _with_one(points: Points, at: int, point: Point) -> Points:
    return (*points[:at], point, *points[at + 1 :])
