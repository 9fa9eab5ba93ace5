"""Dates as people write them in registers, read to an ISO date or a part of one.

A date is kept as the book has it: nothing is turned from one calendar into another.
"""

import re
from dataclasses import dataclass
from datetime import date, timedelta

from plan_editor.plan.values import is_date

FIRST_YEAR = 1538
"""No parish register is older. Source: Thomas Cromwell's injunctions of September 1538."""

LAST_YEAR = 2100
"""Nobody is buried later who is of concern to a plan of today."""

LADY_DAY_UNTIL = 1751
"""The last year that began on 25 March in England and Wales.

Source: Calendar (New Style) Act 1750 (24 Geo. II c. 23), section 1.
"""

DAY_NOUGHT = date(1899, 12, 30)
"""Day 0 of a spreadsheet's count, for days after February 1900.

Source: ISO/IEC 29500-1 18.17.4.1, the 1900 date system with its 29 February 1900.
"""

_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii")
_ABOUT = re.compile(
    r"^(?:(?P<before>bef(?:ore)?|by|not after|ante)|(?P<after>aft(?:er)?|not before|post)"
    r"|(?P<about>ca?|circa|ab(?:ou)?t|approx(?:imately)?|est(?:imated)?|prob(?:ably)?"
    r"|perhaps|maybe))\b\.?\s*",
    re.IGNORECASE,
)
_WEEKDAY = re.compile(
    r"^(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?\b[.,]*\s*"
)
_CLOCK = re.compile(r"[t ]00:00(?::00(?:\.0+)?)?$")
_YEAR = r"(?P<year>\d{4})(?:\s?/\s?(?P<dual>\d{4}|\d{1,2}))?"
_NAME = r"(?P<month>[a-z]+)\.?"
_DAY = r"(?P<day>\d{1,2})(?:st|nd|rd|th)?"
_PLAIN = re.compile(r"(?P<year>\d{4})-(?P<month>\d{1,2})(?:-(?P<day>\d{1,2}))?")
_SPAN = re.compile(r"\d{4} ?- ?(?:1[3-9]|[2-9]\d|\d{4})|(?:bet|from)\w*\b.*")
_FIGURES = re.compile(
    r"(?P<first>\d{1,2})\s?[./-]\s?(?P<second>\d{1,2})\s?[./-]\s?(?P<year>\d{4})"
)
_NO_CENTURY = re.compile(r"\d{1,2}\D.*\D\d{2}")
_NAMED = tuple(
    re.compile(pattern)
    for pattern in (
        rf"(?:the )?{_DAY}(?: day)?(?: of)?[\s./-]*{_NAME}[\s,./-]*{_YEAR}",
        rf"{_NAME}[\s.-]*{_DAY}[\s,.-]+{_YEAR}",
        rf"{_NAME}[\s,./-]*{_YEAR}",
        _YEAR,
    )
)
_SERIAL = re.compile(r"-\d{1,6}(?:\.0+)?|\d{5}(?:\.0+)?")


@dataclass(frozen=True, slots=True)
class WrittenDate:
    """A date as it was read.

    Args:
        iso: a day, a month or a year in ISO 8601; "" where none can be told.
        doubt: what is doubtful about it, as the end of a sentence; "" where nothing is.
        figures: whether day and month are figures that could change places.
    """

    iso: str
    doubt: str = ""
    figures: bool = False


def written_date(text: str) -> WrittenDate:
    """Return a date that was written by a person or a spreadsheet.

    Figures are taken as day, month, year, the English order. Of two years such as 1750/51 the
    second is taken, as counted from 1 January. What says *before*, *after* or *about* keeps its
    date, with that doubt.
    """
    said = " ".join(text.split())
    bare = said.casefold().replace("–", "-").strip(" .,;")
    if not bare:
        return WrittenDate("")
    bare, doubt = _without_doubt(bare)
    bare = _CLOCK.sub("", _WEEKDAY.sub("", bare)).strip(" .,;")
    for read in (_plain, _figures, _named, _serial):
        if (found := read(bare)) is not None:
            return WrittenDate(found.iso, _joined(doubt, found.doubt), found.figures)
    return WrittenDate("", _why_not(bare, said))


def _without_doubt(bare: str) -> tuple[str, str]:
    """Return what is left without words and signs of doubt, and the doubt."""
    doubts = []
    if any(sign in bare for sign in "?[]()~"):
        doubts.append("it is written as uncertain")
        bare = " ".join(re.sub(r"[?\[\]()~]", " ", bare).split())
    if found := _ABOUT.match(bare):
        doubts.append(f"it is written as {found.lastgroup} that date")
        bare = bare[found.end() :]
    return bare, "; ".join(doubts)


