"""Sheets of XLSX workbooks, read row by row; loaded when the first workbook is read."""

import io
import re
import warnings
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, datetime, time
from typing import Any

from defusedxml.common import DefusedXmlException
from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException

from plan_editor.errors import CannotRead
from plan_editor.exchange.text_tables import MOST_CELLS, Lines, too_many

MOST_UNPACKED = 400_000_000
"""A workbook that unpacks to more bytes is refused before it is unpacked."""

MOST_ROWS = 1_048_576
"""No sheet has more. Source: ECMA-376, as the programs that write it keep to."""

_LOCKED = 0x1
_UNWORKED = re.compile(
    rb"<(?:\w+:)?c\b(?![^>]*t=\"str\")[^>]*>\s*"
    rb"<(?:\w+:)?f\b(?:[^>]*/>|[^>]*>[^<]*</(?:\w+:)?f>)\s*"
    rb"(?:<(?:\w+:)?v\s*/>|<(?:\w+:)?v></(?:\w+:)?v>)?\s*</"
)
"""A cell with a formula and no value, unless that is an empty text.

Source: ECMA-376 part 1, 18.3.1.4.
"""
_CELL = re.compile(rb"\br=\"([A-Z]+\d+)\"")

_BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    DefusedXmlException,
    InvalidFileException,
    ArithmeticError,
    AttributeError,
    EOFError,
    LookupError,
    NotImplementedError,
    OSError,
    RuntimeError,
    SyntaxError,  # of either XML parser that the library may use: both derive from it
    TypeError,
    ValueError,
)
"""What the library raises of a workbook that is not whole."""


def workbook_lines(content: bytes, name: str, sheet: str) -> tuple[Lines, str]:
    """Return the rows of a sheet, and its name; see ``tables.read_table``.

    Numbers come with all their digits, dates as ISO dates, formulas as their last result.

    Raises:
        CannotRead: it is no workbook, is damaged or too large, has no such sheet, or holds
            formulas without results.
    """
    try:
        _refuse_archive(content, name)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and the like that are not wanted here
            return _read(content, name, sheet)
    except _BROKEN as error:
        raise CannotRead(
            f"{name} is a damaged workbook. Nothing was read. Open it in a spreadsheet program,"
            " save it again as XLSX or CSV, and try again."
        ) from error


def _refuse_archive(content: bytes, name: str) -> None:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        members = archive.infolist()
    if any(m.flag_bits & _LOCKED for m in members):
        raise CannotRead(
            f"{name} is locked with a password. Nothing was read. Save it without one."
        )
    if sum(m.file_size for m in members) > MOST_UNPACKED:
        raise CannotRead(
            f"{name} would unpack to more than {MOST_UNPACKED // 1_000_000} MB. Nothing was"
            " read. Keep only the sheet that is wanted and try again."
        )
    if "xl/workbook.xml" not in {m.filename for m in members}:
        raise CannotRead(
            f"{name} holds no workbook that can be read here. Nothing was read. Save the table"
            " as CSV or XLSX and try again."
        )


def _read(content: bytes, name: str, sheet: str) -> tuple[Lines, str]:
    book = load_workbook(io.BytesIO(content), read_only=True, data_only=True)
    try:
        found = _sheet_of(book, name, sheet)
        _refuse_unworked(content, _part(book[found]), f"{name}, sheet {found}")
        return list(_rows(_values(book, found, name))), found
    finally:
        book.close()


def _part(sheet: Any) -> str:
    # the library has no public name for it
    return str(sheet._worksheet_path)  # noqa: SLF001


def _sheet_of(book: Any, name: str, wanted: str) -> str:
    known = [s.title for s in book.worksheets]
    if not known:
        raise CannotRead(f"{name} has no sheet with a table. Nothing was read.")
    if not wanted:
        return str(known[0])
    for one in known:
        if one.strip().casefold() == wanted.strip().casefold():
            return str(one)
    raise CannotRead(
        f"{name} has no sheet “{wanted}”; there are {', '.join(known)}. Nothing was read."
    )


def _values(book: Any, sheet: str, name: str) -> Iterator[tuple[int, tuple[Any, ...]]]:
    there = book[sheet]
    there.reset_dimensions()  # they may be said wrongly
    cells = 0
    for line, values in enumerate(there.iter_rows(values_only=True), 1):
        cells += len(values)
        if cells > MOST_CELLS or line > MOST_ROWS:
            raise too_many(name)
        yield line, tuple(values)


def _rows(
    values: Iterator[tuple[int, tuple[Any, ...]]],
) -> Iterator[tuple[int, tuple[str, ...]]]:
    for line, row in values:
        cells = tuple(map(_text, row))
        if any(cells):
            yield line, cells


def _text(value: Any) -> str:
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case float() if value.is_integer() and abs(value) < 1e15:
            return str(int(value))
        case datetime() if value.time() == time():
            return value.date().isoformat()
        case datetime() | date() | time():
            return value.isoformat()
        case _:
            return " ".join(str(value).split())


def _refuse_unworked(content: bytes, part: str, where: str) -> None:
    """Refuse a sheet with formulas whose results the file does not keep."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        unworked = _UNWORKED.search(archive.read(part))
    if unworked is None:
        return
    cell = _CELL.search(unworked[0])
    at = f", cell {cell[1].decode('ascii')}" if cell else ""
    raise CannotRead(
        f"{where}{at}: a formula is there without its result. Nothing was read. Open the"
        " workbook in a spreadsheet program and save it, or save it as CSV."
    )
