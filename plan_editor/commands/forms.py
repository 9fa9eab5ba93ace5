"""Fields of a form: values as text, and text as values, for any declared kind."""

import re
from collections.abc import Callable, Mapping
from datetime import date
from enum import StrEnum
from math import isfinite, nan
from types import MappingProxyType
from typing import Any

from plan_editor.errors import CannotUse
from plan_editor.plan.detail import About, Detail, Value
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)")
_DAY_FIRST = re.compile(r"(\d{1,2})[./](\d{1,2})[./](\d{4})")
_ISO = re.compile(r"(\d{4})(?:-(\d{1,2})(?:-(\d{1,2}))?)?")

ON = "yes"
OFF = "no"


def shown(detail: Detail, value: Any, document: Document) -> str:
    """Return a value as forms and lists show it; empty where it is not recorded."""
    item = document.plan.items.get(value) if detail.value is Value.ITEM else None
    return shown_on(detail, value, document.plan) if item is None else item.named()


def shown_on(detail: Detail, value: Any, plan: Plan) -> str:
    """Return a value as ``shown`` does, where there is no form: nobody living is named."""
    if value is None:
        return ""
    match detail.value:
        case Value.YES_NO:
            return ON if value else OFF
        case Value.NUMBERS:
            return "  ".join(f"{v:g}" for v in value)
        case Value.NUMBER | Value.WHOLE:
            return number(value)
        case Value.ITEM:
            item = plan.items.get(value)
            return item.called() if item is not None else ""
        case Value.CHOICE | Value.TEXT | Value.LONG_TEXT | Value.DATE:
            return str(value)


def number(value: float) -> str:
    """Return a number as people write it: no more digits than it has."""
    return f"{value:.6f}".rstrip("0").rstrip(".") if value else "0"


def capital(text: str) -> str:
    """Return a text with its first letter as a capital."""
    return text[:1].upper() + text[1:]


def read(detail: Detail, text: str, document: Document) -> Any:
    """Return what was typed into the field of a detail as its value.

    Raises:
        CannotUse: it is no value of that sort, or outside its range; the text says what is
            wanted.
    """
    text = text.strip() if detail.value is not Value.LONG_TEXT else text.rstrip()
    if not text and (detail.optional or detail.value in (Value.TEXT, Value.DATE)):
        return None if detail.optional else ""
    return _READERS[detail.value](detail, text, document)


def read_number(text: str, told: About) -> float:
    """Return the number that a text is; a comma will do for the point, the unit may follow.

    Raises:
        CannotUse: it is no number.
    """
    bare = text.strip().removesuffix(told.unit).strip() if told.unit else text.strip()
    read = float(bare.replace(",", ".")) if _NUMBER.fullmatch(bare) else nan
    if not isfinite(read):
        raise CannotUse(f"“{told.title}” wants a number{_in_unit(told)}, such as 1.25.")
    return read


def within(told: About, value: Any) -> Any:
    """Return a number that lies in its range.

    Raises:
        CannotUse: it does not; the text says what the range is.
    """
    unit = f" {told.unit}" if told.unit else ""
    if told.low is not None and value < told.low:
        raise CannotUse(f"“{told.title}” is at least {number(told.low)}{unit}.")
    if told.high is not None and value > told.high:
        raise CannotUse(f"“{told.title}” is at most {number(told.high)}{unit}.")
    return value


def read_date(text: str) -> str:
    """Return a date as ISO 8601 writes it; it may stop after the year or the month.

    Raises:
        CannotUse: it is no date.
    """
    if found := _DAY_FIRST.fullmatch(text):
        day, month, year = found.groups()
        text = f"{year}-{month}-{day}"
    found = _ISO.fullmatch(text)
    if found is None:
        raise CannotUse("Write a date as 2026-07-14, or only the year or the month: 2026-07.")
    year, month, day = found.groups()
    try:
        whole = date(int(year), int(month or 1), int(day or 1))
    except ValueError as error:
        raise CannotUse("There is no such day. Write a date as 2026-07-14.") from error
    return whole.isoformat()[: 4 if month is None else 7 if day is None else 10]


def may_refer_to(detail: Detail, document: Document) -> tuple[Item[Any], ...]:
    """Return the items that a reference may point to."""
    of_kind = document.plan.by_kind
    return tuple(i for name in detail.about.refers_to for i in of_kind.get(name, {}).values())


def _split(text: str) -> list[str]:
    return [t for t in re.split(r"[;\s]+", text) if t]


def _whole(text: str, told: About) -> int:
    value = read_number(text, told)
    if value != int(value):
        raise CannotUse(f"“{told.title}” wants a whole number{_in_unit(told)}.")
    return int(value)


def _in_unit(told: About) -> str:
    return f" in {told.unit}" if told.unit else ""


def _choice(detail: Detail, text: str) -> StrEnum:
    for choice in detail.choices:
        if choice.value.casefold() == text.casefold():
            return choice
    raise CannotUse(f"“{detail.about.title}” is one of: {', '.join(detail.choices)}.")


def _item(detail: Detail, text: str, document: Document) -> ItemId:
    allowed = detail.about.refers_to
    items = document.plan.items
    for found in document.index.numbered(text):
        if items[found].kind.name in allowed:
            return found
    wanted = text.casefold()
    for item in may_refer_to(detail, document):
        if item.named().casefold() == wanted:
            return item.id
    raise CannotUse(
        f"Nothing that “{detail.about.title}” may point to is called {text}."
        " Choose one of the list, or leave the field empty."
    )


def _read_number(detail: Detail, text: str, document: Document) -> float:
    del document
    return float(within(detail.about, read_number(text, detail.about)))


def _read_whole(detail: Detail, text: str, document: Document) -> int:
    del document
    return int(within(detail.about, _whole(text, detail.about)))


def _read_numbers(detail: Detail, text: str, document: Document) -> tuple[float, ...]:
    return tuple(_read_number(detail, t, document) for t in _split(text))


def _read_text(detail: Detail, text: str, document: Document) -> str:
    del detail, document
    return text


_READERS: Mapping[Value, Callable[[Detail, str, Document], Any]] = MappingProxyType(
    {
        Value.NUMBER: _read_number,
        Value.WHOLE: _read_whole,
        Value.NUMBERS: _read_numbers,
        Value.DATE: lambda _, text, __: read_date(text),
        Value.YES_NO: lambda _, text, __: text == ON,
        Value.CHOICE: lambda detail, text, _: _choice(detail, text),
        Value.ITEM: _item,
        Value.TEXT: _read_text,
        Value.LONG_TEXT: _read_text,
    }
)
