"""Whether a value is one that a detail may hold."""

import re
from collections.abc import Callable, Mapping
from datetime import date
from enum import StrEnum
from math import isfinite
from typing import Any

from plan_editor.plan.detail import Detail, Value

_DATE = re.compile(r"\d{4}(-\d{2}){0,2}", re.ASCII)


def fault_of_value(detail: Detail, value: Any) -> str:
    """Return what is wrong with a value, as the end of a sentence, or ""."""
    if value is None and detail.optional:
        return ""
    if not _FITS[detail.value](value, detail):
        return f"has “{detail.about.title}” {_said(value)}; wanted is {_WANTED[detail.value]}"
    match detail.value:
        case Value.NUMBER | Value.WHOLE:
            return _out_of_range(detail, value)
        case Value.NUMBERS:
            faults = (f for n in value if (f := _out_of_range(detail, n)))
            return _out_of_count(detail, len(value)) or next(faults, "")
        case _:
            return ""


def own_choice(detail: Detail, value: Any) -> Any:
    """Return a choice of another kind as the detail's own that is spelled alike.

    Whatever is no choice, or is spelled as none of its own, is returned as it is.
    """
    if detail.value is not Value.CHOICE or not isinstance(value, StrEnum):
        return value
    return next((own for own in detail.choices if own == value), value)


def is_text(value: Any) -> bool:
    """Return whether a value is a text that a file can hold."""
    if not isinstance(value, str) or "\0" in value:
        return False
    try:
        value.encode()
    except UnicodeEncodeError:
        return False
    return True


def is_number(value: Any) -> bool:
    """Return whether a value is a finite number."""
    return isinstance(value, (int, float)) and not isinstance(value, bool) and isfinite(value)


def is_date(value: Any) -> bool:
    """Return whether a value is empty, a day, a month or a year: ``1911-04-16``, ``1911``."""
    if value == "":
        return True
    if not isinstance(value, str) or not _DATE.fullmatch(value):
        return False
    try:
        date.fromisoformat(value + "-01" * ((10 - len(value)) // 3))
    except ValueError:
        return False
    return True


def _is_whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) < 2**63


_FITS: Mapping[Value, Callable[[Any, Detail], bool]] = {
    Value.TEXT: lambda v, _: is_text(v),
    Value.LONG_TEXT: lambda v, _: is_text(v),
    Value.DATE: lambda v, _: is_date(v),
    Value.NUMBER: lambda v, _: is_number(v),
    Value.WHOLE: lambda v, _: _is_whole(v),
    Value.YES_NO: lambda v, _: isinstance(v, bool),
    Value.CHOICE: lambda v, d: isinstance(v, type(d.choices[0])),
    Value.ITEM: lambda v, _: is_text(v) and v != "",
    Value.NUMBERS: lambda v, _: isinstance(v, tuple) and all(map(is_number, v)),
}

_WANTED: Mapping[Value, str] = {
    Value.TEXT: "a text",
    Value.LONG_TEXT: "a text",
    Value.DATE: "a date such as 1911-04-16, 1911-04 or 1911",
    Value.NUMBER: "a number",
    Value.WHOLE: "a whole number",
    Value.YES_NO: "yes or no",
    Value.CHOICE: "one of its choices",
    Value.ITEM: "something on the plan",
    Value.NUMBERS: "numbers",
}


def _out_of_count(detail: Detail, count: int) -> str:
    told = detail.about
    if count % told.group:
        return f"has {count} numbers as “{told.title}”; they come {told.group} at a time"
    if told.most and count > told.most:
        return f"has {count} numbers as “{told.title}”; the most is {told.most}"
    return ""


def _out_of_range(detail: Detail, number: float) -> str:
    told = detail.about
    unit = f" {told.unit}" if told.unit else ""
    if told.low is not None and number < told.low:
        return f"has “{told.title}” {number:g}{unit}; the least is {told.low:g}{unit}"
    if told.high is not None and number > told.high:
        return f"has “{told.title}” {number:g}{unit}; the most is {told.high:g}{unit}"
    return ""


def _said(value: Any) -> str:
    return "empty" if value in ("", None) else f"“{value}”"
