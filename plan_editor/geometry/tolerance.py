"""How near counts as the same, and the one place where stored coordinates are rounded."""

from typing import TypeVar

import shapely
from shapely.geometry.base import BaseGeometry

GRAIN = 0.001
"""Stored coordinates are whole millimetres, in metres."""

SAME = 0.0005
"""Two lengths or places nearer than this, in metres, are the same."""

FARTHEST = 100_000.0
"""A coordinate farther than this from the plan's origin, in metres, is a mistake."""

G = TypeVar("G", bound=BaseGeometry)


def rounded(metres: float) -> float:
    """Return a coordinate in metres to the nearest whole millimetre."""
    return round(metres, 3) + 0.0


def stored(shape: G) -> BaseGeometry:
    """Return a shape as the plan keeps it: coordinates in whole millimetres, z dropped, valid.

    The corners keep their order where rounding does no harm; a shape that rounding would break
    is rebuilt on the grid of whole millimetres.

    Raises:
        ValueError: the shape is empty, not finite, too far away, crosses itself or vanishes
            when rounded.
    """
    if shape.is_empty:
        raise ValueError("the shape is empty")
    flat = shapely.force_2d(shape)
    coordinates = shapely.get_coordinates(flat)
    if not (abs(coordinates) < FARTHEST).all():
        raise ValueError("a corner lies more than 100 km from the plan's origin, or nowhere")
    if not flat.is_valid:
        raise ValueError(shapely.is_valid_reason(flat))
    kept: BaseGeometry = shapely.transform(flat, lambda c: c.round(3) + 0.0)
    if kept.is_valid and _whole(kept):
        return kept
    return _on_grid(flat)


def _on_grid(flat: BaseGeometry) -> BaseGeometry:
    snapped: BaseGeometry = shapely.set_precision(flat, GRAIN)
    if snapped.is_empty or snapped.geom_type != flat.geom_type or not snapped.is_valid:
        raise ValueError("the shape is thinner than a millimetre")
    return shapely.transform(snapped, lambda c: c.round(3) + 0.0)


def _whole(shape: BaseGeometry) -> bool:
    # a line all of whose corners fell together is valid to the library, but it is nothing
    if shape.geom_type == "LineString":
        return shape.length > 0
    return True
