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
from collections.abc import Mapping
from dataclasses import replace

from plan_editor.geometry import bearings, lengths
from plan_editor.survey.adjustment.taping import usual
from plan_editor.survey.books.book_cells import Cells, Fault
from plan_editor.survey.books.book_checks import check
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import BookLine, Sort
from plan_editor.survey.books.reducing import angle_sd_of, sd_of

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
_FINE = re.compile(r"\d[^\d.,]+\d|[.,]\d\d", re.ASCII)
"""A bearing that is written to the minute, or to the hundredth of a degree."""


def read_line(
    number: int, texts: Mapping[str, str], settings: BookSettings
) -> BookLine | tuple[Fault, ...]:
    """Return a line of a book, or everything that is wrong with it.

    Args:
        number: its number in the book, from 1.
        texts: by the names of the columns; those that are missing are empty.
        settings: what holds for the whole book.
    """
    read = Cells(number, texts, settings)
    line = _line(read, number, settings)
    check(read, line)
    if read.faults:
        return tuple(read.faults)
    return line


def _line(read: Cells, number: int, settings: BookSettings) -> BookLine:
    aside, right = read.of("offset", read.signed), read.one_of("side", _SIDES, "right nor left")
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
        left_out=bool(read.one_of("out", _ANSWERS, "yes nor no")),
        code=read.name("code"),
        remarks=read.text("remarks"),
    )
    return _with_sds(bare, settings)


def _angle_sd(read: Cells, settings: BookSettings) -> float | None:
    """Return what the book says, or what is usual where a bearing is written finely."""
    bearing = read.text("bearing")
    if not bearing:
        return settings.angle_sd
    if settings.bearing_sd is None and _FINE.search(bearing):
        return usual().angle_deg
    return settings.bearing_sd


def _with_sds(line: BookLine, settings: BookSettings) -> BookLine:
    sd = sd_of(line, settings.tape)
    return replace(line, sd=sd, angle_sd=angle_sd_of(line) if line.is_turned else None)


def _sort(read: Cells, aside: float | None) -> Sort:
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


def _aside(read: Cells, aside: float | None, *, right: bool | None) -> float | None:
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
