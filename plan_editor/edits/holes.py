"""The edit that cuts a hole into an area."""

from dataclasses import dataclass
from typing import Any

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.geometry.tolerance import SAME, stored
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class CutHole:
    """Cut a hole into an area: a courtyard, a bed in the grass, ground left out of a zone."""

    id: ItemId
    hole: Polygon
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Cut a hole into {self.called or '1 thing'}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the area before and after. A rectangle becomes an area of four corners.

        Raises:
            EditRefused: it is not on the plan or no area, the hole crosses itself, reaches out
                of the area, or touches its outline or another hole.
        """
        (item,) = chosen(plan, (self.id,))
        shape = _area(item)
        try:
            hole = stored(self.hole)
        except ValueError as fault:
            raise EditRefused(
                f"The hole cannot be cut: {fault}. Nothing was changed. Draw its outline anew."
            ) from fault
        if not shape.contains_properly(hole):
            raise EditRefused(_where(plan, item, shape, hole))
        return (Change(item, item.at(shapely.difference(shape, hole))),)


def _area(item: Item[Any]) -> BaseGeometry:
    shape, may = item.shape, Form.AREA in item.kind.forms and not item.kind.pinned
    if shape is None or not may or shapely.get_dimensions(shape) != 2:
        raise EditRefused(
            f"{item.called()} is no area that could have a hole. Nothing was changed."
        )
    return shape


def _where(plan: Plan, item: Item[Any], shape: BaseGeometry, hole: BaseGeometry) -> str:
    outside = shapely.difference(hole, shape)
    if outside.area > SAME * SAME:
        what, place = "reaches out of", outside.representative_point()
    else:
        what = "touches the outline of"
        place = shapely.intersection(hole.boundary, shape.boundary).representative_point()
    east, north = plan.grid.to_crs(place.x, place.y)
    return (
        f"The hole {what} {item.called()} at E {east:.2f}, N {north:.2f}. Nothing was changed."
        " Draw it inside, or cut the piece off."
    )
