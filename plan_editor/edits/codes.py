"""The table of codes: what a word beside a measured point becomes on the plan."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from plan_editor.errors import CannotUse
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.kind import Form, Kind, kind_named
from plan_editor.plan.values import fault_of_value
from plan_editor.resources import resource

MOST_BYTES = 1_000_000
"""A larger file is no table of codes."""

REMARKS = "remarks"

CLOSE = "CLOSE"
"""After the code of a line's last point: it goes back to its first."""

_WORD = re.compile(r"[A-Z]+(?:-[A-Z]+)*")
_WRITTEN = re.compile(r"(?P<word>[A-Z]+(?:-[A-Z]+)*)-?(?P<run>\d*)", re.IGNORECASE)
_FIELDS = frozenset({"code", "also", "kind", "form", "words", "numbered", "details"})
_FORMS = {"point": Form.POINT, "line": Form.LINE, "area": Form.AREA}


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """One row of the table.

    Args:
        word: in capitals.
        also: other words for the same.
        kind: what it becomes.
        form: a point each, or points joined to a line or an outline.
        words: the detail that takes the words after the code; empty for none.
        numbered: whether the point's name becomes the number.
        details: what is recorded of each at once: names of details, each with its value.
    """

    word: str
    also: tuple[str, ...]
    kind: Kind
    form: Form
    words: str
    numbered: bool
    details: tuple[tuple[str, Any], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A code as it stands in a file, taken apart.

    Args:
        word: in capitals; empty where nothing that looks like one stands there.
        run: the number of the line that the point belongs to; empty for none.
        closes: whether the line goes back to its first point.
        words: what follows.
    """

    word: str
    run: str = ""
    closes: bool = False
    words: str = ""


def written(cell: str) -> Written:
    """Return a code taken apart: ``WALL1 CLOSE``, ``TREE common lime``, ``wall 2``."""
    first, *rest = cell.split() or ("",)
    found = _WRITTEN.fullmatch(first)
    if found is None:
        return Written(word="", words=" ".join(cell.split()))
    run = found["run"]
    if not run and rest and rest[0].isascii() and rest[0].isdigit():
        run = rest.pop(0)
    closes = bool(rest) and rest[0].upper() == CLOSE
    return Written(
        word=found["word"].upper(), run=run, closes=closes, words=" ".join(rest[closes:])
    )


@cache
def shipped_codes() -> Mapping[str, Code]:
    """Return the table that comes with the program, by word."""
    return read_codes(resource("codes.toml"))


def read_codes(path: Path) -> Mapping[str, Code]:
    """Return a table of codes, by word.

    Raises:
        CannotUse: it cannot be read, or a row makes no sense; the text says which and why.
    """
    rows = _table(path).get("code", [])
    if not isinstance(rows, list) or not rows:
        raise CannotUse(f"{path.name} holds no [[code]]. Nothing was read.")
    found: dict[str, Code] = {}
    for n, row in enumerate(rows, 1):
        code = _code(row, f"{path.name}, code {n}")
        for word in (code.word, *code.also):
            if word in found:
                raise CannotUse(f"{path.name}: {word} stands there twice. Nothing was read.")
            found[word] = code
    return found


def _table(path: Path) -> dict[str, Any]:
    try:
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
        if len(content) > MOST_BYTES:
            raise CannotUse(f"{path.name} is too large for a table of codes.")
        return tomllib.loads(content.decode())
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else fault
        raise CannotUse(
            f"{path.name} cannot be read as a table of codes: {why}. Nothing was read."
        ) from fault


def _code(row: Any, place: str) -> Code:
    try:
        return _read(row)
    except KeyError as missing:
        raise CannotUse(f"{place}: it has no {missing}. Nothing was read.") from missing
    except ValueError as fault:
        raise CannotUse(f"{place}: {fault}. Nothing was read.") from fault


def _read(row: Any) -> Code:
    if not isinstance(row, dict):
        raise ValueError(f"“{row}” is no row of a table")  # noqa: TRY004  # a fault of the file
    word = _word(row["code"])
    if unknown := sorted(set(row) - _FIELDS):
        raise ValueError(f"“{unknown[0]}” means nothing there")
    kind = _kind(row["kind"])
    numbered = row.get("numbered", False)
    if not isinstance(numbered, bool):
        raise ValueError("numbered is true or false")  # noqa: TRY004  # a fault of the file
    return Code(
        word=word,
        also=tuple(_word(w) for w in _list(row.get("also", []))),
        kind=kind,
        form=_form(row.get("form", "point"), kind),
        words=_words(row.get("words", ""), kind),
        numbered=numbered,
        details=_details(row.get("details", {}), kind),
    )


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise ValueError('other words stand in square brackets: ["SEAT"]')  # noqa: TRY004
    return value


def _word(value: Any) -> str:
    if not isinstance(value, str) or not _WORD.fullmatch(value.upper()):
        raise ValueError(f"“{value}” is no code; one is a word in letters, as PATH-EDGE")
    if value.upper() == CLOSE:
        raise ValueError(f"{CLOSE} is the word that closes a line")
    return value.upper()


def _kind(value: Any) -> Kind:
    kind = kind_named(value) if isinstance(value, str) else None
    if kind is None or not kind.drawn or kind.pinned:
        raise ValueError(f"there is no kind “{value}” that has a place on the plan")
    return kind


def _form(value: Any, kind: Kind) -> Form:
    form = _FORMS.get(value) if isinstance(value, str) else None
    if form is None:
        raise ValueError(f"“{value}” is no form; it is point, line or area")
    # an outline may stand for a rectangle
    loose = form is Form.AREA and Form.RECTANGLE in kind.forms
    if form not in kind.forms and not loose:
        raise ValueError(f"{kind.one} is no {value}")
    return form


def _words(value: Any, kind: Kind) -> str:
    texts = {d.name for d in kind.entries() if d.value in (Value.TEXT, Value.LONG_TEXT)}
    if value != "" and value not in texts:
        raise ValueError(f"no text “{value}” is recorded of {kind.one}")
    return str(value)


def _details(value: Any, kind: Kind) -> tuple[tuple[str, Any], ...]:
    if not isinstance(value, dict):
        raise ValueError("details stand in curly brackets: { permanent = true }")  # noqa: TRY004
    known = {d.name: d for d in kind.entries()}
    if unknown := sorted(set(value) - set(known)):
        raise ValueError(f"nothing called “{unknown[0]}” is recorded of {kind.one}")
    return tuple((name, _value(known[name], told, kind)) for name, told in value.items())


def _value(detail: Detail, told: Any, kind: Kind) -> Any:
    found: Any = told
    if detail.value is Value.CHOICE:
        found = next((c for c in detail.choices if c == told), told)
    elif detail.value is Value.NUMBER and type(told) is int:
        found = float(told)
    elif detail.value is Value.NUMBERS and isinstance(told, list):
        found = tuple(float(t) if type(t) is int else t for t in told)
    if fault := fault_of_value(detail, found):
        raise ValueError(f"{kind.one} {fault}")
    return found
