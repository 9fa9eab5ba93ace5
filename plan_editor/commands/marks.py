"""Marks as lines of a list, and the edits that add one by hand or give it other coordinates."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import shapely

from plan_editor.commands.entries import entries_of
from plan_editor.drafting.basis import traced_on
from plan_editor.edits.chosen import called_on
from plan_editor.edits.marks import AddMark, PlaceMark
from plan_editor.errors import CannotUse
from plan_editor.ground.marks import marks, measured_from
from plan_editor.plan.detail import About, Detail, Value
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Basis, Item, ItemId, Method
from plan_editor.plan.kind import kind_of_ours
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan

UNTOLD = "not known"
"""Where no standard deviation of a mark is recorded."""

OF_MARK = ("number", "description", "permanent")
OF_PLACE = ("method", "source", "date", "sd_m")
"""Names of the fields of the form, of the mark itself and of how its place is known."""

EAST, NORTH = (
    Detail(
        name=name,
        value=Value.TEXT,
        default="",
        optional=False,
        choices=(),
        about=About(title=title, unit="m", help="In the system of the plan."),
    )
    for name, title in (("east", "Easting"), ("north", "Northing"))
)

WHERE = "Click where the mark is, or type its coordinates at the right."

Place = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkLine:
    """One mark in the list.

    Args:
        item: the mark.
        number: what it is called; that it has none, otherwise.
        east, north: in the plan's system, in metres; None where it has no place.
        sd: ± its standard deviation, in words.
        method: how its place is known.
        description: how to find it.
        permanent: whether it is there for good.
    """

    item: ItemId
    number: str
    east: float | None
    north: float | None
    sd_m: float | None
    method: str
    description: str
    permanent: bool

    @property
    def sd(self) -> str:
        """Its standard deviation in words."""
        return UNTOLD if self.sd_m is None else f"± {self.sd_m * 1000:.0f} mm"

    @property
    def stays(self) -> str:
        """Whether it is there for good, in one word."""
        return "permanent" if self.permanent else "temporary"


def mark_lines(plan: Plan) -> tuple[MarkLine, ...]:
    """Return every mark, by number: M 2 before M 10."""
    found = sorted(marks(plan), key=lambda i: natural(i.number))
    return tuple(_line(plan, item) for item in found)


@cache
def asked(names: tuple[str, ...]) -> tuple[Detail, ...]:
    """Return what the form asks for, in the order of these names."""
    known = {e.detail.name: e.detail for e in entries_of(kind_of_ours("mark"))}
    return tuple(known[n] for n in names)


def add_mark(plan: Plan, place: Place, values: Mapping[str, Any], *, clicked: bool) -> AddMark:
    """Return the edit that adds a mark.

    Args:
        plan: the plan.
        place: metres about the plan's origin.
        values: by the names of ``OF_MARK`` and ``OF_PLACE``.
        clicked: the place was clicked on the ground, so that it is as good as what it was
            traced on, where nothing better is told.

    Raises:
        CannotUse: it has no number.
    """
    number = str(values.get("number") or "").strip()
    if not number:
        raise CannotUse(
            "Nothing was added. Give the mark a number or a short name, such as M15: by it a"
            " sexton finds it on his sheet."
        )
    told = {n: values[n] for n in OF_MARK if n != "number"}
    return AddMark(
        number=number,
        east=place[0],
        north=place[1],
        details=kind_of_ours("mark").details(**told),
        basis=_basis(plan, place, values, clicked=clicked),
    )


def place_mark(
    plan: Plan, item: ItemId, place: Place, values: Mapping[str, Any], *, clicked: bool
) -> Edit:
    """Return the edit that gives a mark other coordinates; arguments as ``add_mark``."""
    return PlaceMark(
        id=item,
        east=place[0],
        north=place[1],
        basis=_basis(plan, place, values, clicked=clicked),
        called=called_on(plan, (item,)),
    )


def left_behind(plan: Plan, item: ItemId) -> str:
    """Return what to say once a mark has other coordinates; empty where nothing hangs on it."""
    if not (count := measured_from(plan, item)):
        return ""
    lines, hang = ("1 line", "hangs") if count == 1 else (f"{count} lines", "hang")
    return (
        f"{lines} of the field book {hang} on {called_on(plan, (item,))}. What was taped from"
        " it stays where it was until the field book is adjusted again."
    )


def _line(plan: Plan, item: Item[Any]) -> MarkLine:
    east = north = None
    if isinstance(item.shape, shapely.Point):
        east, north = plan.grid.to_crs(item.shape.x, item.shape.y)
    return MarkLine(
        item=item.id,
        number=item.number or "no number",
        east=east,
        north=north,
        sd_m=item.basis.sd_m,
        method=item.basis.method.value,
        description=item.details.description,
        permanent=item.details.permanent,
    )


def _basis(plan: Plan, place: Place, values: Mapping[str, Any], *, clicked: bool) -> Basis:
    told = {n: values[n] for n in OF_PLACE if values.get(n) not in (None, "", Method.UNKNOWN)}
    known = (
        traced_on(plan, shapely.Point(place)) if clicked and "method" not in told else Basis()
    )
    return replace(known, **told)
