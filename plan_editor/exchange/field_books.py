"""Field books from files: a table, and over it what holds for the whole book."""

from dataclasses import replace
from pathlib import Path

from plan_editor.errors import CannotRead, CannotUse
from plan_editor.exchange.tables import Column, Columns, TableRow, columns, read_table
from plan_editor.survey.books.book_lines import COLUMNS
from plan_editor.survey.books.book_settings import (
    UNITS,
    BookSettings,
    looks_like_setting,
    with_setting,
)
from plan_editor.survey.books.field_book import FieldBook
from plan_editor.survey.books.whole_book import whole_book

_SYNONYMS = {
    "type": ("kind", "sort", "measure", "measured as", "what"),
    "from": ("start", "station", "mark", "from mark", "from point", "at"),
    "to": ("end", "to mark", "to point", "far end"),
    "point": ("name", "target", "point no", "pt", "thing"),
    "distance": ("dist", "length", "tape", "along", "chainage", "reading", "distance m"),
    "offset": ("off", "aside", "offset m"),
    "side": ("hand",),
    "bearing": ("brg", "azimuth"),
    "angle": ("included angle", "horizontal angle"),
    "back": ("back sight", "bs", "back point"),
    "slope": ("slope angle", "slope deg"),
    "rise": ("height difference", "level difference", "dh"),
    "sd": ("standard deviation", "std", "sd m"),
    "code": ("feature", "point code"),
    "out": ("left out", "leave out"),
    "remarks": ("remark", "note", "notes", "comment", "comments"),
}
_WANTED = tuple(
    Column(name=name, synonyms=_SYNONYMS[name], needed=name == "from") for name in COLUMNS
)
_LENGTHS = ("distance", "offset", "rise", "sd")


def read_field_book(
    path: Path, settings: BookSettings | None = None, *, sheet: str = ""
) -> FieldBook:
    """Return the field book in a CSV or XLSX file.

    Args:
        path: the file; its name without suffix is the book's, if the book names none.
        settings: what holds where the file does not say it itself.
        sheet: of a workbook; the first one if not given.

    Raises:
        CannotRead: the file holds no field book, or lines of it make no sense; the text names
            line and column of each, and nothing of the book is to be used.
    """
    table = read_table(path, sheet)
    found = columns(table, _WANTED)
    asked = settings or BookSettings()
    start = replace(asked, name=asked.name or path.stem[:60])
    try:
        told, notes = _told_above(found, start)
        lines = _rows(found)
        units = _units(found)
        return whole_book([(r.line, _texts(found, r, units)) for r in lines], told, notes)
    except CannotUse as fault:
        raise CannotRead(f"{table.name}: {fault}. Nothing was taken in.") from fault


def _told_above(found: Columns, settings: BookSettings) -> tuple[BookSettings, list[str]]:
    notes: list[str] = []
    # the unit first, since others may be in it
    rows = [*found.above, *(r for r in found.rows if _is_remark(r))]
    for row in sorted(rows, key=lambda r: "unit" not in r.text.casefold()[:8]):
        try:
            told = with_setting(settings, row.text)
        except CannotUse as fault:
            raise CannotUse(f"line {row.line}: {fault}") from fault
        if told is not None:
            settings = told
        elif not _is_remark(row) or looks_like_setting(row.text):
            notes.append(f"Line {row.line} was taken for a remark: “{row.text[:60]}”.")
    return settings, notes


def _is_remark(row: TableRow) -> bool:
    return row.text.startswith("#")


def _rows(found: Columns) -> list[TableRow]:
    return [r for r in found.rows if not _is_remark(r)]


def _units(found: Columns) -> dict[str, str]:
    """Return the unit that the header itself gives to columns: ``distance (ft)``."""
    units: dict[str, str] = {}
    for name, at in found.places:
        _, bracket, rest = found.header.cells[at].replace("[", "(").partition("(")
        unit = rest.strip(")] ").casefold()
        if not bracket or name not in _LENGTHS:
            continue
        if unit not in UNITS:
            raise CannotUse(
                f"line {found.header.line}: “{found.header.cells[at]}” is in a unit that is"
                " not known here. There are metres, feet, cm, mm"
            )
        units[name] = unit
    return units


def _texts(found: Columns, row: TableRow, units: dict[str, str]) -> dict[str, str]:
    texts = found.named(row)
    for name, unit in units.items():
        if (text := texts.get(name, "")) and text.lstrip("+-−").replace(".", "", 1).isdigit():
            texts[name] = f"{text} {unit}"
    return texts
