"""What has been drawn becomes a new item or a hole, or the reason why it cannot."""

from dataclasses import dataclass, replace
from math import hypot
from typing import Any

import shapely
from shapely import Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.basis import traced_on
from plan_editor.drafting.figures import Place
from plan_editor.drafting.tool import Answer
from plan_editor.edits.basic import Add
from plan_editor.edits.chosen import called
from plan_editor.edits.holes import CutHole
from plan_editor.edits.laying import spot
from plan_editor.geometry.mending import fault_in, mended
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.item import Basis, Item, new_item
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is drawn: a kind in one of its forms, or a hole in an area of that kind.

    Args:
        kind: of which it is.
        form: its shape.
        hole: whether it is cut out of an area of that kind which is drawn already.
        basis: how its place is known; None where it is drawn by hand over what lies there.
        details: names of details, each with what is known of it by the way it is drawn.
    """

    kind: Kind
    form: Form
    hole: bool = False
    basis: Basis | None = None
    details: tuple[tuple[str, Any], ...] = ()

    @property
    def noun(self) -> str:
        """What to call it in a sentence: ``path``, ``hole in a building``."""
        return f"hole in {self.kind.one}" if self.hole else self.kind.title.lower()

    @property
    def first_side(self) -> str:
        """What to call the first side of a rectangle."""
        return "head line" if self.form is Form.RECTANGLE else "first side"

    def done(
        self, plan: Plan, place: BaseGeometry | Rectangle, *, after: Answer, otherwise: Answer
    ) -> Answer:
        """Return the answer that brings it onto the plan, or says why it cannot lie like that.

        Args:
            plan: as it is.
            place: what was drawn.
            after: what follows when it can.
            otherwise: what follows when it cannot.
        """
        if isinstance(place, Rectangle) and (self.hole or self.form is not Form.RECTANGLE):
            place = place.outline()
        if isinstance(place, BaseGeometry):
            shape = mended(place)
            if shape is None:
                return _refused(plan, place, otherwise)
            place = shape
        if self.hole and isinstance(place, Polygon):
            return self._cut(plan, place, after=after, otherwise=otherwise)
        untyped: Any = self.kind  # a kind found in a list does not tell the type of its details
        details = replace(self.kind.details(), **dict(self.details))
        item = new_item(untyped, place, details=details)
        return replace(after, edit=Add((self._known(plan, item),)))

    def _known(self, plan: Plan, item: Item[Any]) -> Item[Any]:
        if self.basis is not None:
            return replace(item, basis=self.basis)
        return replace(item, basis=traced_on(plan, item.shape)) if item.shape else item

    def _cut(self, plan: Plan, hole: Polygon, *, after: Answer, otherwise: Answer) -> Answer:
        item = self._holding(plan, hole)
        if item is None:
            said = f"There is no {self.kind.title.lower()} round that hole. Go back, or cancel"
            return replace(otherwise, prompt=said)
        return replace(after, edit=CutHole(id=item.id, hole=hole, called=called((item,))))

    def _holding(self, plan: Plan, hole: Polygon) -> Item[Any] | None:
        """Return the smallest area of the kind round a hole, else what holds most of it."""
        found = [
            (shapely.intersection(i.shape, hole).area, -i.shape.area, i.id)
            for i in plan.of(self.kind)
            if i.shape is not None and i.shape.intersects(hole)
        ]
        return plan.items[max(found)[2]] if found else None


def apart(one: Place, other: Place, by: float = SAME) -> bool:
    """Return whether two places are farther apart than so many metres."""
    return hypot(one[0] - other[0], one[1] - other[1]) > by


def _refused(plan: Plan, shape: BaseGeometry, otherwise: Answer) -> Answer:
    """Return the answer that says what is wrong with a shape, and shows where."""
    fault = fault_in(shape)
    where = "" if fault.place is None else f" at {spot(plan, fault.place)}"
    told = f"It cannot lie like that: {fault.what}{where}. Go back a corner, or cancel"
    shown = () if fault.place is None else (Point(fault.place),)
    return replace(otherwise, prompt=told, preview=(*otherwise.preview, *shown))
