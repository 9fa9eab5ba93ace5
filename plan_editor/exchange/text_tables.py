"""Tables in text: which letters it is written in, what stands between its cells."""

import codecs
import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from plan_editor.errors import CannotRead

Lines = Sequence[tuple[int, tuple[str, ...]]]
"""Rows that hold something: the number of the line, from 1, and the cells."""

MOST_CELLS = 5_000_000
"""A table with more is refused."""

_BLANKS = "blanks"
_SEPARATORS = ("\t", ";", ",")
_SAMPLE = 200  # lines that are looked at to find the separator
_AGREE = 0.8  # of them must have as many cells as most have
_DECIMAL_COMMA = re.compile(r"[+-]?\d+,\d+", re.ASCII)
_DECIMAL_POINT = re.compile(r"[+-]?\d*\.\d+", re.ASCII)
_ONLY_IN_NUMBERS = re.compile(r"(?:[^,]|(?<=\d),(?=\d))*", re.ASCII)
_NOT_TEXT = re.compile(r"[\x00-\x08\x0e-\x1a\x1c-\x1f\x7f]")


def text_lines(content: bytes, name: str) -> Lines:
    """Return the rows of a table in text.

    Args:
        content: UTF-8, UTF-16, or what was usual on Windows before.
        name: of the file, for what is said of it.

    Raises:
        CannotRead: it is not text, a quotation mark is not closed, or it is too large.
    """
    text = decoded(content, name)
    separator = _separator(text)
    rows = list(_rows(text, separator, name))
    if separator == ",":
        return rows
    return _with_points(rows)


def decoded(content: bytes, name: str) -> str:
    """Return bytes as text, line ends as they are everywhere.

    Raises:
        CannotRead: it is not text.
    """
    try:
        text = content.decode(_encoding(content))
    except UnicodeDecodeError:
        try:
            text = content.decode("cp1252")
        except UnicodeDecodeError as error:
            raise _binary(name) from error
    if _NOT_TEXT.search(text):
        raise _binary(name)
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _encoding(content: bytes) -> str:
    if content.startswith(codecs.BOM_UTF8):
        return "utf-8-sig"
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    start = content[:1000]
    # letters of Western writing leave every second byte empty
    if len(start) >= 4 and start[1::2].count(0) > 0.8 * len(start[1::2]):
        return "utf-16-le"
    if len(start) >= 4 and start[::2].count(0) > 0.8 * len(start[::2]):
        return "utf-16-be"
    return "utf-8"


def _binary(name: str) -> CannotRead:
    return CannotRead(
        f"{name} is not a table in text, nor a workbook. Nothing was read. Save the table as"
        " CSV or XLSX and try again."
    )


def _separator(text: str) -> str:
    """Return what stands between cells: one of the separators, blanks, or "" for nothing."""
    sample = _sample(text)
    commas_in_numbers = all(map(_ONLY_IN_NUMBERS.fullmatch, sample))
    if commas_in_numbers and not re.search("[\t;]", "".join(sample)) and _blanks_agree(sample):
        return _BLANKS
    shares = {s: _agreeing(sample, s) for s in _SEPARATORS}
    clear = [s for s, share in shares.items() if share >= _AGREE]
    best = clear[0] if clear else max(shares, key=lambda s: shares[s])
    return best if shares[best] else ""


def _sample(text: str) -> list[str]:
    lines = (line for line in text[:1_000_000].split("\n") if line.strip())
    said = (line for line in lines if not line.lstrip().startswith("#"))
    return [line for _, line in zip(range(_SAMPLE), said, strict=False)]


def _blanks_agree(sample: Sequence[str]) -> bool:
    """Return whether blanks part the lines evenly, a header too, numbers among the cells."""
    rows = [line.split() for line in sample]
    if not rows or len(rows[0]) < 2:
        return False
    alike = sum(len(row) == len(rows[0]) for row in rows)
    with_number = sum(any(map(_is_number, row)) for row in rows)
    return alike >= _AGREE * len(rows) and with_number >= max(1.0, _AGREE * (len(rows) - 1))


def _is_number(word: str) -> bool:
    return bool(re.fullmatch(r"[+-]?\d+(?:[.,]\d+)?", word, re.ASCII))


def _agreeing(sample: Sequence[str], separator: str) -> float:
    """Return the share of lines that have as many cells as most that have several."""
    widths = Counter(len(_split(line, separator)) for line in sample)
    several = [count for width, count in widths.items() if width > 1]
    return max(several, default=0) / max(1, len(sample))


def _split(line: str, separator: str) -> Sequence[str]:
    try:
        return next(csv.reader([line], delimiter=separator), [])
    except csv.Error:
        return []


def _rows(text: str, separator: str, name: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    count = 0
    for line, cells in _cells(text, separator, name):
        kept = tuple(" ".join(c.split()) for c in cells)
        count += len(kept)
        if count > MOST_CELLS:
            raise too_many(name)
        if any(kept):
            yield line, kept


def _cells(text: str, separator: str, name: str) -> Iterator[tuple[int, Iterable[str]]]:
    if separator in ("", _BLANKS):
        for line, row in enumerate(text.split("\n"), 1):
            yield line, row.split() if separator else (row,)
        return
    reader = csv.reader(io.StringIO(text), delimiter=separator)
    lines = text.split("\n")
    line = 1
    while True:
        try:
            cells = next(reader, None)
        except csv.Error as error:
            raise CannotRead(
                f"{name}, line {line}: a cell is too long to be one of a table. Nothing was"
                " read. Perhaps a quotation mark is opened there and never closed."
            ) from error
        if cells is None:
            return
        _refuse_open_quote(cells, lines, name, line)
        yield line, cells
        line = reader.line_num + 1


def _refuse_open_quote(
    cells: Sequence[str], lines: Sequence[str], name: str, line: int
) -> None:
    # a cell may run over a few lines, but not over the rest of the file
    breaks = max((cell.count("\n") for cell in cells), default=0)
    if breaks == 0:
        return
    to_the_end = len(lines) - line <= sum(cell.count("\n") for cell in cells)
    if breaks > 20 or (to_the_end and "".join(lines[line - 1 :]).count('"') % 2):
        raise CannotRead(
            f"{name}, line {line}: a quotation mark is opened and not closed. Nothing was read."
            " Close it, or take it away."
        )


def too_many(name: str) -> CannotRead:
    """Return what to say of a table with too many cells."""
    return CannotRead(
        f"{name} has more than {MOST_CELLS // 1_000_000} million cells. Nothing was read. Keep"
        " only the rows and columns that are wanted and try again."
    )


def _with_points(rows: Lines) -> Lines:
    """Return rows with decimal points for commas, where no cell has a decimal point."""
    if any(_DECIMAL_POINT.fullmatch(cell) for _, cells in rows for cell in cells):
        return rows
    return [(line, tuple(map(_with_point, cells))) for line, cells in rows]


def _with_point(cell: str) -> str:
    return cell.replace(",", ".") if _DECIMAL_COMMA.fullmatch(cell) else cell
