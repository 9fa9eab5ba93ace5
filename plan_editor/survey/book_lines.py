"""What is written in a line of a field book, made a line: from a file or from a form alike.

The columns, as ``COLUMNS`` names them:

* ``type``: tie, offset, leg or check; without it the other columns say which it is.
* ``from``, ``to``, ``point``: of a tie the mark and the point (and, with a side, the mark that
  one looks to); of an offset the ends of the base line and the point; of a leg or a check both
  ends.
* ``distance``: as read; of an offset along the base line. ``offset``: square off it, to the
  right; ``side``: right or left of the base line, or of the line from one mark to the other.
* ``bearing``: 75, 75.5, 123°45'30", 123-45-30 or N 35°20' E. ``angle``: clockwise from the back
  sight to the far end; ``back``: the back sight, the start of the leg that came there if not
  given. The first leg of a closed traverse may have both: the angle is that from the last leg.
* ``slope`` in degrees or ``rise``: where the tape was not held level.
* ``sd``: standard deviation of the distance, in metres whatever the book's unit.
* ``code``: what the point is. ``out``: yes keeps the line and does not use it. ``remarks``.

A length is a bare number in the book's unit, or has its unit with it: 7.24, 7.24 m, 23' 4½".
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from typing_extensions import override

from plan_editor.errors import CannotUse
from plan_editor.geometry import bearings, lengths
from plan_editor.survey.book_settings import BookSettings
from plan_editor.survey.field_book import BookLine, Sort, same
from plan_editor.survey.reducing import angle_sd_of, level, sd_of
from plan_editor.survey.taping import usual

COLUMNS = (
    "type",
    "from",
    "to",
    "point",
    "distance",
    "offset",
    "side",
    "bearing",
    "angle",
    "back",
    "slope",
    "rise",
    "sd",
    "code",
    "out",
    "remarks",
)
"""What the columns of a field book are called."""

LONGEST = 500.0
"""No tape reaches farther, in metres."""

LONGEST_LEG = 2000.0
"""A leg may be longer, measured by other means."""

_SORTS = {
    "tie": Sort.TIE,
    "ties": Sort.TIE,
    "t": Sort.TIE,
    "offset": Sort.OFFSET,
    "offsets": Sort.OFFSET,
    "o": Sort.OFFSET,
    "leg": Sort.LEG,
    "traverse": Sort.LEG,
    "l": Sort.LEG,
    "check": Sort.CHECK,
    "c": Sort.CHECK,
}
_SIDES = {"": None, "right": True, "r": True, "left": False, "l": False}
_ANSWERS = {
    **dict.fromkeys(("", "no", "n", "0", "false"), False),
    **dict.fromkeys(("yes", "y", "x", "1", "true", "out"), True),
}
_BARE = re.compile(r"[\d.,\s]+", re.ASCII)
"""A length that has no unit with it."""

_FINE = re.compile(r"\d[^\d.,]+\d|[.,]\d\d", re.ASCII)
"""A bearing that is written to the minute, or to the hundredth of a degree."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a line: which line, which column, and what."""

    line: int
    column: str
    words: str

    @override
    def __str__(self) -> str:
        """Return it as part of a sentence."""
        return f"line {self.line}, {self.column}: {self.words}"


def read_line(
    number: int, texts: Mapping[str, str], settings: BookSettings
) -> BookLine | tuple[Fault, ...]:
    """Return a line of a book, or everything that is wrong with it.

    Args:
        number: its number in the book, from 1.
        texts: by the names of the columns; those that are missing are empty.
        settings: what holds for the whole book.
    """
    read = _Reading(number, texts, settings)
    line = _line(read, number, settings)
    _check(read, line)
    if read.faults:
        return tuple(read.faults)
    return line


