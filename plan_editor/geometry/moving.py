"""Many shapes moved or turned at one go.

With array functions fifty thousand shapes take hundredths of a second; one by one they take
half a second.
"""

from collections.abc import Callable, Sequence
from math import cos, radians, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.tolerance import rounded

Shapes = NDArray[np.object_]
Corners = NDArray[np.float64]


def moved(shapes: Sequence[BaseGeometry], east: float, north: float) -> Shapes:
    """Return shapes shifted by metres east and north, taken to the whole millimetre.

    A shape in whole millimetres keeps its form exactly.
    """
    by = np.array((rounded(east), rounded(north)))
    return _each(shapes, lambda c: (c + by).round(3) + 0.0)


def turned(
    shapes: Sequence[BaseGeometry], degrees_clockwise: float, about: tuple[float, float]
) -> Shapes:
    """Return shapes turned clockwise about a point; corners are not rounded."""
    angle = radians(degrees_clockwise)
    turn = np.array(((cos(angle), -sin(angle)), (sin(angle), cos(angle))))
    centre = np.array(about)
    return _each(shapes, lambda c: (c - centre) @ turn + centre)


def carried(shapes: Sequence[BaseGeometry], way: Callable[[Corners], Corners]) -> Shapes:
    """Return shapes with every corner carried by a way, n by 2; corners are not rounded."""
    return _each(shapes, way)


def _each(shapes: Sequence[BaseGeometry], change: Callable[[Corners], Corners]) -> Shapes:
    held = np.empty(len(shapes), dtype=object)
    held[:] = shapes
    made: Shapes = shapely.transform(held, change)
    return made
