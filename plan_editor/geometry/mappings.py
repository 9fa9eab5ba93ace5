"""Ways from a base plan to the ground and back: straight, or in perspective."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

Places = NDArray[np.float64]
"""Rows of two numbers: x and y on a base plan, or east and north in metres."""

Affine = tuple[float, float, float, float, float, float]
"""a, b, c, d, e, f of east = a·x + b·y + c, north = d·x + e·y + f."""

Eight = tuple[float, float, float, float, float, float, float, float]
"""a to h of east = (a·x + b·y + c) / (g·x + h·y + 1), north = (d·x + e·y + f) / (the same)."""


class Mapping(Protocol):
    """A way from a base plan (pixels right and down, or a drawing's units) to the ground.

    Frozen and hashable; equal where it maps alike.
    """

    @property
    def straight(self) -> Affine:
        """Six numbers that come near it everywhere on the base plan."""
        ...

    @property
    def is_straight(self) -> bool:
        """Whether parallels stay parallel: then the six numbers are all of it."""
        ...

    def to_ground(self, places: Places) -> Places:
        """Return the east and north, in metres, of places on the base plan; n by 2 each."""
        ...

    def to_paper(self, places: Places) -> Places:
        """Return the places on the base plan of places on the ground; n by 2 each."""
        ...


@dataclass(frozen=True, slots=True)
class Straight:
    """An affine way: it shifts, turns, stretches and skews."""

    numbers: Affine

    @property
    def straight(self) -> Affine:
        """The six numbers."""
        return self.numbers

    @property
    def is_straight(self) -> bool:
        """True."""
        return True

    def to_ground(self, places: Places) -> Places:
        """Return the east and north of places on the base plan."""
        a, b, c, d, e, f = self.numbers
        return np.asarray(places @ np.array([(a, d), (b, e)]) + (c, f))

    def to_paper(self, places: Places) -> Places:
        """Return the places on the base plan of places on the ground."""
        a, b, c, d, e, f = self.numbers
        back = np.array([(e, -d), (-b, a)]) / (a * e - b * d)
        return np.asarray((places - (c, f)) @ back)


@dataclass(frozen=True, slots=True)
class Perspective:
    """A projective way, as of a photograph of a flat sheet taken at a slant.

    Args:
        straight: six numbers that come near it.
        numbers: the eight.
    """

    straight: Affine
    numbers: Eight

    @property
    def is_straight(self) -> bool:
        """False."""
        return False

    def to_ground(self, places: Places) -> Places:
        """Return the east and north of places on the base plan."""
        return _through(self.numbers, places)

    def to_paper(self, places: Places) -> Places:
        """Return the places on the base plan of places on the ground."""
        back = np.linalg.inv(np.array([*self.numbers, 1.0]).reshape(3, 3)).ravel()
        return _through(back / back[8], places)


def _through(numbers: Sequence[float], places: Places) -> Places:
    matrix = np.array([*numbers[:8], 1.0]).reshape(3, 3)
    along = places @ matrix[:, :2].T + matrix[:, 2]
    return np.asarray(along[:, :2] / along[:, 2:])