def _plain(bare: str) -> WrittenDate | None:
    if _SPAN.fullmatch(bare) or not (found := _PLAIN.fullmatch(bare)):
        return None
    # who writes so counts the year from 1 January
    month, day = int(found["month"]), _whole(found["day"])
    return _checked(int(found["year"]), month, day, from_january=True)


def _figures(bare: str) -> WrittenDate | None:
    if not (found := _FIGURES.fullmatch(bare)):
        return None
    year, first, second = int(found["year"]), int(found["first"]), int(found["second"])
    if second > 12 >= first:
        made = _checked(year, first, second)
        doubt = "the month stands before the day, as in America"
        return WrittenDate(made.iso, _joined(doubt, made.doubt))
    made = _checked(year, second, first)
    return WrittenDate(made.iso, made.doubt, figures=first <= 12 and first != second)


def _named(bare: str) -> WrittenDate | None:
    for pattern in _NAMED:
        if (found := pattern.fullmatch(bare)) is None:
            continue
        told = found.groupdict()
        month = _month(told["month"]) if "month" in told else None
        if month != 0:
            return _with_dual(int(told["year"]), told["dual"], month, _whole(told.get("day")))
    return None


def _with_dual(year: int, dual: str | None, month: int | None, day: int | None) -> WrittenDate:
    if dual is None:
        return _checked(year, month, day)
    if int(dual) != (year + 1) % 10 ** len(dual):
        made = _checked(year, None, None)
        return WrittenDate(made.iso, _joined(f"{year}/{dual} is no pair of years", made.doubt))
    in_pair = month is None or (month, day or 1) < (3, 25)
    made = _checked(year + 1, month, day, from_january=True)
    doubt = f"two years are written; {year + 1}, as counted from 1 January, is taken"
    if year > LADY_DAY_UNTIL or not in_pair:
        doubt = f"two years are written where the year did not begin twice; {year + 1} is taken"
    return WrittenDate(made.iso, _joined(doubt, made.doubt))


def _serial(bare: str) -> WrittenDate | None:
    """Return the day of a spreadsheet's count; numbers of four figures are years."""
    if not _SERIAL.fullmatch(bare):
        return None
    try:
        day = DAY_NOUGHT + timedelta(days=int(float(bare)))
    except OverflowError:
        return None
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        return None
    return WrittenDate(day.isoformat(), "it is a spreadsheet's count of days, not a date")


def _checked(
    year: int, month: int | None, day: int | None, *, from_january: bool = False
) -> WrittenDate:
    """Return as much of a date as there is in the calendar, and what is odd about it."""
    if not FIRST_YEAR <= year <= LAST_YEAR:
        return WrittenDate("", f"the year {year} can be that of no burial here")
    if month is None:
        return WrittenDate(f"{year:04d}")
    whole = f"{year:04d}-{month:02d}"
    if not is_date(whole):
        return WrittenDate(f"{year:04d}", f"there is no month {month}")
    if day is None:
        return WrittenDate(whole)
    if not is_date(f"{whole}-{day:02d}"):
        return WrittenDate(whole, f"there is no {day} {_MONTHS[month - 1].title()} {year}")
    return WrittenDate(
        f"{whole}-{day:02d}", _old_style(year, month, day, from_january=from_january)
    )


def _old_style(year: int, month: int, day: int, *, from_january: bool) -> str:
    if (year, month) == (1752, 9) and 3 <= day <= 13:
        return "3 to 13 September 1752 were left out of the calendar"
    if year <= LADY_DAY_UNTIL and (month, day) < (3, 25) and not from_january:
        return (
            "the year began on 25 March then: it may be the next year as counted from 1 January"
        )
    return ""


def _why_not(bare: str, said: str) -> str:
    short = said if len(said) <= 40 else f"{said[:39]}…"
    if re.fullmatch(r"\d{3}0'?s", bare):
        return f"“{short}” is ten years, not one"
    if _SPAN.fullmatch(bare):
        return f"“{short}” is a span, not a date"
    if _NO_CENTURY.fullmatch(bare):
        return f"“{short}” does not say which century"
    return f"“{short}” cannot be read as a date"


def _month(name: str) -> int:
    """Return the month of that name, from 1; 0 for none."""
    if name in _ROMAN:
        return _ROMAN.index(name) + 1
    if len(name) < 3:
        return 0
    alike = (n for n, month in enumerate(_MONTHS, 1) if month.startswith(name))
    return next(alike, 0)


def _whole(text: str | None) -> int | None:
    return None if text is None else int(text)


def _joined(*doubts: str) -> str:
    return "; ".join(d for d in doubts if d)
