"""A table for each kind, its columns from its details."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from enum import Enum, auto
from functools import cache
from itertools import count
from typing import Any

from plan_editor.plan.change import Change
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind, kinds
from plan_editor.storage import geopackage, rtree
from plan_editor.storage.blobs import Blob, encoded
from plan_editor.storage.connection import Connection
from plan_editor.storage.layout import FID, GEOM, ID, Column, Layout, Raw, layout_of
from plan_editor.storage.rows import row_of
from plan_editor.survey.grids.grid import Grid


class Sort(Enum):
    """What a change does to a table: a row goes, comes, moves, or is told of anew."""

    GONE = auto()
    CAME = auto()
    MOVED = auto()
    TOLD = auto()


def layouts() -> tuple[Layout, ...]:
    """Return how each kind is kept, in the order of the kinds."""
    return tuple(map(layout_of, kinds()))


def columns_of(con: Connection, table: str) -> tuple[str, ...]:
    """Return the columns that a table has in this file; empty if there is no such table."""
    return tuple(r[0] for r in con.execute("SELECT name FROM pragma_table_info(?)", (table,)))


def ensure(con: Connection, srs_id: int) -> None:
    """Make the tables and columns that this file lacks; what is there stays."""
    for layout in layouts():
        there = columns_of(con, layout.table)
        if not there:
            _create(con, layout, srs_id)
        lacking = [c for c in layout.columns if c.name not in there]
        for column in lacking:
            if there:
                _add_column(con, layout, column)
            _explain(con, layout, column)


def refill_indexes(con: Connection) -> None:
    """Make the R-trees anew from the rows."""
    for layout in layouts():
        if layout.geometry:
            for sql in rtree.refilling(layout.table, GEOM):
                con.execute(sql)


def insert(
    con: Connection, kind: Kind, numbered: Sequence[tuple[int, Item[Any]]], grid: Grid
) -> None:
    """Add items, each under its row number, to the table of their kind."""
    rows = _bound([item for _, item in numbered], grid)
    fids = (fid for fid, _ in numbered)
    con.executemany(_insert(kind), ((fid, *row) for fid, row in zip(fids, rows, strict=True)))


def update(con: Connection, kind: Kind, items: Iterable[Item[Any]], grid: Grid) -> None:
    """Write items over those of the same ids."""
    at = 1 if layout_of(kind).geometry else 0  # where the id stands: first after the shape
    rows = _bound(items, grid)
    sql = _update(kind, shaped=bool(at))
    con.executemany(sql, ((*r[:at], *r[at + 1 :], r[at]) for r in rows))


def delete(con: Connection, kind: Kind, ids: Iterable[str]) -> None:
    """Remove the items with these ids."""
    con.executemany(f'DELETE FROM "{kind.name}" WHERE "{ID}" = ?', ((i,) for i in ids))


def write(con: Connection, changes: Sequence[Change], grid: Grid, fids: Iterator[int]) -> None:
    """Write changes into the tables, within a transaction; what comes gets the next numbers."""
    sorted_out: dict[tuple[Sort, Kind], list[Change]] = defaultdict(list)
    for change in changes:
        item = change.after or change.before
        if item is not None:
            sorted_out[_sort_of(change), item.kind].append(change)
    numbers = {c.id: next(fids) for c in changes if c.before is None}
    for (sort, kind), made in sorted_out.items():
        after = [c.after for c in made if c.after is not None]
        match sort:
            case Sort.GONE:
                delete(con, kind, (c.id for c in made))
            case Sort.CAME:
                insert(con, kind, [(numbers[item.id], item) for item in after], grid)
            case Sort.MOVED:
                update(con, kind, after, grid)
            case Sort.TOLD:
                _describe(con, kind, after)


def _sort_of(change: Change) -> Sort:
    if change.after is None:
        return Sort.GONE
    if change.before is None:
        return Sort.CAME
    return Sort.TOLD if change.before.shape == change.after.shape else Sort.MOVED


def next_fids(con: Connection) -> Iterator[int]:
    """Return row numbers that no table has yet.

    There is one count for all tables, so that the order in which items came can be told again.
    """
    greatest = (
        con.execute(f'SELECT max("{FID}") FROM "{layout.table}"').fetchone()[0] or 0
        for layout in layouts()
    )
    return count(max(greatest) + 1)


def _bound(items: Iterable[Item[Any]], grid: Grid) -> list[tuple[Blob | Raw, ...]]:
    items = tuple(items)
    rows: list[tuple[Blob | Raw, ...]] = [row_of(item) for item in items]
    if items and layout_of(items[0].kind).geometry:
        blobs = encoded([item.shape for item in items], grid, grid.epsg or -1)
        return [(blob, *row) for blob, row in zip(blobs, rows, strict=True)]
    return rows


@cache
def _insert(kind: Kind) -> str:
    layout = layout_of(kind)
    names = (FID, *((GEOM,) if layout.geometry else ()), *layout.names)
    listed = ", ".join(f'"{n}"' for n in names)
    return f'INSERT INTO "{layout.table}" ({listed}) VALUES ({", ".join("?" * len(names))})'


def _describe(con: Connection, kind: Kind, items: Iterable[Item[Any]]) -> None:
    # the shape stays, and with it the index, which costs more than the row
    rows = (row_of(item) for item in items)
    con.executemany(_update(kind, shaped=False), ((*r[1:], r[0]) for r in rows))


@cache
def _update(kind: Kind, *, shaped: bool) -> str:
    # the id is not written anew: that would cost its index a page
    layout = layout_of(kind)
    names = (*((GEOM,) if shaped else ()), *layout.names[1:])
    listed = ", ".join(f'"{n}" = ?' for n in names)
    return f'UPDATE "{layout.table}" SET {listed} WHERE "{ID}" = ?'


def _create(con: Connection, layout: Layout, srs_id: int) -> None:
    columns = [f'"{FID}" INTEGER PRIMARY KEY NOT NULL']
    if layout.geometry:
        columns.append(f'"{GEOM}" {layout.geometry}')
    columns += [f'"{c.name}" {c.sql}' for c in layout.columns]
    geopackage.forget(con, layout.table, GEOM)
    con.execute(f'CREATE TABLE "{layout.table}" ({", ".join(columns)})')
    kind = layout.kind
    if layout.geometry:
        geopackage.add_features(
            con,
            layout.table,
            kind.plural,
            geometry=(GEOM, layout.geometry),
            srs_id=srs_id,
        )
    else:
        geopackage.add_attributes(con, layout.table, kind.plural, kind.help)


def _add_column(con: Connection, layout: Layout, column: Column) -> None:
    con.execute(f'ALTER TABLE "{layout.table}" ADD COLUMN "{column.name}" {column.sql}')
    if column.default is not None:
        con.execute(f'UPDATE "{layout.table}" SET "{column.name}" = ?', (column.default,))


def _explain(con: Connection, layout: Layout, column: Column) -> None:
    choices = f"{layout.table}_{column.name}" if column.choices else None
    con.execute(
        "INSERT OR REPLACE INTO gpkg_data_columns VALUES (?, ?, ?, ?, ?, NULL, ?)",
        (layout.table, column.name, None, column.title, column.help, choices),
    )
    con.executemany(
        "INSERT OR IGNORE INTO gpkg_data_column_constraints"
        " (constraint_name, constraint_type, value) VALUES (?, 'enum', ?)",
        ((choices, choice) for choice in column.choices),
    )
