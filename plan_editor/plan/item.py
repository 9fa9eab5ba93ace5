"""One thing that the plan keeps: a grave, a yew, a burial, the parish's figures."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from textwrap import shorten
from typing import Any, Generic, NewType
from uuid import uuid4

from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle, outlines
from plan_editor.geometry.tolerance import stored
from plan_editor.plan.kind import D_co, Form, Kind

ItemId = NewType("ItemId", str)
"""Never used twice, in any plan; 32 hexadecimal digits."""

FORM_OF_GEOMETRY = {
    "Point": Form.POINT,
    "LineString": Form.LINE,
    "Polygon": Form.AREA,
    "MultiPolygon": Form.AREA,
}
"""The form that a shape of each geometry type has."""


BASE_PLAN = "base_plan"
"""The name of the one kind that a basis refers to."""


def new_id() -> ItemId:
    """Return an id that no item bears."""
    return ItemId(uuid4().hex)


class Status(StrEnum):
    """Whether the thing is there."""

    EXISTING = "existing"
    PROPOSED = "proposed"
    TO_BE_REMOVED = "to be removed"


class Method(StrEnum):
    """How the place of an item is known."""

    UNKNOWN = "unknown"
    TRACED = "traced"
    TAPED = "taped"
    INSTRUMENT = "instrument"
    GNSS = "GNSS"
    AS_DUG = "as dug"
    COMPUTED = "computed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """How an item's place is known, and how well.

    Args:
        method: how.
        source: the base plan, field book or file that it comes from, as the user would say it.
        base_plan: the item of the base plan that it was traced on.
        date: ISO date of the measurement; may stop after the year or the month.
        sd_m: standard deviation of east and of north, in metres.
    """

    method: Method = Method.UNKNOWN
    source: str = ""
    base_plan: ItemId | None = None
    date: str = ""
    sd_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Item(Generic[D_co]):
    """One thing that the plan keeps. Frozen: a new state is another item with the same id.

    Args:
        id: who it is.
        kind: what it is.
        details: what is recorded of it.
        shape: its place, in metres about the plan's origin, in whole millimetres; None where
            the kind has none.
        rectangle: corner, size and bearing where the outline is a rectangle, and then the
            truth; the shape follows.
        number: what people call it: ``C 14``.
        status: whether it is there.
        basis: how its place is known.
    """

    id: ItemId
    kind: Kind[D_co]
    details: D_co
    shape: BaseGeometry | None = None
    rectangle: Rectangle | None = None
    number: str = ""
    status: Status = Status.EXISTING
    basis: Basis = Basis()

    @property
    def form(self) -> Form:
        """What shape it has: that of its geometry, or a rectangle where one is its truth."""
        if self.rectangle is not None:
            return Form.RECTANGLE
        return Form.NONE if self.shape is None else FORM_OF_GEOMETRY[self.shape.geom_type]

    @property
    def lies(self) -> BaseGeometry:
        """Its shape, of something that is known to have one.

        Raises:
            ValueError: it has none.
        """
        if self.shape is None:
            raise ValueError(f"{self.called()} has no place on the plan")
        return self.shape

    @property
    def box(self) -> tuple[float, float, float, float] | None:
        """Least east and north, greatest east and north, width included; None without shape."""
        if self.shape is None:
            return None
        e0, n0, e1, n1 = self.shape.bounds
        more = self.kind.width_m(self.details) / 2
        return e0 - more, n0 - more, e1 + more, n1 + more

    def called(self) -> str:
        """Return what to call it in a sentence: ``Grave C 14``.

        Nobody living is named, and nobody whose burial is still to come: it may stand on paper,
        in an export, in a message and in the title of an edit.
        """
        return self._titled("" if self.kind.guarded else self._label())

    def named(self) -> str:
        """Return what the window calls it on its card and in its lists: ``Owner Ann Example``.

        It may name somebody living, so it goes nowhere else.
        """
        return self._titled(self._label())

    def _label(self) -> str:
        label = getattr(self.details, self.kind.label) if self.kind.label else None
        return "" if label is None else str(label)

    def _titled(self, label: str) -> str:
        name = shorten(self.number or label, 40, placeholder="…")
        return f"{self.kind.title} {name}".strip()

    def at(self, shape: BaseGeometry) -> "Item[D_co]":
        """Return it with another shape.

        Raises:
            ValueError: the shape cannot be kept; see ``tolerance.stored``.
        """
        if shape.geom_type not in FORM_OF_GEOMETRY:
            raise ValueError(f"a plan keeps points, lines and areas, no {shape.geom_type}")
        return replace(self, shape=stored(shape), rectangle=None)

    def on(self, rectangle: Rectangle) -> "Item[D_co]":
        """Return it on a rectangle; the outline follows.

        The corner is kept to the micrometre: what was moved there and back is what it was, and
        what was turned a full circle in small steps lies where it lay.
        """
        kept = settled(rectangle)
        return replace(self, shape=kept.outline(), rectangle=kept)


def settled(rectangle: Rectangle) -> Rectangle:
    """Return a rectangle as the plan keeps it, to the micrometre and a billionth degree."""
    return replace(
        rectangle,
        east=round(rectangle.east, 6) + 0.0,
        north=round(rectangle.north, 6) + 0.0,
        bearing_deg=round(rectangle.bearing_deg, 9) % 360.0,
    )


def all_on(items: Sequence[Item[Any]], rectangles: Sequence[Rectangle]) -> list[Item[Any]]:
    """Return each item on its rectangle, as ``Item.on`` would, made at one go."""
    kept = [settled(r) for r in rectangles]
    return [
        replace(item, shape=shape, rectangle=rectangle)
        for item, rectangle, shape in zip(items, kept, outlines(kept), strict=True)
    ]


def new_item(
    kind: Kind[D_co],
    place: BaseGeometry | Rectangle | None = None,
    *,
    details: Any = None,
    number: str = "",
    basis: Basis | None = None,
) -> Item[D_co]:
    """Return a new item with an id of its own.

    Raises:
        ValueError: the shape cannot be kept.
    """
    item: Item[D_co] = Item(
        id=new_id(),
        kind=kind,
        details=kind.details() if details is None else details,
        number=number,
        basis=basis or Basis(),
    )
    if place is None:
        return item
    return item.on(place) if isinstance(place, Rectangle) else item.at(place)
