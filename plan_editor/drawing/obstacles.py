"""What labels keep clear of: the things themselves, as shapes on paper."""

from collections.abc import Iterable

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.compose import Group
from plan_editor.drawing.labels import Obstacles
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form

_POINT_MM = 0.8


def obstacles(groups: Iterable[Group], viewport: Viewport) -> Obstacles:
    """Return every item of the groups as an obstacle, in their order."""
    groups = tuple(groups)
    opens = [_shapes(group, viewport) for group in groups]
    solid = [shapes for group, shapes in zip(groups, opens, strict=True) if _is_solid(group)]
    return Obstacles(open=_joined(opens), solid=_joined(solid))


def _joined(shapes: list[NDArray[np.object_]]) -> NDArray[np.object_]:
    return np.concatenate(shapes) if shapes else np.array([], dtype=object)


def _is_solid(group: Group) -> bool:
    return group.look.solid or bool(group.look.symbol)


def _shapes(group: Group, viewport: Viewport) -> NDArray[np.object_]:
    """Return rectangles whole, other areas by their outline, lines and points by their size."""
    shapes = viewport.shapes([i.shape for i in group.items])
    dimensions = shapely.get_dimensions(shapes)
    sizes = np.array([_size(group, item) for item in group.items]) * viewport.mm_per_metre
    rectangles = np.array([i.form is Form.RECTANGLE for i in group.items])
    outlines = (dimensions == 2) & ~rectangles
    shapes[outlines] = shapely.boundary(shapes[outlines])
    points = dimensions == 0
    sizes[points] = np.maximum(sizes[points], 2 * _POINT_MM)
    wide = (dimensions < 2) & (sizes > 0.0)
    shapes[wide] = shapely.buffer(shapes[wide], sizes[wide] / 2, quad_segs=3)
    return shapes


def _size(group: Group, item: Item) -> float:
    return group.kind.width_m(item.details)
