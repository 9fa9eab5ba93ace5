"""What comes of a field book: for the command line and the window, before it is taken in."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

from plan_editor.edits.field_books import Worked, worked_out
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.advice import Advice, advise
from plan_editor.survey.adjustment.observed import Checked, Found, Standing
from plan_editor.survey.books.field_book import BookLine, FieldBook, same
from plan_editor.survey.books.offset_runs import OffsetRun, offset_runs
from plan_editor.survey.books.reducing import Reading, level, reduced

MOST_SAID = 15
"""Of sentences of one sort; what is to be done first stands first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A measurement of a line, and what the adjustment made of it.

    Args:
        reading: the line; names as everywhere on the plan.
        checked: what came out.
        measured: what was measured, level: metres on the ground or degrees.
        of_book: whether it is of the book that is looked at.
    """

    reading: Reading
    checked: Checked
    measured: float
    of_book: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What comes of a field book together with the others of the plan.

    Args:
        book: the field book.
        worked: the adjustment, and what the book adds to the plan.
        points: the points of the book that were looked for, in its order.
        marks: the marks and other things that it measures from.
        lines: every measurement of all books.
        advice: what to measure next.
        runs: runs of offsets, and their areas.
    """

    book: FieldBook
    worked: Worked
    points: tuple[Found, ...]
    marks: tuple[Found, ...]
    lines: tuple[Line, ...]
    advice: tuple[Advice, ...]
    runs: tuple[OffsetRun, ...]

    @property
    def suspects(self) -> tuple[Line, ...]:
        """The lines that are suspected, the first suspected first."""
        told = (line for line in self.lines if line.checked.suspect)
        return tuple(sorted(told, key=lambda line: line.checked.suspect))

    @property
    def unplaced(self) -> tuple[Found, ...]:
        """The points that cannot be put on the plan."""
        return tuple(p for p in self.points if p.east is None)

    @property
    def is_sound(self) -> bool:
        """Whether nothing is suspected, and every point was placed."""
        return not self.suspects and not self.unplaced


def outcome(plan: Plan, book: FieldBook) -> Outcome:
    """Return what comes of a field book.

    Raises:
        EditRefused: the book is empty, or what it says makes no sense.
    """
    worked = worked_out(plan, book)
    survey, answer = worked.survey, worked.adjusted
    names = dict.fromkeys(name for _, name in survey.names)
    found = {p.name: p for p in answer.points}
    told = [found[name] for name in names if name in found]
    observed = reduced(survey.readings)
    return Outcome(
        book=book,
        worked=worked,
        points=tuple(p for p in told if not p.known),
        marks=tuple(p for p in told if p.known),
        lines=tuple(_lines(worked, book)),
        advice=advise(answer, survey.stations, observed) if observed else (),
        runs=offset_runs(book.lines),
    )


def sentences(told: Outcome) -> tuple[str, ...]:
    """Return what whoever takes the book in should know, in plain words."""
    return (
        *_strangers(told),
        *_unsure(told),
        *_some(map(suspicion, told.suspects)),
        *_some(_do_not_meet(told)),
        *_some(map(_not_placed, told.unplaced)),
        *_some(a.text for a in told.advice),
        *told.book.notes,
        *told.worked.new.notes,
        *map(area_in_words, told.runs),
    )


def _some(texts: Iterable[str]) -> Iterator[str]:
    """Return the first sentences of a sort, and how many more there are."""
    told = tuple(texts)
    yield from told[:MOST_SAID]
    if len(told) > MOST_SAID:
        yield f"And {len(told) - MOST_SAID} more of that sort."


def line_in_words(line: BookLine) -> str:
    """Return what a line measured: ``tie M1 to P1``."""
    if line.point and line.end and line.aside is not None:
        return f"{line.sort} {line.point} from the line {line.start} to {line.end}"
    return f"{line.sort} {line.start} to {line.far}"


def unit_of(checked: Checked) -> str:
    """Return the unit of a measurement, to be put behind its number."""
    return "°" if checked.what in ("bearing", "angle") else " m"


