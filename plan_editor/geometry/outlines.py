"""Rectangles by corner, size and bearing."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, isfinite, radians, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.bearings import bearing
from plan_editor.geometry.tolerance import SAME


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A rectangle whose truth is its corner, size and bearing; its outline follows from them.

    Turned a full circle in small steps it comes back to what it was, which a list of rounded
    corners would not.

    The *head line* runs from the corner for ``width`` metres along the bearing; the rectangle
    lies to the right of it (clockwise) for ``length`` metres. A grave with its head to the west
    and feet to the east has its corner at the south-west and bearing 0: the head line runs
    north and the grave reaches east.
    """

    east: float
    north: float
    width: float
    length: float
    bearing_deg: float = 0.0

    def __post_init__(self) -> None:
        """Check the numbers.

        Raises:
            ValueError: a side is not longer than nothing, or a number is not finite.
        """
        numbers = (self.east, self.north, self.width, self.length, self.bearing_deg)
        if not all(isfinite(n) for n in numbers):
            raise ValueError("a rectangle needs five finite numbers")
        if min(self.width, self.length) <= SAME:
            raise ValueError("a rectangle needs two sides longer than nothing")

    def corners(self) -> tuple[tuple[float, float], ...]:
        """Return the corners, clockwise: start and end of the head line, then the foot end."""
        along_e, along_n = self._along()
        foot_e, foot_n = along_n * self.length, -along_e * self.length
        head_e, head_n = along_e * self.width, along_n * self.width
        return (
            (self.east, self.north),
            (self.east + head_e, self.north + head_n),
            (self.east + head_e + foot_e, self.north + head_n + foot_n),
            (self.east + foot_e, self.north + foot_n),
        )

    def outline(self) -> Polygon:
        """Return it as a polygon, in whole millimetres, beginning with the head line."""
        polygon: Polygon = outlines((self,))[0]
        return polygon

    @property
    def centre(self) -> tuple[float, float]:
        """The middle, east and north."""
        (e0, n0), _, (e2, n2), _ = self.corners()
        return (e0 + e2) / 2, (n0 + n2) / 2

    @property
    def facing_deg(self) -> float:
        """The bearing from head to foot, in degrees from 0 to under 360."""
        return (self.bearing_deg + 90.0) % 360.0

    def moved(self, east: float, north: float) -> "Rectangle":
        """Return it shifted by metres east and north."""
        return replace(self, east=self.east + east, north=self.north + north)

    def turned(self, degrees_clockwise: float, about: tuple[float, float]) -> "Rectangle":
        """Return it turned clockwise about a point."""
        angle = radians(degrees_clockwise)
        de, dn = self.east - about[0], self.north - about[1]
        return replace(
            self,
            east=about[0] + de * cos(angle) + dn * sin(angle),
            north=about[1] - de * sin(angle) + dn * cos(angle),
            bearing_deg=(self.bearing_deg + degrees_clockwise) % 360.0,
        )

    def _along(self) -> tuple[float, float]:
        angle = radians(self.bearing_deg)
        return sin(angle), cos(angle)


def outlines(rectangles: Sequence[Rectangle]) -> NDArray[np.object_]:
    """Return the outline of each of many rectangles, made at one go."""
    if not rectangles:
        return np.empty(0, dtype=object)
    corners = np.array([r.corners() for r in rectangles])
    return np.asarray(shapely.polygons(np.round(corners, 3) + 0.0), dtype=object)


def on_head_line(
    start: tuple[float, float], end: tuple[float, float], length: float
) -> Rectangle:
    """Return the rectangle whose head line runs from start to end.

    It reaches to the right of it for ``length`` metres.

    Raises:
        ValueError: the two ends are the same, or the length is nothing.
    """
    de, dn = end[0] - start[0], end[1] - start[1]
    return Rectangle(
        east=start[0],
        north=start[1],
        width=hypot(de, dn),
        length=length,
        bearing_deg=bearing(de, dn),
    )


def rectangle_of(shape: BaseGeometry, within: float = 0.002) -> Rectangle | None:
    """Return the rectangle that an outline is, or None if it is not one.

    The sides are the means of opposite ones, so that corners in whole millimetres do no harm;
    every corner may be ``within`` metres from where it should be. The head line is taken to be
    the outline's first side, as ``Rectangle.outline`` writes it.
    """
    if shape.geom_type != "Polygon" or shapely.get_num_coordinates(shape) != 5:
        return None
    ring = shapely.get_coordinates(shape)[:4]
    if shapely.is_ccw(shapely.get_exterior_ring(shape)):
        ring = ring[[1, 0, 3, 2]]
    head = ((ring[1] - ring[0] + ring[2] - ring[3]) / 2).tolist()
    side = ((ring[3] - ring[0] + ring[2] - ring[1]) / 2).tolist()
    # the side turned a quarter back runs as the head line does
    along_e, along_n = head[0] - side[1], head[1] + side[0]
    if min(hypot(*head), hypot(*side), hypot(along_e, along_n)) <= SAME:
        return None
    at_corner = Rectangle(
        east=float(ring[0, 0]),
        north=float(ring[0, 1]),
        width=hypot(*head),
        length=hypot(*side),
        bearing_deg=bearing(along_e, along_n),
    )
    found = at_corner.moved(*(ring - at_corner.corners()).mean(axis=0).tolist())
    return found if float(np.abs(found.corners() - ring).max()) <= within else None


def longest_side_deg(shape: BaseGeometry) -> float | None:
    """Return the bearing of the longest side of a line or an area; None of a point."""
    edge = shape.boundary if shapely.get_dimensions(shape) == 2 else shape
    ways = np.concatenate(
        [np.diff(shapely.get_coordinates(part), axis=0) for part in shapely.get_parts(edge)]
    )
    if not len(ways):
        return None
    return bearing(*ways[np.hypot(*ways.T).argmax()].tolist())
