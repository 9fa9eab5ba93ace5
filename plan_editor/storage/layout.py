"""The columns in which a kind is kept, from its declaration.

Rectangles: the corner stands in metres about the plan's origin, as the model has it, so that it
    comes back
to the last bit; the geometry beside it stands in true coordinates.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from math import isfinite
from typing import Any

from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.item import Method, Status
from plan_editor.plan.kind import Form, Kind

Raw = str | float | int | None
"""What a column holds."""

FID = "fid"
GEOM = "geom"
ID = "id"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a kind's table.

    Args:
        name: as the file has it.
        sql: its type there.
        default: what stands for it in a file or log entry that lacks it.
        title, help: for people who read the table with another program.
        choices: the only texts that it may hold, where it is a choice.
    """

    name: str
    sql: str = "TEXT"
    default: Raw = None
    title: str = ""
    help: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """How a kind is kept.

    Args:
        kind: the kind.
        geometry: the geometry type of its table, or empty where it has no place.
        columns: all columns but the row number and the geometry.
        own: its details, the last of the columns.
        basis, places, details: which of the columns hold the basis, the rectangle (None where
            the kind has none) and the details.
    """

    kind: Kind
    geometry: str
    columns: tuple[Column, ...]
    own: tuple[Detail, ...]
    basis: slice
    places: slice | None
    details: slice

    @property
    def table(self) -> str:
        """The name of its table."""
        return self.kind.name

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the columns."""
        return tuple(c.name for c in self.columns)


NAMED = (
    Column(name=ID, sql="TEXT UNIQUE", title="Id", help="Who it is; never used twice."),
    Column(name="number", default="", title="Number"),
    Column(
        name="status",
        default=Status.EXISTING.value,
        title="Status",
        choices=tuple(s.value for s in Status),
    ),
)
BASIS = (
    Column(
        name="basis_method",
        default=Method.UNKNOWN.value,
        title="How its place is known",
        choices=tuple(m.value for m in Method),
    ),
    Column(name="basis_source", default="", title="From what its place is known"),
    Column(name="basis_base_plan", title="Traced on", help="Id of the base plan."),
    Column(name="basis_date", default="", title="When its place was measured"),
    Column(name="basis_sd_m", sql="REAL", title="Standard deviation of its place, m"),
)
RECTANGLE = (
    Column(name="corner_east", sql="REAL", title="Corner, metres east of the plan's origin"),
    Column(name="corner_north", sql="REAL", title="Corner, metres north of the plan's origin"),
    Column(name="rectangle_width", sql="REAL", title="Head line, m"),
    Column(name="rectangle_length", sql="REAL", title="Length right of the head line, m"),
    Column(name="rectangle_bearing", sql="REAL", title="Bearing of the head line, degrees"),
)

_SQL = {
    Value.NUMBER: "REAL",
    Value.WHOLE: "INTEGER",
    Value.YES_NO: "BOOLEAN",
}
_GEOMETRY = {
    frozenset((Form.POINT,)): "POINT",
    frozenset((Form.LINE,)): "LINESTRING",
}


@cache
def layout_of(kind: Kind) -> Layout:
    """Return how a kind is kept.

    Raises:
        ValueError: a detail bears the name of a column that every kind has.
    """
    places = RECTANGLE if Form.RECTANGLE in kind.forms else ()
    fixed = (*NAMED, *BASIS, *places)
    columns = (*fixed, *map(_column, kind.entries()))
    names = [FID, GEOM, *(c.name.lower() for c in columns)]
    if twice := {n for n in names if names.count(n) > 1}:
        raise ValueError(f"kind {kind.name}: a detail may not be called {sorted(twice)}")
    drawn = frozenset(kind.forms) - {Form.NONE}
    return Layout(
        kind=kind,
        geometry=_GEOMETRY.get(drawn, "GEOMETRY") if drawn else "",
        columns=columns,
        own=kind.entries(),
        basis=slice(len(NAMED), len(NAMED) + len(BASIS)),
        places=slice(len(NAMED) + len(BASIS), len(fixed)) if places else None,
        details=slice(len(fixed), len(columns)),
    )


def raw(detail: Detail, value: Any) -> Raw:
    """Return the value of a detail as its column holds it."""
    return None if value is None else _TO_RAW[detail.value](value)


def value_of(detail: Detail, held: Raw) -> Any:
    """Return what a column holds as the value of a detail; None is *not recorded* or default.

    Raises:
        ValueError: it cannot be that; the text ends a sentence.
    """
    if held is None:
        return None if detail.optional else detail.default
    try:
        return _choice(detail, held) if detail.choices else _FROM_RAW[detail.value](held)
    except (ValueError, TypeError, RecursionError) as error:
        raise ValueError(f"has “{held}” as “{detail.about.title}”") from error


def _column(detail: Detail) -> Column:
    unit = f", {detail.about.unit}" if detail.about.unit else ""
    return Column(
        name=detail.name,
        sql=_SQL.get(detail.value, "TEXT"),
        default=raw(detail, detail.default),
        title=f"{detail.about.title}{unit}",
        help=detail.about.help,
        choices=tuple(c.value for c in detail.choices),
    )


def _choice(detail: Detail, held: Raw) -> Any:
    return type(detail.choices[0])(_text(held))


def _number(value: float) -> float | None:
    return float(value) + 0.0 if isfinite(value) else None


def _numbers(value: tuple[float, ...]) -> str:
    return json.dumps([float(v) for v in value])


def _text(held: Raw) -> str:
    if not isinstance(held, str):
        raise TypeError(held)
    return held


def _finite(held: Any) -> float:
    if not isfinite(number := float(held)):
        raise ValueError(held)
    return number


def _numbers_from(held: Raw) -> tuple[float, ...]:
    found = json.loads(_text(held) or "[]")
    if not isinstance(found, list):
        raise TypeError(held)
    return tuple(map(_finite, found))


def _reference(held: Raw) -> str | None:
    return _text(held) or None


_TO_RAW: dict[Value, Callable[[Any], Raw]] = {
    Value.TEXT: str,
    Value.LONG_TEXT: str,
    Value.DATE: str,
    Value.ITEM: str,
    Value.CHOICE: lambda choice: str(choice.value),
    Value.NUMBER: _number,
    Value.WHOLE: int,
    Value.YES_NO: int,
    Value.NUMBERS: _numbers,
}
_FROM_RAW: dict[Value, Callable[[Any], Any]] = {
    Value.TEXT: _text,
    Value.LONG_TEXT: _text,
    Value.DATE: _text,
    Value.ITEM: _reference,
    Value.NUMBER: _finite,
    Value.WHOLE: int,
    Value.YES_NO: bool,
    Value.NUMBERS: _numbers_from,
}
