"""A plan out of an open file: every table, all at once."""

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import chain
from operator import itemgetter
from typing import Any

from shapely.geometry.base import BaseGeometry

from plan_editor.plan.item import Item, new_id
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.storage import settings
from plan_editor.storage.blobs import decoded
from plan_editor.storage.connection import Connection
from plan_editor.storage.history import tail_of
from plan_editor.storage.layout import FID, GEOM, Layout, Raw
from plan_editor.storage.rows import OddRow, RowReader, defaults, misplaced
from plan_editor.storage.tables import columns_of, layouts
from plan_editor.survey.grid import Grid

MOST_ROWS = 2_000_000
"""No churchyard holds more things; a file that does was made to fill the memory."""

Numbered = list[tuple[int, Item[Any]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What the tables hold.

    Args:
        fids: the row number of each item.
        items: every item, in the order in which they came.
        odd: rows that cannot be items.
    """

    fids: tuple[int, ...]
    items: tuple[Item[Any], ...]
    odd: tuple[OddRow, ...]


def read_tables(con: Connection, grid: Grid) -> Found:
    """Return what the tables hold; a row without id is odd.

    Raises:
        ValueError: there are more rows than any plan has.
    """
    return _read(con, grid, named=tuple)


def read_with_newcomers(con: Connection, grid: Grid) -> Found:
    """Return what the tables hold; a row that another program added without id is given one.

    Raises:
        ValueError: there are more rows than any plan has.
    """
    return _read(con, grid, named=_with_id)


def plan_from(con: Connection, found: Found) -> Plan:
    """Return what was found as a plan, with its name, grid and revision."""
    kept = settings.read(con)
    return plan_of(found.items, name=kept.name, grid=kept.grid, revision=tail_of(con).number)


def _read(con: Connection, grid: Grid, named: Callable[[Any], Any]) -> Found:
    numbered: Numbered = []
    odd: list[OddRow] = []
    with _no_collecting():
        for layout in layouts():
            rows = _rows(con, layout)
            items, strange = _items(layout, rows, grid, named)
            numbered += items
            odd += strange
            if len(numbered) + len(odd) > MOST_ROWS:
                raise ValueError("more rows than any plan has")
        numbered.sort(key=itemgetter(0))
    return Found(
        fids=tuple(fid for fid, _ in numbered),
        items=tuple(item for _, item in numbered),
        odd=tuple(odd),
    )


def _items(
    layout: Layout, rows: list[Any], grid: Grid, named: Callable[[Any], Any]
) -> tuple[Numbered, list[OddRow]]:
    blobs = [row[1] for row in rows]
    shapes = decoded(blobs, grid).tolist() if layout.geometry and rows else blobs
    reader = RowReader(layout.kind)
    items: Numbered = []
    odd: list[OddRow] = []
    for row, shape in zip(rows, shapes, strict=True):
        try:
            items.append((row[0], _item(reader, layout, named(row), shape)))
        except ValueError as error:
            found = str(row[2] or "")
            odd.append(OddRow(table=layout.table, fid=row[0], id=found, why=str(error)))
    return items, odd


def _item(
    reader: RowReader, layout: Layout, row: tuple[Any, ...], shape: BaseGeometry | None
) -> Item[Any]:
    if why := misplaced(layout.kind, shape, given=row[1] is not None):
        raise ValueError(why)
    return reader.item(row[2:], shape)


def _with_id(row: tuple[Any, ...]) -> tuple[Any, ...]:
    return row if row[2] else (*row[:2], new_id(), *row[3:])


def _rows(con: Connection, layout: Layout) -> list[Any]:
    there = columns_of(con, layout.table)
    return con.execute(*_select(layout, there)).fetchall() if there else []


def _select(layout: Layout, there: tuple[str, ...]) -> tuple[str, list[Raw]]:
    lacking = [name for name in layout.names if name not in there]
    geometry = f'"{GEOM}"' if layout.geometry and GEOM in there else "NULL"
    columns = ("?" if n in lacking else f'"{n}"' for n in layout.names)
    listed = ", ".join(chain((f'"{FID}"', geometry), columns))
    sql = f'SELECT {listed} FROM "{layout.table}" ORDER BY "{FID}"'
    return sql, list(defaults(layout, lacking))


@contextmanager
def _no_collecting() -> Iterator[None]:
    # a hundred thousand new objects would be walked through again and again, for nothing
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
