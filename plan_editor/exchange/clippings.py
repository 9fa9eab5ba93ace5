"""Things on their way from one plan to another, as text on the clipboard.

JSON of our own: a word for the version, the coordinate system, and the things in true
coordinates of that system, in metres. What concerns living people stays at home, and so do
references to what does not come along. Whatever is read is taken for the work of a stranger.
"""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import floor, isfinite
from typing import Any, NoReturn

import numpy as np
import shapely
from shapely.errors import ShapelyError
from shapely.geometry import mapping, shape
from shapely.geometry.base import BaseGeometry

from plan_editor.edits.copying import shifted
from plan_editor.errors import CannotRead
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.checks import fault_of
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.item import FORM_OF_GEOMETRY, Basis, Item, ItemId, Method, Status
from plan_editor.plan.kind import Kind, kind_named
from plan_editor.survey.grids.grid import Grid

VERSION = "churchyard plan clipping 1"

MOST_LETTERS = 20_000_000
MOST_THINGS = 20_000
"""More than this was not copied by hand."""

GREATEST = 1e8
"""No coordinate in metres is as great as this in any grid, and no other figure of a plan."""

_AMISS = (ArithmeticError, AttributeError, LookupError, ShapelyError, TypeError, ValueError)
"""What becomes of numbers, names and shapes that are none."""

