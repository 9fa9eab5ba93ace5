"""Items as rows, and rows as items."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial
from itertools import repeat
from typing import Any, cast

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.item import FORM_OF_GEOMETRY, Basis, Item, ItemId, Method, Status
from plan_editor.plan.kind import Form, Kind
from plan_editor.storage.layout import RECTANGLE, Layout, Raw, layout_of, raw, value_of
from plan_editor.storage.many import many

Row = tuple[Raw, ...]
"""What the columns of a layout hold, in their order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OddRow:
    """A row that cannot be an item.

    Args:
        table: where it stands.
        fid: its number there.
        id: the id that it bears, or empty.
        why: the end of a sentence that begins with the row.
    """

    table: str
    fid: int
    id: str
    why: str

    def told(self) -> str:
        """Return a sentence about it."""
        return (
            f"Row {self.fid} of table {self.table} {self.why}; it was left out, and the plan is"
            " as it was without it."
        )


def row_of(item: Item[Any]) -> Row:
    """Return what the columns of its kind hold for an item, all but the geometry."""
    layout = layout_of(item.kind)
    basis = item.basis
    return (
        item.id,
        item.number,
        item.status.value,
        basis.method.value,
        basis.source,
        basis.base_plan,
        basis.date,
        None if basis.sd_m is None else float(basis.sd_m),
        *_places(layout, item.rectangle),
        *(raw(d, getattr(item.details, d.name)) for d in layout.own),
    )


def item_of(kind: Kind, row: Row, shape: BaseGeometry | None) -> Item[Any]:
    """Return the item that a row holds.

    Raises:
        ValueError: it cannot be one; the text ends a sentence that begins with the row.
    """
    layout = layout_of(kind)
    rectangle = None
    if layout.places is not None and shape is not None:
        rectangle = _rectangle(row[layout.places])
    return Item(
        id=_id(row[0]),
        kind=kind,
        details=_details(layout, row[layout.details]),
        shape=shape,
        rectangle=rectangle,
        number=_text(row[1]),
        status=_status(row[2]),
        basis=_basis(row[layout.basis]),
    )


def items_of(
    kind: Kind, columns: Sequence[tuple[Raw, ...]], shapes: NDArray[np.object_]
) -> list[Item[Any]]:
    """Return the items that rows hold, made column by column; equal details are kept once.

    Raises:
        ValueError: a row among them cannot be an item; ``item_of`` tells which, and why.
    """
    layout = layout_of(kind)
    count = len(shapes)
    return many(
        Item,
        count,
        id=_texts(_id, columns[0]),
        kind=repeat(kind),
        details=_each_of(partial(_details, layout), columns[layout.details], count),
        shape=shapes,
        rectangle=_rectangles(layout, columns, shapes),
        number=_texts(_text, columns[1]),
        status=_each(_status, columns[2]),
        basis=_each_of(_basis, columns[layout.basis], count),
    )


def misplaced(kind: Kind, shape: BaseGeometry | None, *, given: bool) -> str:
    """Return why a kind cannot have this shape, as the end of a sentence; empty if it can.

    Args:
        kind: the kind.
        shape: what the row's geometry was read as.
        given: whether the row has a geometry at all.
    """
    if shape is None:
        if given:
            return "has a shape that cannot be read, or far from the plan's origin"
        return "" if Form.NONE in kind.forms else "has no shape"
    if shape.geom_type in _allowed(kind):
        return ""
    return f"has a shape that no {kind.title.lower()} has"


def none_misplaced(kind: Kind, shapes: NDArray[np.object_], given: NDArray[np.bool_]) -> bool:
    """Return whether a kind can have every one of these shapes; see ``misplaced``."""
    there = shapely.get_type_id(shapes)
    allowed = [_TYPE_IDS[name] for name in _allowed(kind)]
    lacking = there < 0
    if lacking.any() and (Form.NONE not in kind.forms or given[lacking].any()):
        return False
    return bool((np.isin(there, allowed) | lacking).all())


def defaults(layout: Layout, columns: Iterable[str]) -> Sequence[Raw]:
    """Return what stands for these columns where they are lacking."""
    by_name = {c.name: c.default for c in layout.columns}
    return [by_name[name] for name in columns]


