"""Whether a line of a field book says enough, and nothing absurd."""

from collections.abc import Mapping

from plan_editor.errors import CannotUse
from plan_editor.survey.books.book_cells import Cells
from plan_editor.survey.books.field_book import BookLine, Sort, same
from plan_editor.survey.books.reducing import level

LONGEST = 500.0
"""No tape reaches farther, in metres."""

LONGEST_LEG = 2000.0
"""A leg may be longer, measured by other means."""

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


def check(read: Cells, line: BookLine) -> None:
    """Gather what is wrong with a line as a whole."""
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


def _check_names(read: Cells, line: BookLine) -> None:
    names = [same(n) for n in line.names]
    if len(set(names)) < len(names):
        read.wrong("from", "the same point is named twice")


def _check_range(read: Cells, line: BookLine) -> None:
    longest = LONGEST_LEG if line.sort is Sort.LEG else LONGEST
    # the foot of an offset may be the start of its base line
    lowest = -1.0 if line.sort is Sort.OFFSET else 0.0
    if line.distance is not None and not lowest < line.distance <= longest:
        read.wrong("distance", f"{line.distance:g} m is not over 0 and up to {longest:g} m")
    for column, value in (("offset", line.aside), ("rise", line.rise)):
        if value is not None and abs(value) > 100.0:
            read.wrong(column, f"{value:g} m is more than 100 m")
    # where the book states none it follows from the distance, of which all is said above
    if line.sd is not None and read.text("sd") and not 0.0001 <= line.sd <= 10.0:
        read.wrong("sd", f"{line.sd:g} m is not from 0.0001 to 10 m")


def _check_turned(read: Cells, line: BookLine) -> None:
    if line.sort is not Sort.LEG:
        return
    if line.distance is None and not (line.is_turned or read.faults):
        read.wrong("distance", "a leg needs a distance, a bearing or an angle")
    if line.back and line.angle is None and not read.text("angle"):
        read.wrong("angle", "a back sight needs the angle that was turned from it")


def _check_slope(read: Cells, line: BookLine) -> None:
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