def area_in_words(run: OffsetRun) -> str:
    """Return the area of a run of offsets as a sentence."""
    hand = "right" if run.right else "left"
    even = "" if run.simpson is None else f", {run.simpson:.1f} m² by Simpson's rule"
    return (
        f"Between the base line {run.start} to {run.end} and the offsets on its {hand}, lines"
        f" {run.lines[0]} to {run.lines[1]}: {run.trapezoidal:.1f} m² straight between"
        f" offsets{even}."
    )


def _lines(worked: Worked, book: FieldBook) -> Iterator[Line]:
    readings = {r.key: r for r in worked.survey.readings}
    for checked in worked.adjusted.measurements:
        reading = readings[checked.key]
        yield Line(
            reading=reading,
            checked=checked,
            measured=_measured(reading.line, checked.what),
            of_book=same(reading.book) == same(book.name),
        )


def _measured(line: BookLine, what: str) -> float:
    match what:
        case "aside":
            return line.aside or 0.0
        case "bearing":
            return line.bearing or 0.0
        case "angle":
            return line.angle or 0.0
        case _:
            return level(line.distance or 0.0, line.slope_deg, line.rise)


def _strangers(told: Outcome) -> Iterator[str]:
    """Say which names that are only measured from are on nobody's plan."""
    measured = {same(line.far) for line in told.book.lines}
    names = dict(told.worked.survey.names)
    open_ones = {p.name for p in told.unplaced}
    for called, name in names.items():
        if name in open_ones and called not in measured:
            yield (
                f"{name} is neither a mark on the plan nor fixed by the book: put it on the"
                " plan first, or look how the mark is called there."
            )


def _unsure(told: Outcome) -> Iterator[str]:
    unsure = [p.name for p in told.marks if p.name in told.worked.survey.unsure]
    if unsure:
        listed = ", ".join(unsure[:10]) + (" …" if len(unsure) > 10 else "")
        yield (
            f"How well these are known is not recorded, so they were held as exact: {listed}."
            " The points are less well known than is said here."
        )


def suspicion(line: Line) -> str:
    """Return what is wrong with a suspected line, in words."""
    told = line.reading.line
    unit = unit_of(line.checked)
    share = max(line.checked.redundancy, 0.05)
    # the residual holds only so much of the error: what is left of it the points have taken up
    likely = -line.checked.residual / share
    way = "too long" if likely > 0 else "too short"
    if unit == "°":
        way = "too great" if likely > 0 else "too small"
    book = "" if line.of_book else f" of {line.reading.book}"
    return (
        f"Line {told.line}{book}, {line_in_words(told)}: its {line.checked.what},"
        f" {line.measured:.2f}{unit}, seems {abs(likely):.2f}{unit} {way}."
    )


def _do_not_meet(told: Outcome) -> Iterator[str]:
    """Say which pairs of tapes to one point cannot both be right: their circles do not meet."""
    places = {
        p.name: complex(p.east, p.north)
        for p in told.worked.adjusted.points
        if p.east is not None and p.north is not None
    }
    tapes: dict[str, list[Line]] = {p.name: [] for p in told.unplaced}
    for line in told.lines:
        taped = line.reading.line
        if taped.far in tapes and taped.start in places and line.checked.what == "distance":
            tapes[taped.far].append(line)
    for point, lines in tapes.items():
        for one, other in combinations(lines, 2):
            between = abs(places[one.reading.line.start] - places[other.reading.line.start])
            short = between - one.measured - other.measured
            over = abs(one.measured - other.measured) - between
            if max(short, over) > 0.0:
                yield (
                    f"Lines {one.reading.line.line} and {other.reading.line.line}: the tapes to"
                    f" {point} do not meet by {max(short, over):.2f} m. One of them is wrong,"
                    " or one of their marks."
                )


def _not_placed(point: Found) -> str:
    if point.standing is Standing.AMBIGUOUS:
        return (
            f"{point.name} may lie at {len(point.choices)} places: it was not put on the plan."
        )
    return f"{point.name} is not determined: it was not put on the plan."
