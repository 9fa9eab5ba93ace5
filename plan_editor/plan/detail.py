"""What is to be known of one detail of a kind: its title, unit, range, and sort of value."""

import types
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Union, get_args, get_origin

EVERYTHING = ("*",)
"""Names every kind that there is, of whatever sort: said of what a reference may point to."""

BURIAL_PLACES = ("+",)
"""Names every kind of space for burials, beside others or alone: see ``Kind.holds_burials``."""


class Value(StrEnum):
    """What sort of value a detail holds."""

    TEXT = "text"
    LONG_TEXT = "long text"
    NUMBER = "number"
    WHOLE = "whole number"
    YES_NO = "yes or no"
    DATE = "date"
    CHOICE = "choice"
    ITEM = "item"
    NUMBERS = "numbers"


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What is to be known of one detail.

    Args:
        title: the label of its field, column and form entry.
        unit: unit of its number, such as ``"mm"``; empty for none.
        low, high: the least and greatest sensible number, inclusive.
        help: one sentence for the person who fills it in.
        schedule: whether it has a column in printed schedules.
        refers_to: names of the kinds that a reference may point to; ``EVERYTHING`` for all,
            ``BURIAL_PLACES`` among them for all spaces for burials.
        date: the text is an ISO date, which may stop after the year or the month.
        planned: the date is one that is wished, set or reckoned beforehand: nothing need have
            happened on it.
        long: the text may run over several lines.
        private: it concerns a living person, and stays out of prints and exports unless asked
            for.
        group: numbers come so many at a time.
        most: how many numbers there may be; 0 for any number of them.
        made: the program works it out or fetches it; forms have no field for it.
    """

    title: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    help: str = ""
    schedule: bool = False
    refers_to: tuple[str, ...] = ()
    date: bool = False
    planned: bool = False
    long: bool = False
    private: bool = False
    group: int = 1
    most: int = 0
    made: bool = False


def about(title: str, **rest: Any) -> Mapping[str, About]:
    """Return the metadata of a detail; see ``About`` for what may be said."""
    return {"about": About(title=title, **rest)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """One field of a kind's details, as every reader of declarations sees it.

    Args:
        name: the field's name, used for columns in files.
        value: what sort of value it holds.
        default: what an old file that lacks it is given.
        optional: whether None stands for *not recorded*.
        choices: the members, where it is a choice.
        about: title, unit, range, help.
    """

    name: str
    value: Value
    default: Any
    optional: bool
    choices: tuple[StrEnum, ...]
    about: About


def detail_of(name: str, hint: Any, default: Any, told: About) -> Detail:
    """Return a field of a kind's details, from its type hint, default and metadata."""
    optional = get_origin(hint) in (Union, types.UnionType)
    plain = next(a for a in get_args(hint) if a is not type(None)) if optional else hint
    return Detail(
        name=name,
        value=_value(plain, told),
        default=default,
        optional=optional,
        choices=tuple(plain) if isinstance(plain, type) and issubclass(plain, StrEnum) else (),
        about=told,
    )


def _value(hint: Any, told: About) -> Value:
    if get_origin(hint) is tuple:
        return Value.NUMBERS
    if told.refers_to:
        return Value.ITEM
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return Value.CHOICE
    if hint is str:
        return Value.DATE if told.date else Value.LONG_TEXT if told.long else Value.TEXT
    return {bool: Value.YES_NO, int: Value.WHOLE, float: Value.NUMBER}[hint]
