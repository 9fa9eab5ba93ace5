"""The story of the sample: an invented parish, its grid, its calendar and how it was measured.

St Elfric, Harrowmere, does not exist. Its coordinates lie in the sea, at a place that the
transformation OSTN15 covers. Nobody and nothing in it is real.
"""

from dataclasses import replace
from hashlib import blake2b
from itertools import pairwise
from math import cos, radians, sin
from random import Random
from typing import Any

from shapely import LineString, Point, Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import Basis, Item, ItemId, Method, new_item
from plan_editor.plan.kind import D_co, Kind
from plan_editor.survey.grids.grid import Grid

Line = list[tuple[float, float]]

NAME = "St Elfric, Harrowmere"
GRID = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)
TODAY = "2026-05-16"
"""The day of the story."""

AXIS_DEG = 86.0
"""Bearing of the church's axis, west to east; the rows stand square to it."""

HEAD_LINE_DEG = (AXIS_DEG - 90.0) % 360.0
"""Bearing of the rows: heads lie in the west, the head lines run north."""

MIDDLE = (48.0, 38.0)
"""Where the yard's own axes cross, in metres about the plan's origin."""


def dice(topic: str) -> Random:
    """Return the seeded chance of one topic; a change in one leaves the others alone."""
    return Random(f"Harrowmere 1962 {topic}")


def place(along: float, aside: float) -> tuple[float, float]:
    """Return east and north of a place given along the church's axis and to the north of it."""
    angle = radians(AXIS_DEG)
    return (
        MIDDLE[0] + along * sin(angle) - aside * cos(angle),
        MIDDLE[1] + along * cos(angle) + aside * sin(angle),
    )


def placed(shape: BaseGeometry) -> BaseGeometry:
    """Return a shape drawn along the church's axis and to the north of it as it lies."""
    angle = radians(AXIS_DEG)
    turned = (sin(angle), -cos(angle), cos(angle), sin(angle), *MIDDLE)
    return affine_transform(shape, turned)


def point(along: float, aside: float) -> Point:
    """Return a place on the church's axes as a point."""
    return Point(place(along, aside))


def line(*places: tuple[float, float]) -> LineString:
    """Return a line through places on the church's axes."""
    return LineString([place(*p) for p in places])


def area(*places: tuple[float, float]) -> Polygon:
    """Return the area within places on the church's axes."""
    return Polygon([place(*p) for p in places])


def rounded_off(corners: Line, times: int = 3) -> Line:
    """Return a line through the corners with each of them cut off, again and again.

    The ends stay. Source: the corner cutting of Chaikin (1974).
    """
    for _ in range(times):
        cut = [corners[0]]
        for (e0, n0), (e1, n1) in pairwise(corners):
            cut.append((0.75 * e0 + 0.25 * e1, 0.75 * n0 + 0.25 * n1))
            cut.append((0.25 * e0 + 0.75 * e1, 0.25 * n0 + 0.75 * n1))
        corners = [*cut, corners[-1]]
    return corners


def id_of(kind: Kind, key: str) -> ItemId:
    """Return the id of the item that the story calls by that key: always the same."""
    return ItemId(blake2b(f"Harrowmere {kind.name} {key}".encode(), digest_size=16).hexdigest())


def made(
    kind: Kind[D_co],
    key: str,
    where: BaseGeometry | Rectangle | None = None,
    *,
    details: Any = None,
    basis: Basis | None = None,
) -> Item[D_co]:
    """Return an item of the story; see ``new_item``."""
    item = new_item(kind, where, details=details, basis=basis)
    return replace(item, id=id_of(kind, key))


def numbered(number: str, item: Item[D_co]) -> Item[D_co]:
    """Return the item with what people call it."""
    return replace(item, number=number)


def traced(base_plan: ItemId) -> Basis:
    """Return how things are known that were traced on the old plan."""
    return Basis(
        method=Method.TRACED,
        source="Plan of 1962",
        base_plan=base_plan,
        date="2025-10",
        sd_m=0.25,
    )


TAPED = Basis(method=Method.TAPED, source="Field book 2025", date="2025-09", sd_m=0.05)
GNSS = Basis(method=Method.GNSS, source="GNSS points of 2025", date="2025-09-06", sd_m=0.03)
AS_DUG = Basis(method=Method.AS_DUG, source="Grave book", sd_m=0.10)
COMPUTED = Basis(
    method=Method.COMPUTED, source="Laid out from the taped rows", date="2025-10", sd_m=0.05
)
HEARSAY = Basis(method=Method.UNKNOWN, source="As the sexton remembers it", sd_m=1.0)
