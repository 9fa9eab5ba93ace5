"""A plan out of an open file: every table, all at once."""

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import partial
from itertools import chain
from typing import Any

import numpy as np
from numpy.typing import NDArray

from plan_editor.plan.item import Item, new_id
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.storage import settings
from plan_editor.storage.blobs import decoded
from plan_editor.storage.connection import Connection, OperationalError
from plan_editor.storage.history import tail_of
from plan_editor.storage.layout import FID, GEOM, Layout, Raw
from plan_editor.storage.rows import (
    OddRow,
    defaults,
    item_of,
    items_of,
    misplaced,
    none_misplaced,
)
from plan_editor.storage.tables import columns_of, layouts
from plan_editor.survey.grids.grid import Grid

MOST_ROWS = 2_000_000
"""No churchyard holds more things; a file that does was made to fill the memory."""


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
    fids: list[int] = []
    items: list[Item[Any]] = []
    odd: list[OddRow] = []
    with _no_collecting():
        for layout in layouts():
            if rows := _rows(con, layout):
                one = _of_table(layout, rows, grid, named)
                fids += one.fids
                items += one.items
                odd += one.odd
            if len(items) + len(odd) > MOST_ROWS:
                raise ValueError("more rows than any plan has")
    order = np.argsort(fids, kind="stable").tolist()
    return Found(
        fids=tuple(fids[i] for i in order),
        items=tuple(items[i] for i in order),
        odd=tuple(odd),
    )


def _of_table(
    layout: Layout, rows: list[Any], grid: Grid, named: Callable[[Any], Any]
) -> Found:
    fids, blobs, *columns = zip(*rows, strict=True)
    shapes = decoded(blobs, grid)
    given = np.array([blob is not None for blob in blobs])
    if none_misplaced(layout.kind, shapes, given):
        with suppress(ValueError):  # one by one, below, it is told which row it is
            items = items_of(layout.kind, columns, shapes)
            return Found(fids=fids, items=tuple(items), odd=())
    return _one_by_one(layout, rows, shapes, named)


def _one_by_one(
    layout: Layout, rows: list[Any], shapes: NDArray[np.object_], named: Callable[[Any], Any]
) -> Found:
    good: list[tuple[int, Item[Any]]] = []
    odd: list[OddRow] = []
    for row, shape in zip(rows, shapes.tolist(), strict=True):
        why = misplaced(layout.kind, shape, given=row[1] is not None)
        if not why:
            try:
                good.append((row[0], item_of(layout.kind, named(row)[2:], shape)))
                continue
            except ValueError as error:
                why = str(error)
        odd.append(OddRow(table=layout.table, fid=row[0], id=str(row[2] or ""), why=why))
    return Found(
        fids=tuple(fid for fid, _ in good),
        items=tuple(item for _, item in good),
        odd=tuple(odd),
    )


def _with_id(row: tuple[Any, ...]) -> tuple[Any, ...]:
    return row if row[2] else (*row[:2], new_id(), *row[3:])


def _rows(con: Connection, layout: Layout) -> list[Any]:
    there = columns_of(con, layout.table)
    if not there:
        return []
    sql, lacking = _select(layout, there)
    try:
        return con.execute(sql, lacking).fetchall()
    except OperationalError:
        # another program wrote a text that is not UTF-8: what can be read of it is shown
        con.text_factory = partial(str, encoding="utf-8", errors="replace")
        try:
            return con.execute(sql, lacking).fetchall()
        finally:
            con.text_factory = str


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