@dataclass(slots=True)
class _Reading:
    """Reads the cells of one line and gathers what is wrong with them."""

    number: int
    texts: Mapping[str, str]
    settings: BookSettings
    faults: list[Fault] = field(default_factory=list)

    def text(self, column: str) -> str:
        """Return what stands there."""
        return self.texts.get(column, "").strip()

    def wrong(self, column: str, words: str) -> None:
        """Keep a fault."""
        self.faults.append(Fault(self.number, column, words))

    def name(self, column: str) -> str:
        """Return the name of a point."""
        name = self.text(column)
        if len(name) > 40 or not name.isprintable():
            self.wrong(column, "the name of a point has at most 40 letters, on one line")
            return ""
        return name

    def of(self, column: str, read: Callable[[str], float]) -> float | None:
        """Return a number, or None where there is none."""
        text = self.text(column)
        if not text:
            return None
        try:
            return read(text)
        except ValueError as fault:
            self.wrong(column, str(fault).rstrip("."))
            return None

    def one_of(self, column: str, known: Mapping[str, bool | None]) -> bool | None:
        """Return the answer of a word."""
        text = self.text(column).casefold()
        if text not in known:
            wanted = " or ".join(w for w in known if len(w) > 1 and w.isalpha())
            self.wrong(column, f"“{self.text(column)[:40]}” is neither {wanted}")
        return known.get(text)

    def length(self, text: str) -> float:
        """Return a length in metres; a bare number is in the book's unit."""
        unit = self.settings.unit_m if _BARE.fullmatch(text) else 1.0
        return round(lengths.metres(text) * unit, 6)

    def signed(self, text: str) -> float:
        """Return a length that may be less than nothing."""
        if text[:1] in ("-", "−", "+"):
            return self.length(text[1:].strip()) * (1.0 if text[0] == "+" else -1.0)
        return self.length(text)


def _line(read: _Reading, number: int, settings: BookSettings) -> BookLine:
    aside, right = read.of("offset", read.signed), read.one_of("side", _SIDES)
    sort = _sort(read, aside)
    if sort is Sort.OFFSET:
        aside, right = _aside(read, aside, right=right), None
    start, end, point = (read.name(c) for c in ("from", "to", "point"))
    if sort is Sort.TIE and not point:
        end, point = "", end
    if sort in (Sort.LEG, Sort.CHECK) and not end:
        end, point = point, ""
    bearing, angle = read.of("bearing", bearings.read), read.of("angle", _angle)
    bare = BookLine(
        line=number,
        sort=sort,
        start=start,
        end=end,
        point=point,
        distance=read.of("distance", read.length),
        aside=aside,
        bearing=bearing,
        angle=angle,
        back=read.name("back"),
        slope_deg=read.of("slope", _slope),
        rise=read.of("rise", read.signed),
        right=right,
        sd=read.of("sd", lengths.metres),
        angle_sd=_angle_sd(read, settings),
        compass=settings.compass and bearing is not None,
        left_out=bool(read.one_of("out", _ANSWERS)),
        code=read.name("code"),
        remarks=read.text("remarks"),
    )
    return _with_sds(bare, settings)


def _angle_sd(read: _Reading, settings: BookSettings) -> float | None:
    """Return what the book says, or what is usual where a bearing is written finely."""
    bearing = read.text("bearing")
    if not bearing:
        return settings.angle_sd
    if settings.bearing_sd is None and _FINE.search(bearing):
        return usual().angle_deg
    return settings.bearing_sd


def _with_sds(line: BookLine, settings: BookSettings) -> BookLine:
    sd = sd_of(line, settings.tape)
    return replace(line, sd=sd, angle_sd=angle_sd_of(line) if _is_turned(line) else None)


def _is_turned(line: BookLine) -> bool:
    return line.bearing is not None or line.angle is not None


def _sort(read: _Reading, aside: float | None) -> Sort:
    said = read.text("type").casefold()
    if said in _SORTS:
        return _SORTS[said]
    if said:
        read.wrong("type", f"“{said[:40]}” is none of tie, offset, leg and check")
    if aside is not None:
        return Sort.OFFSET
    if read.text("bearing") or read.text("angle"):
        return Sort.LEG
    return Sort.TIE if read.text("point") else Sort.CHECK


def _aside(read: _Reading, aside: float | None, *, right: bool | None) -> float | None:
    if aside is None:
        read.wrong("offset", "an offset needs its distance from the base line; 0 on the line")
        return None
    if right is not None and aside < 0.0:
        read.wrong("side", "a side and an offset below 0 say the same twice")
    return -aside if right is False else aside


