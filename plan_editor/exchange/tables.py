"""Tables that other programs or people wrote: CSV, text in columns, and workbooks.

Which letters and which separator a text file uses is found out from the file itself.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from pathlib import Path

from plan_editor.declared import late
from plan_editor.errors import CannotRead
from plan_editor.exchange.text_tables import Lines, text_lines

MOST_BYTES = 100_000_000
"""A larger file is no table that people keep."""

_WHAT = "Save the table as CSV or XLSX and try again."
_ZIP = b"PK\x03\x04"
_OLD_OFFICE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?", re.ASCII | re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row that is not empty: the number of its line in the file, from 1, and its cells."""

    line: int
    cells: tuple[str, ...]

    @property
    def text(self) -> str:
        """What stands in the row, a blank between its cells."""
        return " ".join(cell for cell in self.cells if cell)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table as it was read.

    Args:
        name: of the file.
        rows: those that hold something, each cell without blanks round it; a number with a
            decimal comma has a point where the file leaves no doubt that it is one.
        sheet: of a workbook, the sheet that was read.
    """

    name: str
    rows: tuple[TableRow, ...]
    sheet: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column that is looked for.

    Args:
        name: what it is called here.
        synonyms: what else people call it; capitals, blanks and points do not matter.
        needed: whether there is no use in a table without it.
    """

    name: str
    synonyms: tuple[str, ...] = ()
    needed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Where the columns of a table are.

    Args:
        above: the rows over the header.
        header: the row that names the columns.
        rows: the rows below it.
        places: each column that was found, with its place in the row, from 0.
    """

    above: tuple[TableRow, ...]
    header: TableRow
    rows: tuple[TableRow, ...]
    places: tuple[tuple[str, int], ...]

    def has(self, name: str) -> bool:
        """Return whether the table has that column."""
        return name in dict(self.places)

    def cell(self, row: TableRow, name: str) -> str:
        """Return what stands in a row under a column; "" where there is nothing."""
        place = dict(self.places).get(name, len(row.cells))
        return row.cells[place] if place < len(row.cells) else ""

    def named(self, row: TableRow) -> dict[str, str]:
        """Return what stands in a row, by the names of the columns; "" where nothing does."""
        cells = row.cells
        return {n: cells[at] if at < len(cells) else "" for n, at in self.places}


def _no_workbook(content: bytes, name: str, sheet: str) -> tuple[Lines, str]:
    """Stand for the reader of workbooks where only its type is wanted."""
    del content, name
    return (), sheet


# openpyxl takes the better part of half a second to import, and few tables are workbooks
_workbook_lines = late("plan_editor.exchange.workbooks", "workbook_lines", _no_workbook)


def read_table(path: Path, sheet: str = "") -> Table:
    """Return the table in a file: CSV or other text, or a sheet of an XLSX workbook.

    Args:
        path: what it is shows in its content; its suffix does not matter.
        sheet: of a workbook; the first one if not given.

    Raises:
        CannotRead: it is not there, holds no table, is damaged or too large; the text says
            which, and what to do.
    """
    content = _content(path)
    if content.startswith(_ZIP):
        lines, sheet = _workbook_lines(content, path.name, sheet)
    else:
        _refuse_old_office(content, path.name)
        lines, sheet = text_lines(content, path.name), ""
    rows = tuple(TableRow(n, cells) for n, cells in lines)
    if not rows:
        where = f", sheet {sheet}" if sheet else ""
        raise CannotRead(f"{path.name}{where}: there is nothing in it. Nothing was read.")
    return Table(name=path.name, rows=rows, sheet=sheet)


def columns(table: Table, wanted: Sequence[Column]) -> Columns:
    """Return where the columns are: the header is the row that names most of them.

    Raises:
        CannotRead: no row names them, a needed one is missing, or one is there twice; the text
            says what was found.
    """
    header = max(table.rows[:50], key=lambda row: len(_places(row, wanted)), default=None)
    if header is None or not _is_header(header, wanted):
        needed = [c.name for c in wanted if c.needed]
        names = ", ".join(needed if len(needed) > 1 else [c.name for c in wanted[:6]])
        raise CannotRead(
            f"{table.name}: no row names the columns; wanted is one with {names}. Nothing was"
            " read. Put the names of the columns over the table."
        )
    places = _places(header, wanted)
    where = f"{table.name}, line {header.line}"
    _refuse_twice(header, wanted, where)
    if missing := [c.name for c in wanted if c.needed and c.name not in places]:
        raise CannotRead(
            f"{where}: there is no column {missing[0]}; found are"
            f" {', '.join(c for c in header.cells if c)}. Nothing was read. Name the columns"
            " and try again."
        )
    at = table.rows.index(header)
    return Columns(
        above=table.rows[:at],
        header=header,
        rows=table.rows[at + 1 :],
        places=tuple(places.items()),
    )


def number(text: str) -> float:
    """Return a cell as a number.

    Raises:
        ValueError: it is none, or is not finite; the text says so.
    """
    if not _NUMBER.fullmatch(text) or not isfinite(float(text)):
        raise ValueError(f"“{_short(text)}” is not a number")
    return float(text)


def _content(path: Path) -> bytes:
    name = path.name or str(path)
    try:
        if path.is_dir():
            raise CannotRead(f"{name} is a folder. Nothing was read. Choose the file in it.")
        if path.exists() and not path.is_file():
            raise CannotRead(f"{name} is a device, not a table. Nothing was read.")
        if path.stat().st_size > MOST_BYTES:
            raise CannotRead(
                f"{name} is larger than {MOST_BYTES // 1_000_000} MB. Nothing was read. Keep"
                " only the rows that are wanted and try again."
            )
        content = path.read_bytes()
    except FileNotFoundError as error:
        raise CannotRead(f"There is no file {path}. Nothing was read.") from error
    except (OSError, ValueError) as error:  # a name may hold what no name may hold
        raise CannotRead(
            f"{name} cannot be read: {getattr(error, 'strerror', error)}. Nothing was read."
        ) from error
    if not content.strip():
        raise CannotRead(f"{name} is empty. Nothing was read.")
    return content


def _refuse_old_office(content: bytes, name: str) -> None:
    if not content.startswith(_OLD_OFFICE):
        return
    if _ENCRYPTED in content:
        raise CannotRead(
            f"{name} is locked with a password. Nothing was read. Save it without one."
        )
    raise CannotRead(f"{name} is a workbook of an old sort. Nothing was read. {_WHAT}")


def _places(row: TableRow, wanted: Sequence[Column]) -> dict[str, int]:
    places: dict[str, int] = {}
    for at, cell in enumerate(row.cells):
        if (column := _column(cell, wanted)) is not None:
            places.setdefault(column.name, at)
    return places


def _column(cell: str, wanted: Sequence[Column]) -> Column | None:
    plain = _plain(cell)
    if not plain:
        return None
    return next((c for c in wanted if plain in map(_plain, (c.name, *c.synonyms))), None)


def _plain(name: str) -> str:
    """Return a column's name in small letters, without blanks, signs or a unit in brackets."""
    bare = re.sub(r"[(\[].*?[)\]]", "", name.casefold())
    return "".join(c for c in bare if c.isalnum())


def _is_header(row: TableRow, wanted: Sequence[Column]) -> bool:
    found = len(_places(row, wanted))
    return found >= min(2, len(wanted))


def _refuse_twice(header: TableRow, wanted: Sequence[Column], where: str) -> None:
    seen: dict[str, str] = {}
    for cell in header.cells:
        if (column := _column(cell, wanted)) is None:
            continue
        if column.name in seen:
            raise CannotRead(
                f"{where}: “{seen[column.name]}” and “{cell}” both name the column"
                f" {column.name}. Nothing was read. Give one of them another name."
            )
        seen[column.name] = cell


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:39]}…"
