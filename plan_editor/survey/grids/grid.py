"""Where the plan's origin lies: a local grid, or a projected coordinate system."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

LOCAL = "local"
"""The name of a grid that is tied to nothing but the ground itself."""

M = TypeVar("M", float, NDArray[np.float64])


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A coordinate system, and where in it the plan's origin lies.

    Args:
        crs: ``local``, or ``EPSG:n`` of a projected system in metres; see ``crs.checked``.
        east: easting of the plan's origin, in metres; whole metres keep sums exact.
        north: northing of the plan's origin, in metres.
    """

    crs: str = LOCAL
    east: float = 0.0
    north: float = 0.0

    @property
    def epsg(self) -> int | None:
        """The number of the system in the EPSG register, or None of a local grid."""
        return None if self.crs == LOCAL else int(self.crs.removeprefix("EPSG:"))

    def told(self) -> str:
        """Return it in words: ``EPSG:27700, its origin at E 553000, N 421000``."""
        named = "a local grid" if self.crs == LOCAL else self.crs
        return f"{named}, its origin at E {self.east:.10g}, N {self.north:.10g}"

    def to_crs(self, east: M, north: M) -> tuple[M, M]:
        """Return plan coordinates, or arrays of them, as coordinates of the system."""
        return east + self.east, north + self.north

    def to_plan(self, east: M, north: M) -> tuple[M, M]:
        """Return coordinates of the system, or arrays of them, as plan coordinates."""
        return east - self.east, north - self.north
