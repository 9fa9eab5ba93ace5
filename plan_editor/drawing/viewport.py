"""Ground to paper: scale, frame, and the way north."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.ink import Clip, Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Viewport:
    """A window on the ground, at a scale, in a frame on the paper. Grid north is up.

    Args:
        east, north: metres about the plan's origin, at the middle of the frame.
        scale: the number in 1:200.
        frame: left, bottom, right, top in millimetres on paper.
    """

    east: float
    north: float
    scale: float
    frame: Clip

    @property
    def mm_per_metre(self) -> float:
        """Millimetres of paper for one metre of ground: 5.0 at 1:200."""
        return 1000.0 / self.scale

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the frame, in millimetres on paper."""
        left, bottom, right, top = self.frame
        return (left + right) / 2, (bottom + top) / 2

    @property
    def ground(self) -> tuple[float, float, float, float]:
        """What is seen: least east and north, greatest east and north, in metres."""
        left, bottom, right, top = self.frame
        half_e = (right - left) / 2 / self.mm_per_metre
        half_n = (top - bottom) / 2 / self.mm_per_metre
        return self.east - half_e, self.north - half_n, self.east + half_e, self.north + half_n

    def paper(self, coordinates: Points) -> Points:
        """Return ground coordinates, (n, 2) in metres, as places on paper."""
        moved = (coordinates - (self.east, self.north)) * self.mm_per_metre
        return np.asarray(moved + self.middle)

    def shape(self, shape: BaseGeometry) -> BaseGeometry:
        """Return a shape on the ground as a shape on paper, in millimetres."""
        return shapely.transform(shape, self.paper)

    def shapes(self, shapes: Iterable[BaseGeometry | None]) -> NDArray[np.object_]:
        """Return many shapes on the ground as an array of shapes on paper."""
        return np.asarray(shapely.transform(np.array(list(shapes), dtype=object), self.paper))
