"""What holds for a whole field book: unit, date, observer, tape, and how bearings were read.

In a file each is a line over the table: ``unit feet``, ``date 2025-09-06``, ``tape steel``.
The places of marks are in the book's unit; standard deviations are in metres and degrees
whatever the unit.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from math import isfinite

from plan_editor.errors import CannotUse
from plan_editor.geometry.lengths import FOOT, METRIC
from plan_editor.survey.adjustment.observed import Station
from plan_editor.survey.adjustment.taping import Tape, usual

UNITS = {
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1.0),
    **dict.fromkeys(("ft", "foot", "feet", "'"), FOOT),
    **{name: METRIC[name] for name in ("cm", "mm")},
}
"""Metres to each unit that bare numbers may be in."""

EXAMPLES = (
    "unit feet",
    "book: Field book 2025",
    "date 2025-09-06",
    "observer J. Churchwarden",
    "tape steel",
    "tape sd 0.01",
    "bearing sd 0.5",
    "angle sd 0.02",
    "bearings compass",
    "mark A 1000 1000",
)
"""Every setting, as it may be written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BookSettings:
    """What holds for every line of a book.

    Args:
        name: what the book is called.
        date: ISO date, may stop after the year or the month.
        observer: who measured.
        unit_m: metres to the unit of bare numbers.
        tape: whose precision is taken where a line states none.
        bearing_sd, angle_sd: in degrees; None for the usual ones.
        compass: whether bearings are those of a compass, all off by one unknown angle.
        marks: places that the book gives itself, for a traverse worked out alone; metres.
    """

    name: str = ""
    date: str = ""
    observer: str = ""
    unit_m: float = 1.0
    tape: Tape = field(default_factory=lambda: usual().tape)
    bearing_sd: float | None = None
    angle_sd: float | None = None
    compass: bool = False
    marks: tuple[Station, ...] = ()


def with_setting(settings: BookSettings, text: str) -> BookSettings | None:
    """Return the settings with one more, or None where the text is no setting.

    Raises:
        CannotUse: it is one, but what it says makes no sense; the text says what can be said.
    """
    plain = " ".join(text.lstrip("# ").split())
    for form, taken in _SETTINGS:
        if (found := form.fullmatch(plain)) is not None:
            return taken(settings, found)
    return None


def looks_like_setting(text: str) -> bool:
    """Return whether a remark may have been meant as a setting, wrongly written."""
    words = text.lstrip("# ").replace(":", " ").replace("=", " ").casefold().split()
    return 1 < len(words) <= 4 and words[0] in _FIRST_WORDS


Taken = Callable[[BookSettings, re.Match[str]], BookSettings | None]


def _unit(settings: BookSettings, found: re.Match[str]) -> BookSettings:
    unit = found["value"].casefold()
    if unit not in UNITS:
        raise CannotUse(f"“{found['value']}” is no unit here. There are metres, feet, cm, mm")
    return replace(settings, unit_m=UNITS[unit])


def _date(settings: BookSettings, found: re.Match[str]) -> BookSettings:
    if not _is_date(found["value"]):
        raise CannotUse(f"“{found['value']}” is no date. Write it as 2025-09-06")
    return replace(settings, date=found["value"])


def _is_date(said: str) -> bool:
    if not re.fullmatch(r"\d{4}(-\d{2}){0,2}", said, re.ASCII):
        return False
    try:
        date.fromisoformat(said + "-01" * ((10 - len(said)) // 3))
    except ValueError:
        return False
    return True


def _tape(settings: BookSettings, found: re.Match[str]) -> BookSettings | None:
    tape = usual().named(found["value"])
    # “Tape survey” is a title, not a tape
    return None if tape is None else replace(settings, tape=tape)


def _tape_sd(settings: BookSettings, found: re.Match[str]) -> BookSettings:
    sd = _sd(found["value"])
    own = Tape(
        name="own", title="as the book says", reading_m=sd, per_metre=0.0, source="the book"
    )
    return replace(settings, tape=own)


def _sd(said: str) -> float:
    value = _number(said)
    if not 0.0001 <= value <= 10.0:
        raise CannotUse(f"“{said}” is no standard deviation. Write one such as 0.01")
    return value


def _compass(settings: BookSettings, found: re.Match[str]) -> BookSettings:
    said = found["value"].casefold()
    if said not in ("compass", "grid"):
        raise CannotUse(f"“{found['value']}” says nothing of bearings. Write compass or grid")
    return replace(settings, compass=said == "compass")


def _mark(settings: BookSettings, found: re.Match[str]) -> BookSettings:
    east, north = (_number(found[n]) * settings.unit_m for n in ("east", "north"))
    sd = _number(found["sd"]) if found["sd"] else 0.0
    mark = Station(name=found["name"], east=east, north=north, sd=sd)
    if max(abs(east), abs(north)) > 1e8 or not 0.0 <= sd <= 10.0:
        raise CannotUse(f"mark {mark.name} has a place that is none. Write mark A 1000 1000")
    return replace(settings, marks=(*settings.marks, mark))


def _number(said: str) -> float:
    try:
        value = float(said)
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise CannotUse(f"“{said}” is not a number")
    return value


def _form(words: str, value: str = r"(?P<value>.+)") -> re.Pattern[str]:
    return re.compile(rf"{words}\s*[:=]?\s+{value}", re.IGNORECASE | re.ASCII)


_DIGITS = r"[-+.\d]+"
_SETTINGS: tuple[tuple[re.Pattern[str], Taken], ...] = (
    (_form("units?", r"(?P<value>\S+)"), _unit),
    (_form("date", r"(?P<value>\S+)"), _date),
    (
        _form("(?:observer|measured by)"),
        lambda settings, found: replace(settings, observer=found["value"]),
    ),
    (
        # “Field book of 2025” is a title: a name stands after a colon
        re.compile(r"(?:field )?book\s*[:=]\s*(?P<value>\S.{0,59})", re.IGNORECASE),
        lambda settings, found: replace(settings, name=found["value"]),
    ),
    (_form("tape sd", r"(?P<value>\S+)"), _tape_sd),
    (_form("tape", r"(?P<value>\S+)"), _tape),
    (
        _form("bearing sd", r"(?P<value>\S+)"),
        lambda settings, found: replace(settings, bearing_sd=_sd(found["value"])),
    ),
    (
        _form("angle sd", r"(?P<value>\S+)"),
        lambda settings, found: replace(settings, angle_sd=_sd(found["value"])),
    ),
    (_form("bearings", r"(?P<value>\S+)"), _compass),
    (
        _form(
            "mark",
            rf"(?P<name>\S.{{0,40}}?)\s+(?P<east>{_DIGITS})\s+(?P<north>{_DIGITS})"
            rf"(?:\s+(?P<sd>{_DIGITS}))?",
        ),
        _mark,
    ),
)

_FIRST_WORDS = frozenset(example.replace(":", "").split()[0] for example in EXAMPLES)
