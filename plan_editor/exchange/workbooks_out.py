"""Tables written as XLSX workbooks; loaded when the first is written."""

import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter

from plan_editor.exchange.tables_out import TableOut, may_be_formula, seen
from plan_editor.exchange.whole import written_whole

LONGEST = 32_767
"""No cell holds more characters. Source: ECMA-376, as the programs that read it keep to."""

_FIGURE = re.compile(r"\d{1,15}(?:\.(\d{1,6}))?", re.ASCII)
_NOT_IN_TITLES = re.compile(r"[\\/*?:\[\]]")
_TITLE_MOST = 31
_NARROWEST, _WIDEST = 8, 60
_MADE = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)


def write_workbook(table: TableOut, path: Path) -> None:
    """Write a table as a workbook: the table on one sheet, its notes on another.

    Dates stay the ISO texts that they are, since a date may stop after the year or lie before
    1900; texts are marked as texts, and what might be taken for a formula as quoted besides.
    The same table makes the same file.

    Raises:
        NoRoom, NotAllowed: it cannot be written; what was there before stays.
    """
    book = Workbook()
    # when it was made is none of the table's business, and would differ each time
    book.properties.created = book.properties.modified = _MADE
    book.properties.creator = "Churchyard Plan Editor"
    sheet: Any = book.active
    sheet.title = _NOT_IN_TITLES.sub(" ", seen(table.title))[:_TITLE_MOST] or "Table"
    _fill(sheet, table)
    if table.notes:
        _note(book.create_sheet("Notes"), table)
    with written_whole(path) as beside:
        book.save(beside)


def _fill(sheet: Any, table: TableOut) -> None:
    for place, head in enumerate(table.heads, 1):
        _text(sheet.cell(1, place), head)
        sheet.cell(1, place).font = Font(bold=True)
    for line, row in enumerate(table.rows, 2):
        for place, (text, figures) in enumerate(zip(row, table.figures, strict=True), 1):
            cell = sheet.cell(line, place)
            if figures and (found := _FIGURE.fullmatch(text)):
                _figure(cell, text, len(found[1] or ""))
            elif text:
                _text(cell, text)
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
    for place, column in enumerate(zip(table.heads, *table.rows, strict=True), 1):
        longest = max(map(len, column))
        broad = min(max(longest + 2, _NARROWEST), _WIDEST)
        sheet.column_dimensions[get_column_letter(place)].width = broad
    sheet.print_title_rows = "1:1"


def _note(sheet: Any, table: TableOut) -> None:
    for line, text in enumerate(table.notes, 1):
        _text(sheet.cell(line, 1), text)
    sheet.column_dimensions["A"].width = 100


def _figure(cell: Any, text: str, places: int) -> None:
    cell.value = float(text) if places else int(text)
    cell.number_format = f"0.{'0' * places}" if places else "0"


def _text(cell: Any, text: str) -> None:
    plain = seen(text)
    cell.value = plain if len(plain) <= LONGEST else f"{plain[: LONGEST - 1]}…"
    # or the library makes a formula of what begins with =
    cell.data_type = "s"
    cell.quotePrefix = may_be_formula(plain)
    cell.alignment = Alignment(wrap_text=True, vertical="top")
