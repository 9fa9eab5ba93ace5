"""What is to be removed: crossed through."""

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.along import stations
from plan_editor.drawing.ink import Ink, Points, Stroke
from plan_editor.drawing.rings import lines_of
from plan_editor.plan.look import Pen

_CROSS_MM = 1.6
_PAST_MM = 1.5
_PEN = Pen(width=0.5)
_EVERY_MM = 8.0


def crossed_through(shapes: NDArray[np.object_]) -> tuple[Ink, ...]:
    """Return small crosses along lines, and one over the whole of anything else."""
    dimensions = shapely.get_dimensions(shapes)
    along = [_along(line) for line in lines_of(shapes[dimensions == 1])]
    lines = tuple(
        stroke
        for places in (*along, _over(shapes[dimensions != 1]))
        for stroke in places.reshape(-1, 2, 2)
    )
    return (Stroke(lines=lines, pen=_PEN),)


def _along(line: Points) -> Points:
    at, _ = stations(line, _EVERY_MM)
    return _crosses(at - _CROSS_MM / 2, at + _CROSS_MM / 2)


def _over(shapes: NDArray[np.object_]) -> Points:
    bounds = shapely.bounds(shapes).reshape(-1, 4)
    # past the outline, so that it is not taken for a space that cannot be used
    return _crosses(bounds[:, :2] - _PAST_MM, bounds[:, 2:] + _PAST_MM)


def _crosses(low: Points, high: Points) -> Points:
    one = np.stack([low, high], axis=1)
    other = np.stack(
        [np.column_stack([low[:, 0], high[:, 1]]), np.column_stack([high[:, 0], low[:, 1]])],
        axis=1,
    )
    return np.concatenate([one, other])
