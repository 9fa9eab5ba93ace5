"""A traverse by itself, from a field book: no plan is needed."""

from dataclasses import dataclass
from itertools import pairwise

from plan_editor.errors import CannotUse
from plan_editor.geometry.bearings import bearing
from plan_editor.survey.adjustment.advice import Advice, advise
from plan_editor.survey.adjustment.network import adjust
from plan_editor.survey.adjustment.observed import Adjusted, Station
from plan_editor.survey.adjustment.traverse import Leg, Point, Sights, Traverse, bowditch
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same
from plan_editor.survey.books.offset_runs import OffsetRun, offset_runs
from plan_editor.survey.books.reducing import Reading, hands, level, reduced

BEGINS_AT = (1000.0, 1000.0)
"""East and north of the start where the book gives no place, so that none is below 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Walked:
    """A traverse, worked out.

    Args:
        book: the field book.
        legs: its lines, in the order in which they were walked.
        start: where it starts.
        given: whether the book gives that place.
        traverse: by Bowditch's rule.
        adjusted: by least squares, of everything in the book.
        advice: what to measure next, by the same.
        runs: runs of offsets, and their areas.
        notes: what was taken for granted.
    """

    book: FieldBook
    legs: tuple[BookLine, ...]
    start: Point
    given: bool
    traverse: Traverse
    adjusted: Adjusted
    advice: tuple[Advice, ...]
    runs: tuple[OffsetRun, ...]
    notes: tuple[str, ...]

    @property
    def measured(self) -> tuple[Leg, ...]:
        """The legs as they were measured, level."""
        return tuple(map(leg_of, self.legs))

    @property
    def is_closed(self) -> bool:
        """Whether it comes back to its start."""
        return same(self.legs[-1].end) == same(self.legs[0].start)


def walked(book: FieldBook) -> Walked:
    """Return the traverse of a field book.

    It starts at the first leg's start, whose place the book may give (``mark A 1000 1000``),
    and ends there again or at another mark that the book gives. A last line with an angle and
    without a distance is the sight to a mark at the end.

    Raises:
        CannotUse: there are no legs, or they do not follow one another, or it ends nowhere.
    """
    legs, sight = _legs(book)
    marks = {same(m.name): m for m in book.marks}
    start = _start(legs[0].start, marks)
    end = None if same(legs[-1].end) == same(legs[0].start) else _end(legs[-1].end, marks)
    traverse = bowditch(
        start,
        [leg_of(line) for line in legs],
        end=end,
        sights=_sights(legs[0], sight, marks),
    )
    stations = _stations(book, start)
    # what a compass is off by shows between known points only
    swing = book.name if len(stations) > 1 else ""
    readings = [
        Reading(key=f"line {x.line}", book=book.name, line=x, swing=swing)
        for x in book.lines
        if not x.left_out
    ]
    observed = reduced(readings)
    answer = adjust(stations, observed, hands=hands(readings))
    return Walked(
        book=book,
        legs=legs,
        start=start,
        given=same(start.name) in marks,
        traverse=traverse,
        adjusted=answer,
        advice=advise(answer, stations, observed),
        runs=offset_runs(book.lines),
        notes=(*book.notes, *_left_aside(book)),
    )


def _legs(book: FieldBook) -> tuple[tuple[BookLine, ...], BookLine | None]:
    lines = [x for x in book.lines if x.sort is Sort.LEG and not x.left_out]
    sight = lines.pop() if lines and lines[-1].distance is None else None
    if not lines:
        raise CannotUse("The book holds no legs of a traverse. Nothing was worked out.")
    for last, line in pairwise(lines):
        if same(line.start) != same(last.end):
            raise CannotUse(
                f"Line {line.line}: the leg starts at {line.start}, and the one before it ends"
                f" at {last.end}. Nothing was worked out. Write the legs in the order in which"
                " they were walked."
            )
    if bare := next((x for x in lines if x.distance is None), None):
        raise CannotUse(
            f"Line {bare.line}: the leg to {bare.end} has no distance. Nothing was worked out."
        )
    return tuple(lines), sight


def leg_of(line: BookLine) -> Leg:
    """Return a leg as it was measured, level."""
    return Leg(
        end=line.end,
        metres=level(line.distance or 0.0, line.slope_deg, line.rise),
        bearing_deg=line.bearing,
        angle_deg=line.angle,
    )


def _start(name: str, marks: dict[str, Station]) -> Point:
    mark = marks.get(same(name))
    east, north = BEGINS_AT if mark is None else (mark.east, mark.north)
    return Point(name=name, east=east, north=north)


def _end(name: str, marks: dict[str, Station]) -> Point:
    mark = marks.get(same(name))
    if mark is None:
        raise CannotUse(
            f"The traverse ends at {name}, which is neither its start nor a mark whose place"
            " the book gives. Nothing was worked out. Write its place over the table:"
            f" mark {name} 1000 1000."
        )
    return Point(name=name, east=mark.east, north=mark.north)


def _sights(first: BookLine, sight: BookLine | None, marks: dict[str, Station]) -> Sights:
    back = _bearing(first.start, first.back, marks) if first.bearing is None else None
    fore = None if sight is None else _bearing(sight.start, sight.end, marks)
    return Sights(
        back_deg=back, angle_deg=None if sight is None else sight.angle, fore_deg=fore
    )


def _bearing(start: str, end: str, marks: dict[str, Station]) -> float | None:
    one, other = marks.get(same(start)), marks.get(same(end))
    if one is None or other is None or (one.east, one.north) == (other.east, other.north):
        return None
    return bearing(other.east - one.east, other.north - one.north)


def _stations(book: FieldBook, start: Point) -> list[Station]:
    named = {same(m.name) for m in book.marks}
    own = [] if same(start.name) in named else [_station(start)]
    used = {same(n): n for x in book.lines for n in x.names}
    return [
        *own,
        *(
            Station(name=used[same(m.name)], east=m.east, north=m.north, sd=m.sd)
            for m in book.marks
            if same(m.name) in used
        ),
    ]


def _station(point: Point) -> Station:
    return Station(name=point.name, east=point.east, north=point.north)


def _left_aside(book: FieldBook) -> list[str]:
    others = [x for x in book.lines if x.sort is not Sort.LEG and not x.left_out]
    if not others:
        return []
    return [
        f"{len(others)} lines are no legs: they count in the adjustment by least squares only."
    ]