_TYPE_IDS = {"Point": 0, "LineString": 1, "Polygon": 3, "MultiPolygon": 6}
"""Numbers of the library's geometry types."""


@cache
def _allowed(kind: Kind) -> frozenset[str]:
    area = Form.AREA in kind.forms or Form.RECTANGLE in kind.forms
    return frozenset(
        name
        for name, form in FORM_OF_GEOMETRY.items()
        if form in kind.forms or (area and form is Form.AREA)
    )


def _texts(make: Callable[[Raw], str], column: tuple[Raw, ...]) -> Iterable[Any]:
    plain = set(map(type, column)) == {str} and all(column)
    return column if plain else map(make, column)


def _each(make: Callable[[Raw], Any], column: tuple[Raw, ...]) -> Iterator[Any]:
    made = {held: make(held) for held in set(column)}
    return map(made.__getitem__, column)


def _each_of(
    make: Callable[[Row], Any], columns: Sequence[tuple[Raw, ...]], count: int
) -> Iterator[Any]:
    held = list(zip(*columns, strict=True)) if columns else [()] * count
    made = {row: make(row) for row in set(held)}
    return map(made.__getitem__, held)


def _places(layout: Layout, rectangle: Rectangle | None) -> Row:
    if layout.places is None:
        return ()
    if rectangle is None:
        return (None,) * len(RECTANGLE)
    r = rectangle
    return tuple(float(n) + 0.0 for n in (r.east, r.north, r.width, r.length, r.bearing_deg))


def _id(held: Raw) -> ItemId:
    if not isinstance(held, str) or not held:
        raise ValueError("has no id")
    return ItemId(held)


def _text(held: Raw) -> str:
    if held is None:
        return ""
    if isinstance(held, str):
        return held
    raise ValueError(f"has {held!r} where a text belongs")


def _status(held: Raw) -> Status:
    if held is None:
        return Status.EXISTING
    found = _STATUS.get(held)
    if found is None:
        raise ValueError(f"has “{held}” as “Status”")
    return found


def _details(layout: Layout, held: Row) -> Any:
    values = {d.name: value_of(d, h) for d, h in zip(layout.own, held, strict=True)}
    return layout.kind.details(**values)


def _basis(held: Row) -> Basis:
    method, source, base_plan, date, sd = held
    try:
        return Basis(
            method=Method(_text(method) or Method.UNKNOWN),
            source=_text(source),
            base_plan=ItemId(_text(base_plan)) if base_plan else None,
            date=_text(date),
            sd_m=None if sd is None else float(sd),
        )
    except ValueError as error:
        raise ValueError(f"has “{method}”, “{sd}” where its basis belongs") from error


def _rectangle(held: Row) -> Rectangle | None:
    if None in held:
        return None
    if not all(isinstance(number, float) for number in held):
        raise ValueError("has a text where a length belongs")
    east, north, width, length, bearing = cast("tuple[float, ...]", held)
    return Rectangle(east=east, north=north, width=width, length=length, bearing_deg=bearing)


def _rectangles(
    layout: Layout, columns: Sequence[tuple[Raw, ...]], shapes: NDArray[np.object_]
) -> Iterable[Rectangle | None]:
    if layout.places is None:
        return repeat(None)
    held = columns[layout.places]
    numbers = np.array(held, dtype=float)  # None becomes not-a-number; a text is refused
    is_one = ~np.isnan(numbers).any(axis=0) & ~shapely.is_missing(shapes)
    good = np.isfinite(numbers).all(axis=0) & (numbers[2:4].min(axis=0) > SAME)
    if not good[is_one].all():
        raise ValueError("a row has no rectangle where it should")
    names = ("east", "north", "width", "length", "bearing_deg")
    if is_one.all():
        return many(Rectangle, len(is_one), **dict(zip(names, held, strict=True)))
    chosen = dict(zip(names, numbers[:, is_one].tolist(), strict=True))
    made = np.full(len(is_one), None, dtype=object)
    made[is_one] = many(Rectangle, int(is_one.sum()), **chosen)
    return made.tolist()


_STATUS: dict[Raw, Status] = {s.value: s for s in Status}
