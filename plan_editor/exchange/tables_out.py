"""Tables written for other programs: CSV, and workbooks, in which no cell is ever a formula.

A spreadsheet takes a text that begins with one of a few signs for a formula and works it out;
what people typed into a plan must stay text.
"""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from plan_editor.declared import late
from plan_editor.exchange.whole import written_whole

FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")
"""Signs with which a formula may begin. Source: OWASP, CSV injection; common practice."""

# XML 1.0 section 2.2 knows none of these characters; a table has no use for them either
_UNSEEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True, slots=True, kw_only=True)
class TableOut:
    """A table to be written.

    Args:
        title: of its sheet in a workbook.
        heads: the titles of its columns.
        figures: for each column whether it holds figures.
        rows: as many texts as there are columns.
        notes: lines to stand on a sheet of their own in a workbook; a CSV file has none, so
            that other programs find nothing but the table.
    """

    title: str
    heads: tuple[str, ...]
    figures: tuple[bool, ...]
    rows: Sequence[tuple[str, ...]]
    notes: tuple[str, ...] = ()


def may_be_formula(text: str) -> bool:
    """Return whether a spreadsheet might take a text for a formula, blanks before it or not."""
    return text.lstrip(" ").startswith(FORMULA_SIGNS) or text.startswith(FORMULA_SIGNS)


def seen(text: str) -> str:
    """Return a text without characters that cannot be written in a table."""
    return _UNSEEN.sub(" ", text)


def write_csv(table: TableOut, path: Path) -> None:
    """Write a table as CSV: UTF-8 with its mark, commas, lines ended as RFC 4180 has it.

    A text that a spreadsheet might take for a formula is preceded by an apostrophe.

    Raises:
        NoRoom, NotAllowed: it cannot be written; what was there before stays.
    """
    with (
        written_whole(path) as beside,
        beside.open("w", encoding="utf-8-sig", newline="") as file,
    ):
        writer = csv.writer(file, lineterminator="\r\n")
        writer.writerow([_neutral(t) for t in table.heads])
        writer.writerows([_neutral(t) for t in row] for row in table.rows)


def _neutral(text: str) -> str:
    plain = seen(text)
    return f"'{plain}" if may_be_formula(plain) else plain


def _no_workbook(table: TableOut, path: Path) -> None:
    """Stand for the writer of workbooks where only its type is wanted."""
    del table, path


write_workbook = late("plan_editor.exchange.workbooks_out", "write_workbook", _no_workbook)
"""Write a table as an XLSX workbook; see ``workbooks_out.write_workbook``."""
