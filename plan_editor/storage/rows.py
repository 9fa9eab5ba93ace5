"""Items as rows, and rows as items."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from operator import attrgetter
from typing import Any, cast

from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import (
    FORM_OF_GEOMETRY,
    Basis,
    Item,
    ItemId,
    Method,
    Status,
)
from plan_editor.plan.kind import Form, Kind
from plan_editor.storage.layout import (
    BASIS,
    NAMED,
    RECTANGLE,
    Layout,
    Raw,
    layout_of,
    raw,
    value_of,
)

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
        return f"Row {self.fid} of table {self.table} {self.why}; it was left as it is."


def row_of(item: Item[Any]) -> Row:
    """Return what the columns of its kind hold for an item, all but the geometry."""
    layout = layout_of(item.kind)
    values = (raw(d, getattr(item.details, d.name)) for d in layout.own)
    return (*_named(item), *_basis(item.basis), *_places(layout, item.rectangle), *values)


class RowReader:
    """Makes the items of one kind from rows; equal details and bases are kept once."""

    def __init__(self, kind: Kind) -> None:
        self._kind = kind
        layout = layout_of(kind)
        self._own = layout.own
        self._rectangles = Form.RECTANGLE in kind.forms
        self._split = len(NAMED) + len(BASIS)
        self._details_at = self._split + (len(RECTANGLE) if self._rectangles else 0)
        self._details: dict[Row, Any] = {}
        self._bases: dict[Row, Basis] = {}

    def item(self, row: Row, shape: BaseGeometry | None) -> Item[Any]:
        """Return the item that a row holds.

        Raises:
            ValueError: it cannot be one; the text ends a sentence that begins with the row.
        """
        held = row[self._details_at :]
        details = self._details.get(held)
        if details is None:
            details = self._details[held] = self._new_details(held)
        told = row[3 : self._split]
        basis = self._bases.get(told)
        if basis is None:
            basis = self._bases[told] = _basis_from(told)
        rectangle = None
        if self._rectangles and shape is not None:
            rectangle = _rectangle_from(row[self._split : self._details_at])
        return Item(
            id=_id_from(row[0]),
            kind=self._kind,
            details=details,
            shape=shape,
            rectangle=rectangle,
            number=_text_from(row[1]),
            status=_status_from(row[2]),
            basis=basis,
        )

    def _new_details(self, held: Row) -> Any:
        values = {d.name: value_of(d, h) for d, h in zip(self._own, held, strict=True)}
        return self._kind.details(**values)


@cache
def reader_of(kind: Kind) -> Callable[[Row, BaseGeometry | None], Item[Any]]:
    """Return what makes single items of a kind, for the log."""
    return lambda row, shape: RowReader(kind).item(row, shape)


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
    form = FORM_OF_GEOMETRY.get(shape.geom_type)
    if form in kind.forms or (form is Form.AREA and Form.RECTANGLE in kind.forms):
        return ""
    return f"has a shape that no {kind.title.lower()} has"


def defaults(layout: Layout, columns: Iterable[str]) -> Sequence[Raw]:
    """Return what stands for these columns where they are lacking."""
    by_name = {c.name: c.default for c in layout.columns}
    return [by_name[name] for name in columns]


_name_of: Callable[[Any], tuple[str, str, Status]] = attrgetter("id", "number", "status")


def _named(item: Item[Any]) -> Row:
    found, number, status = _name_of(item)
    return found, number, status.value


def _basis(basis: Basis) -> Row:
    sd = None if basis.sd_m is None else float(basis.sd_m)
    return basis.method.value, basis.source, basis.base_plan, basis.date, sd


def _places(layout: Layout, rectangle: Rectangle | None) -> Row:
    if Form.RECTANGLE not in layout.kind.forms:
        return ()
    if rectangle is None:
        return (None,) * len(RECTANGLE)
    r = rectangle
    return tuple(float(n) + 0.0 for n in (r.east, r.north, r.width, r.length, r.bearing_deg))


def _id_from(held: Raw) -> ItemId:
    if not isinstance(held, str) or not held:
        raise ValueError("has no id")
    return ItemId(held)


def _text_from(held: Raw) -> str:
    if held is None:
        return ""
    if isinstance(held, str):
        return held
    raise ValueError(f"has {held!r} where a text belongs")


def _status_from(held: Raw) -> Status:
    if held is None:
        return Status.EXISTING
    found = _STATUS.get(held)
    if found is None:
        raise ValueError(f"has “{held}” as “Status”")
    return found


def _basis_from(held: Row) -> Basis:
    method, source, base_plan, date, sd = held
    try:
        return Basis(
            method=Method(_text_from(method) or Method.UNKNOWN),
            source=_text_from(source),
            base_plan=ItemId(_text_from(base_plan)) if base_plan else None,
            date=_text_from(date),
            sd_m=None if sd is None else float(sd),
        )
    except ValueError as error:
        raise ValueError(f"has “{method}”, “{sd}” where its basis belongs") from error


def _rectangle_from(held: Row) -> Rectangle | None:
    if None in held:
        return None
    if not all(isinstance(number, float) for number in held):
        raise ValueError("has a text where a length belongs")
    east, north, width, length, bearing = cast("tuple[float, ...]", held)
    return Rectangle(east=east, north=north, width=width, length=length, bearing_deg=bearing)


_STATUS: dict[Raw, Status] = {s.value: s for s in Status}