NOT_OURS = (
    "The clipboard holds nothing that was copied from a plan. Nothing was changed. Choose"
    " something and copy it first."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Clipping:
    """Things that were copied.

    Args:
        crs: the coordinate system of the plan they come from.
        plan: what that plan is called.
        origin: easting and northing in that system from which the items' places count.
        items: their ids tell them apart among each other only.
    """

    crs: str
    plan: str
    origin: tuple[float, float]
    items: tuple[Item[Any], ...]

    def fits(self, grid: Grid, plan: str) -> bool:
        """Whether true places are the same here; a local grid is one plan's own."""
        return self.crs == grid.crs and (grid.epsg is not None or self.plan == plan)

    def in_place(self, grid: Grid) -> tuple[Item[Any], ...]:
        """Return the items where they truly lie, in metres about a plan's origin."""
        return shifted(self.items, self.origin[0] - grid.east, self.origin[1] - grid.north)

    def about(self, east: float, north: float) -> tuple[Item[Any], ...]:
        """Return the items with their middle at a place, in metres about a plan's origin."""
        w, s, e, n = shapely.total_bounds([i.shape for i in self.items]).tolist()
        return shifted(self.items, east - (w + e) / 2, north - (s + n) / 2)


def clipping_text(items: Sequence[Item[Any]], grid: Grid, plan: str) -> str:
    """Return things as text for the clipboard.

    Args:
        items: all on the ground; no base plans.
        grid: of their plan.
        plan: what it is called.
    """
    number = {item.id: n for n, item in enumerate(items)}
    told = {
        "version": VERSION,
        "crs": grid.crs,
        "plan": plan,
        "things": [_told(item, grid, number) for item in items],
    }
    return json.dumps(told, ensure_ascii=False, allow_nan=False)


def read_clipping(text: str) -> Clipping:
    """Return the things that a text from the clipboard holds.

    Raises:
        CannotRead: it is none of ours, is too large, or makes no sense; nothing else follows.
    """
    if len(text) > MOST_LETTERS:
        _refuse("it is too large")
    try:
        found = json.loads(text, parse_constant=_refuse_number)
    except (ValueError, RecursionError) as error:
        raise CannotRead(NOT_OURS) from error
    if not isinstance(found, dict) or not str(found.get("version", "")).startswith(
        VERSION[:-1]
    ):
        raise CannotRead(NOT_OURS)
    if found["version"] != VERSION:
        _refuse("a later version of this program wrote it")
    things = found.get("things")
    if not isinstance(things, list) or not 0 < len(things) <= MOST_THINGS:
        _refuse("it holds no things, or more than could be meant")
    return _clipping(found, things)


def _told(item: Item[Any], grid: Grid, number: Mapping[ItemId, int]) -> dict[str, Any]:
    basis = item.basis
    return {
        "kind": item.kind.name,
        "number": item.number,
        "status": item.status.value,
        "place": _place_told(item, grid),
        "basis": {
            "method": basis.method.value,
            "source": basis.source,
            "date": basis.date,
            "sd_m": basis.sd_m,
        },
        "details": {
            d.name: _value_told(d, getattr(item.details, d.name), number)
            for d in item.kind.entries()
            if not d.about.private
        },
    }


def _place_told(item: Item[Any], grid: Grid) -> dict[str, Any]:
    if (held := item.rectangle) is not None:
        east, north = grid.to_crs(held.east, held.north)
        corner = [round(east, 6), round(north, 6)]
        return {"rectangle": [*corner, held.width, held.length, held.bearing_deg]}
    by = np.array((grid.east, grid.north))
    there: Any = shapely.transform(item.shape, lambda c: (c + by).round(3))
    return dict(mapping(there))


def _value_told(detail: Detail, value: Any, number: Mapping[ItemId, int]) -> Any:
    if detail.value is Value.ITEM:
        return number.get(value)
    if isinstance(value, tuple):
        return list(value)
    return value.value if isinstance(value, StrEnum) else value


def _clipping(found: Mapping[str, Any], things: list[Any]) -> Clipping:
    try:
        crs, plan = _text(found["crs"]), _text(found["plan"])
        places = [_place(thing["place"]) for thing in things]
        origin = _origin(places)
        items = tuple(
            _item(n, thing, place, origin)
            for n, (thing, place) in enumerate(zip(things, places, strict=True))
        )
    except _AMISS as error:
        raise CannotRead(_sentence("something in it is amiss")) from error
    for item in items:
        if fault := fault_of(item):
            _refuse(f"{item.called()} {fault}")
    _check_led(items)
    return Clipping(crs=crs, plan=plan, origin=origin, items=items)


def _place(told: Mapping[str, Any]) -> Rectangle | BaseGeometry:
    if "rectangle" in told:
        east, north, width, length, bearing = map(_number, told["rectangle"])
        return Rectangle(
            east=east, north=north, width=width, length=length, bearing_deg=bearing
        )
    if told["type"] not in FORM_OF_GEOMETRY:
        raise ValueError(told["type"])  # parts within parts within parts would be gone through
    made: BaseGeometry = shape(dict(told))
    if made.is_empty or not all(map(_may_be, made.bounds)):
        raise ValueError(told)
    return made


def _origin(places: Iterable[Rectangle | BaseGeometry]) -> tuple[float, float]:
    """Return whole metres south-west of all places: sums with them are exact."""
    corners = [(p.east, p.north) if isinstance(p, Rectangle) else p.bounds[:2] for p in places]
    east, north = map(min, zip(*corners, strict=True))
    return float(floor(east)), float(floor(north))


def _item(
    n: int, thing: Any, place: Rectangle | BaseGeometry, origin: tuple[float, float]
) -> Item[Any]:
    kind = kind_named(_text(thing["kind"]))
    if kind is None or not kind.drawn or kind.pinned:
        _refuse("there is something in it of a kind that this version does not know")
    basis = thing["basis"]
    bare: Item[Any] = Item(
        id=_id(n),
        kind=kind,
        details=_details(kind, thing["details"]),
        number=_text(thing["number"]),
        status=Status(thing["status"]),
        basis=Basis(
            method=Method(basis["method"]),
            source=_text(basis["source"]),
            date=_text(basis["date"]),
            sd_m=None if basis["sd_m"] is None else _number(basis["sd_m"]),
        ),
    )
    if isinstance(place, Rectangle):
        return bare.on(place.moved(-origin[0], -origin[1]))
    return bare.at(shapely.transform(place, lambda c: c - origin))


def _details(kind: Kind, told: Mapping[str, Any]) -> Any:
    there = {d.name: d for d in kind.entries()}
    values = {name: _value(there[name], value) for name, value in told.items()}
    return replace(kind.details(), **values)


def _value(detail: Detail, value: Any) -> Any:
    if value is None:
        return None
    match detail.value:
        case Value.CHOICE:
            return type(detail.choices[0])(value)
        case Value.NUMBERS:
            return tuple(map(_number, value))
        case Value.NUMBER:
            return _number(value)
        case Value.ITEM:
            return _id(value)
        case _:
            return value


def _check_led(items: tuple[Item[Any], ...]) -> None:
    """See that what points to a thing may point to one of its kind."""
    kinds = {item.id: item.kind.name for item in items}
    for item in items:
        for detail in item.kind.references():
            target = getattr(item.details, detail.name)
            if target is not None and kinds.get(target) not in detail.about.refers_to:
                _refuse(f"{item.called()} points to something it cannot point to")


def _id(n: Any) -> ItemId:
    if isinstance(n, bool) or not isinstance(n, int) or not 0 <= n < MOST_THINGS:
        raise ValueError(n)
    return ItemId(f"{n:032x}")


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not _may_be(value):
        raise ValueError(value)
    return float(value)


def _may_be(value: float) -> bool:
    """Return whether a number can be a coordinate or a size; no sum with it runs over."""
    return isfinite(value) and abs(value) < GREATEST


def _refuse_number(word: str) -> NoReturn:
    _refuse(f"“{word}” is no number")


def _refuse(why: str) -> NoReturn:
    raise CannotRead(_sentence(why))


def _sentence(why: str) -> str:
    return (
        f"What is on the clipboard cannot be pasted: {why}. Nothing was changed. Copy it again."
    )