def _angle(text: str) -> float:
    if any(c.isalpha() for c in text):
        raise ValueError(f"“{text}” is not an angle. Write one like 75.5 or 75°30'")
    return bearings.read(text)


def _slope(text: str) -> float:
    sign = -1.0 if text[0] in "-−" else 1.0
    degrees = sign * _angle(text.lstrip("+-− "))
    if abs(degrees) > 60.0:
        raise ValueError("a tape is not held steeper than 60°")
    return degrees


_Wanted = tuple[str, str]
_NEEDS: Mapping[Sort, tuple[_Wanted, ...]] = {
    Sort.TIE: (("from", "start"), ("point", "point"), ("distance", "distance")),
    Sort.OFFSET: (
        ("from", "start"),
        ("to", "end"),
        ("point", "point"),
        ("distance", "distance"),
    ),
    Sort.LEG: (("from", "start"), ("to", "end")),
    Sort.CHECK: (("from", "start"), ("to", "end"), ("distance", "distance")),
}
"""What a line of each sort cannot be without: the column, and the field."""

_SUITS: Mapping[Sort, frozenset[str]] = {
    Sort.TIE: frozenset({"side"}),
    Sort.OFFSET: frozenset({"offset", "side"}),
    Sort.LEG: frozenset({"bearing", "angle", "back"}),
    Sort.CHECK: frozenset(),
}
"""Which of the special columns mean something in a line of each sort."""

_SPECIAL = ("offset", "side", "bearing", "angle", "back")


def _check(read: _Reading, line: BookLine) -> None:
    wrong = {f.column for f in read.faults}
    for column, name in _NEEDS[line.sort]:
        if getattr(line, name) in ("", None) and column not in wrong:
            read.wrong(column, f"{_one(line.sort)} needs it")
    for column in _SPECIAL:
        if read.text(column) and column not in _SUITS[line.sort]:
            read.wrong(column, f"{_one(line.sort)} has none")
    _check_names(read, line)
    _check_range(read, line)
    _check_turned(read, line)
    _check_slope(read, line)


def _one(sort: Sort) -> str:
    return f"{'an' if sort is Sort.OFFSET else 'a'} {sort}"


def _check_names(read: _Reading, line: BookLine) -> None:
    names = [same(n) for n in line.names]
    if len(set(names)) < len(names):
        read.wrong("from", "the same point is named twice")
    if line.right is not None and line.left_out:
        read.wrong("side", "a line that is left out settles no side")


def _check_range(read: _Reading, line: BookLine) -> None:
    longest = LONGEST_LEG if line.sort is Sort.LEG else LONGEST
    # the foot of an offset may be the start of its base line
    lowest = -1.0 if line.sort is Sort.OFFSET else 0.0
    if line.distance is not None and not lowest < line.distance <= longest:
        read.wrong("distance", f"{line.distance:g} m is not over 0 and up to {longest:g} m")
    for column, value in (("offset", line.aside), ("rise", line.rise)):
        if value is not None and abs(value) > 100.0:
            read.wrong(column, f"{value:g} m is more than 100 m")
    if line.sd is not None and not 0.0001 <= line.sd <= 10.0:
        read.wrong("sd", f"{line.sd:g} m is not from 0.0001 to 10 m")


def _check_turned(read: _Reading, line: BookLine) -> None:
    if line.sort is not Sort.LEG:
        return
    if line.distance is None and not (_is_turned(line) or read.faults):
        read.wrong("distance", "a leg needs a distance, a bearing or an angle")
    if line.back and line.angle is None and not read.text("angle"):
        read.wrong("angle", "a back sight needs the angle that was turned from it")


def _check_slope(read: _Reading, line: BookLine) -> None:
    if line.slope_deg is not None and line.rise is not None:
        read.wrong("rise", "a line has a slope or a rise, not both")
    elif line.distance is None:
        if line.slope_deg is not None or line.rise is not None:
            read.wrong("slope" if line.rise is None else "rise", "there is no distance to it")
    elif line.rise is not None and line.distance > 0.0:
        try:
            level(line.distance, None, line.rise)
        except CannotUse as fault:
            read.wrong("rise", str(fault))
