"""Burial registers in tables: rows read to entries, with every doubtful cell."""

import zipfile
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from plan_editor.edits.corrections import NUMBER
from plan_editor.edits.written_entries import LIES_IN, Doubtful, Rejected, WrittenEntry
from plan_editor.errors import CannotRead
from plan_editor.exchange.register_cells import Taken, taken
from plan_editor.exchange.register_columns import UNUSED, RegisterLayout
from plan_editor.exchange.tables import Table, TableRow, read_table
from plan_editor.limits import in_child

MOST_ENTRIES = 50_000
"""No churchyard has seen more burials that were written down one by one. Our own figure."""

LARGE_BYTES = 3_000_000
"""A table that is or unpacks to more is read in a process of its own, with limits."""

MOST_BYTES = 40_000_000
"""Of a register in text; fifty thousand entries of 800 letters. Our own figure."""

MOST_LINES = 10 * MOST_ENTRIES
"""Of a register in text, blank ones and those within cells among them."""

SECONDS = 45.0
MEMORY = 700_000_000

_MERGED = "no name stands here; perhaps the cell is merged with one above"


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenRegister:
    """The rows of a register.

    Args:
        read: how many rows there are below the heads.
        entries: those that can be taken.
        doubtful: cells of them of which not all can be taken as it stands.
        rejected: rows that cannot be taken.
    """

    read: int
    entries: tuple[WrittenEntry, ...]
    doubtful: tuple[Doubtful, ...]
    rejected: tuple[Rejected, ...]


def read_register_table(path: Path) -> Table:
    """Return the table in a file, a large one read in a process of its own.

    Raises:
        CannotRead: it holds no table, is damaged or too large; the text says which.
    """
    size = _unpacked(path)
    if size <= LARGE_BYTES:
        table = read_table(path)
    else:
        _refuse_endless(path, size)
        table = in_child(_read_few, path, seconds=SECONDS, memory=MEMORY)
    return _few(table)


def register_of(table: Table, layout: RegisterLayout) -> WrittenRegister:
    """Return the entries of a table whose columns hold what the layout says."""
    rows = table.rows[layout.first :]
    entries: list[WrittenEntry] = []
    doubtful: list[Doubtful] = []
    rejected: list[Rejected] = []
    turned = _turned_about(rows, layout)
    for row in rows:
        cells = [(n, taken(n, c)) for n, c in _cells(row, layout)]
        entry = _entry(row, cells)
        if why := _why_not(row, entry, layout):
            rejected.append(Rejected(row.line, why))
            continue
        entries.append(entry)
        doubtful += _doubts(row, cells, turned)
        doubtful += _gaps(entry, layout)
    return WrittenRegister(
        read=len(rows),
        entries=tuple(entries),
        doubtful=tuple(doubtful),
        rejected=tuple(rejected),
    )


def _unpacked(path: Path) -> int:
    """Return how many bytes a file is, or says that it unpacks to."""
    try:
        if not path.is_file():
            return 0  # what it is instead is told by whoever reads it
        size = path.stat().st_size
        if not zipfile.is_zipfile(path):
            return size
        with zipfile.ZipFile(path) as archive:
            return sum(m.file_size for m in archive.infolist())
    except (OSError, zipfile.BadZipFile, ValueError):
        return 0


def _refuse_endless(path: Path, size: int) -> None:
    """Refuse a text that can be no register, before anything is made of it."""
    if zipfile.is_zipfile(path):
        return
    with suppress(OSError), path.open("rb") as file:  # told by whoever reads it
        lines = sum(part.count(b"\n") for part in iter(lambda: file.read(1_000_000), b""))
        if size > MOST_BYTES or lines > MOST_LINES:
            raise CannotRead(
                f"{path.name} has {lines:,} lines and {size / 1e6:.0f} MB; a register of one"
                f" churchyard has {MOST_LINES:,} lines and {MOST_BYTES / 1e6:.0f} MB at most."
                " Nothing was read. Keep only the rows of this churchyard and try again."
            )


def _read_few(path: Path) -> Table:
    return _few(read_table(path))


def _few(table: Table) -> Table:
    if len(table.rows) > MOST_ENTRIES:
        raise CannotRead(
            f"{table.name} has {len(table.rows):,} rows; a register of one churchyard has"
            f" {MOST_ENTRIES:,} at most. Nothing was read. Keep only the rows of this"
            " churchyard and try again."
        )
    return table


def _cells(row: TableRow, layout: RegisterLayout) -> Iterator[tuple[str, str]]:
    for name, cell in zip(layout.names, row.cells, strict=False):
        if name != UNUSED and cell:
            yield name, cell


def _turned_about(rows: tuple[TableRow, ...], layout: RegisterLayout) -> set[str]:
    """Return the names of columns in which some dates have the month before the day."""
    found = set()
    for row in rows:
        for name, cell in _cells(row, layout):
            if name in ("buried", "died") and "month stands before" in taken(name, cell).doubt:
                found.add(name)
    return found


def _entry(row: TableRow, cells: list[tuple[str, Taken]]) -> WrittenEntry:
    told = {n: v for _, cell in cells for n, v in cell.columns}
    words = [c.words for _, c in cells if c.words]
    if words:
        told["remarks"] = "\n".join(filter(None, (told.get("remarks", ""), *words)))
    return WrittenEntry(
        row=row.line,
        number=told.pop(NUMBER, ""),
        lies_in=told.pop(LIES_IN, ""),
        details=tuple(told.items()),
    )


def _why_not(row: TableRow, entry: WrittenEntry, layout: RegisterLayout) -> str:
    if row.cells == layout.heads[: len(row.cells)]:
        return "the names of the columns stand here again"
    told = dict(entry.details)
    if not (entry.number or told.get("surname") or told.get("forenames")):
        return "neither a name nor a number stands here"
    return ""


def _doubts(
    row: TableRow, cells: list[tuple[str, Taken]], turned: set[str]
) -> Iterator[Doubtful]:
    for name, cell in cells:
        if cell.doubt:
            yield Doubtful(row.line, name, cell.doubt)
        elif cell.figures and name in turned:
            why = "other dates here have the month first; day and month may have changed places"
            yield Doubtful(row.line, name, why)


def _gaps(entry: WrittenEntry, layout: RegisterLayout) -> Iterator[Doubtful]:
    told = dict(entry.details)
    if not (told.get("surname") or told.get("forenames")):
        yield Doubtful(entry.row, "surname", _MERGED)
    if NUMBER in layout.names and not entry.number:
        yield Doubtful(entry.row, NUMBER, "the entry has no number")
