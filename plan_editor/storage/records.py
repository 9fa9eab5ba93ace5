"""Items as the log keeps them: whole, as JSON, so that any entry can be taken back later.

A record names the kind, the columns that differ from their defaults, and the shape in
hexadecimal well-known binary in metres about the plan's origin. Equal items have equal records,
so that a record is also what digests are taken of.
"""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.plan.item import Item
from plan_editor.plan.kind import kind_named
from plan_editor.storage.layout import layout_of
from plan_editor.storage.rows import item_of as from_row
from plan_editor.storage.rows import misplaced, row_of
from plan_editor.storage.wkb import is_plain

encode = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), sort_keys=True).encode
"""Writes JSON in one way only: no blanks, keys in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Records:
    """The records of an item before and after a change."""

    before: str | None
    after: str | None


def record_of(item: Item[Any]) -> str:
    """Return an item as the log keeps it."""
    return next(records_of((item,)))


def records_of(items: Iterable[Item[Any]]) -> Iterator[str]:
    """Return items as the log keeps them; shapes are written all at once."""
    items = tuple(items)
    shapes = np.array([item.shape for item in items], dtype=object)
    wkbs = shapely.to_wkb(shapes, hex=True, output_dimension=2, byte_order=1).tolist()
    for item, wkb in zip(items, wkbs, strict=True):
        columns = layout_of(item.kind).columns
        held = {
            column.name: value
            for column, value in zip(columns, row_of(item), strict=True)
            if value != column.default
        }
        yield encode({"kind": item.kind.name, "shape": wkb, "columns": held})


def item_of(record: str | dict[str, Any]) -> Item[Any]:
    """Return the item that a record holds; what it lacks is given its default.

    Raises:
        ValueError: it is no record of an item of a known kind; the text ends a sentence.
    """
    found = json.loads(record) if isinstance(record, str) else record
    try:
        name, wkb, held = found["kind"], found["shape"], found["columns"]
    except (KeyError, TypeError) as error:
        raise ValueError("is no record of an item") from error
    kind = kind_named(name)
    if kind is None:
        raise ValueError(f"is of a kind “{name}” that this version does not know")
    try:
        shape = None if wkb is None else _shape(bytes.fromhex(wkb))
    except (shapely.errors.GEOSException, TypeError, ValueError) as error:
        raise ValueError("has a shape that cannot be read") from error
    if why := misplaced(kind, shape, given=shape is not None):
        raise ValueError(why)
    row = tuple(held.get(c.name, c.default) for c in layout_of(kind).columns)
    return from_row(kind, row, shape)


def _shape(wkb: bytes) -> BaseGeometry:
    if not is_plain(wkb):
        raise ValueError(wkb[:5])
    shape: BaseGeometry = shapely.from_wkb(wkb)
    return shape
