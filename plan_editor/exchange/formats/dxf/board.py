"""The drawing that a plan is being put into: its model space, scale and the way to the grid."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from ezdxf.document import Drawing as Document

from plan_editor.drawing.ink import Points
from plan_editor.drawing.viewport import Viewport
from plan_editor.exchange.formats.dxf.pens import Attributes, dressed
from plan_editor.exchange.formats.dxf.words import in_one_line
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Pen
from plan_editor.survey.grids.grid import Grid

APPLICATION = "CHURCHYARD_PLAN"
"""Under this name the drawing keeps who each of its entities is."""

Entity: TypeAlias = Any
"""Any entity: ezdxf makes their attributes at run time, so that types would say nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """Where a plan is drawn.

    Args:
        document: the drawing.
        space: its model space, in metres of the plan's coordinate system.
        grid: from the plan's coordinates to those of the drawing.
        viewport: the paper sheet's window on the ground, in the plan's coordinates.
    """

    document: Document
    space: Any
    grid: Grid
    viewport: Viewport

    @property
    def metres_per_mm(self) -> float:
        """Metres of ground for a millimetre of the paper sheet: 0.2 at 1:200."""
        return self.viewport.scale / 1000.0

    def true(self, points: Points) -> Points:
        """Return points of the plan, (n, 2), in the coordinates of the drawing."""
        return np.column_stack(self.grid.to_crs(points[:, 0], points[:, 1]))

    def from_paper(self, points: Points) -> Points:
        """Return places on the paper sheet, (n, 2), in the coordinates of the drawing."""
        view = self.viewport
        moved = (points - view.middle) / view.mm_per_metre + (view.east, view.north)
        return self.true(moved)


def drawn_with(
    document: Document, layer: str, pen: Pen | None, usual: Pen | None
) -> Attributes:
    """Return the attributes of an entity: its layer, and its pen if not the layer's."""
    if pen is None or pen == usual:
        return {"layer": layer}
    return {"layer": layer} | dressed(document, pen).attributes()


def mark(entity: Entity, item: Item[Any], part: str, width_m: float = 0.0) -> None:
    """Write into an entity which item of the plan it shows, and which part of it.

    Args:
        entity: of the drawing.
        item: of the plan; its id, kind, number and status are written in this order.
        part: ``outline``, ``hole``, ``line``, ``edge``, ``place``, ``crown``, ``number``, …
        width_m: of a line that has one.
    """
    mark_with(entity, (item.id, item.kind.name, item.number, item.status.value, part), width_m)


def mark_with(entity: Entity, words: Iterable[str], width_m: float = 0.0) -> None:
    """Write words into an entity under the program's name."""
    tags: list[tuple[int, Any]] = [(1000, in_one_line(word)) for word in words]
    if width_m:
        tags.append((1041, width_m))  # 1041: a distance, scaled with the entity
    entity.set_xdata(APPLICATION, tags)


def size_of(kind: Kind, item: Item[Any]) -> float:
    """Return the width or diameter of an item in metres, 0.0 where it has none."""
    return kind.width_m(item.details)
