"""A field book while it is written: lines added, changed and left out, one at a time."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from plan_editor.errors import CannotUse
from plan_editor.ground.kept_books import KeptBook, kept_books
from plan_editor.ground.marks import marks
from plan_editor.plan.plan import Plan
from plan_editor.plan.values import is_date
from plan_editor.survey.books.book_cells import Fault
from plan_editor.survey.books.book_lines import read_line
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same
from plan_editor.survey.books.whole_book import settled


@dataclass(frozen=True, slots=True)
class Cell:
    """A field of the form for one line: its column, what it is called, an example."""

    column: str
    title: str
    example: str = ""


FROM = Cell("from", "From", "M1")
POINT = Cell("point", "Point", "P1")
DISTANCE = Cell("distance", "Distance", "12.40 or 40' 8\"")
_SIDE = Cell("side", "Side")

CELLS: Mapping[Sort, tuple[Cell, ...]] = {
    Sort.TIE: (FROM, POINT, DISTANCE, Cell("to", "Looking to", "M2"), _SIDE),
    Sort.OFFSET: (
        FROM,
        Cell("to", "To", "M2"),
        POINT,
        Cell("distance", "Along", "4.50"),
        Cell("offset", "Offset", "1.25"),
        _SIDE,
    ),
    Sort.LEG: (
        FROM,
        Cell("to", "To", "A"),
        DISTANCE,
        Cell("bearing", "Bearing", "123°45'"),
        Cell("angle", "Angle", "87°30'"),
        Cell("back", "Back sight", "M2"),
    ),
    Sort.CHECK: (FROM, Cell("to", "To", "P2"), DISTANCE),
}
"""What a line of each sort is asked for, in the order in which one writes it."""

MORE = (
    Cell("rise", "Rise", "0.80"),
    Cell("sd", "± m", "0.02"),
    Cell("code", "What it is", "TREE oak"),
    Cell("remarks", "Remarks"),
)
"""What any line may say besides."""

MEANS: Mapping[Sort, str] = {
    Sort.TIE: "A tape from a mark to a point. Two fix it but for the side, a third checks it.",
    Sort.OFFSET: "How far along the line between two marks, and how far square off it.",
    Sort.LEG: "One leg of a traverse: bearing or angle, and distance.",
    Sort.CHECK: "A tape between two points that are fixed otherwise.",
}


def books_of(plan: Plan) -> tuple[KeptBook, ...]:
    """Return the field books on a plan, the first taken in first."""
    return kept_books(plan)


def new_book(plan: Plan, on: str) -> FieldBook:
    """Return an empty field book with a name that none on the plan has, of a day."""
    taken = {same(b.name) for b in kept_books(plan)}
    name = f"Field book {on[:4]}"
    more = (f"{name}-{n}" for n in range(2, len(taken) + 3))
    return FieldBook(name=next(n for n in (name, *more) if same(n) not in taken), date=on)


def renamed(book: FieldBook, *, name: str, date: str, observer: str) -> FieldBook:
    """Return a book with another name, day and observer.

    Raises:
        CannotUse: it has no name, or the day is none.
    """
    plain = " ".join(name.split())
    if not plain:
        raise CannotUse("A field book needs a name, so that it can be found again.")
    if not is_date(date.strip()):
        raise CannotUse(f"“{date.strip()}” is no date. Write 2026-05-16, 2026-05 or 2026.")
    observer = " ".join(observer.split())
    return replace(book, name=plain, date=date.strip(), observer=observer)


def written(
    book: FieldBook, texts: Mapping[str, str], at: int | None, settings: BookSettings
) -> FieldBook | tuple[Fault, ...]:
    """Return a book with one more line or another in place of one, or all that is wrong in it.

    Args:
        book: as it is.
        texts: what was written, by column.
        at: the place of the line that it replaces, from 0; None for a new one.
        settings: what holds for the whole book: unit and tape.

    Raises:
        CannotUse: the line makes no sense with the others of the book.
    """
    number = _next_number(book) if at is None else book.lines[at].line
    if at is not None and (known := book.lines[at].angle_sd) is not None:
        settings = replace(settings, bearing_sd=known, angle_sd=known)
    read = read_line(number, texts, settings)
    if isinstance(read, tuple):
        return read
    start = len(book.lines) if at is None else at
    return _settled(book, (*book.lines[:start], read, *book.lines[start + 1 :]))


def faults_in_words(faults: Sequence[Fault]) -> str:
    """Return what is wrong with one line as a sentence, each field by its name."""
    said = "; ".join(f"{f.column}: {f.words}" for f in faults)
    return f"{said[0].upper()}{said[1:]}."


def without(book: FieldBook, at: int) -> FieldBook:
    """Return a book without one of its lines; the others keep their numbers."""
    return replace(book, lines=(*book.lines[:at], *book.lines[at + 1 :]), notes=())


def used(book: FieldBook, at: int, *, use: bool) -> FieldBook:
    """Return a book with a line used in the sums, or kept and left out."""
    return _with(book, at, replace(book.lines[at], left_out=not use))


def sided(book: FieldBook, point: str, *, right: bool) -> FieldBook:
    """Return a book that says on which hand of its first two marks a point lies.

    It stands in the first tie of the point: seen from its mark, looking to the mark of the
    second.
    """
    first, second = _two_ties(book, point)
    line = replace(book.lines[first], end=book.lines[second].start, right=right)
    return _with(book, first, line)


def base_of(book: FieldBook, point: str) -> tuple[str, str] | None:
    """Return the marks of the first two ties of a point; None where there are not two."""
    try:
        first, second = _two_ties(book, point)
    except StopIteration:
        return None
    return book.lines[first].start, book.lines[second].start


def suggested(plan: Plan, book: FieldBook) -> tuple[str, ...]:
    """Return names that may be measured from: marks of the plan, points of the book."""
    numbers = (m.number for m in marks(plan) if m.number)
    named = (name for line in book.lines for name in line.names)
    return tuple(dict.fromkeys((*numbers, *named)))


def _two_ties(book: FieldBook, point: str) -> tuple[int, int]:
    ties = (
        n
        for n, line in enumerate(book.lines)
        if line.sort is Sort.TIE and same(line.point) == same(point) and not line.left_out
    )
    first = next(ties)
    start = same(book.lines[first].start)
    return first, next(n for n in ties if same(book.lines[n].start) != start)


def _with(book: FieldBook, at: int, line: BookLine) -> FieldBook:
    return replace(book, lines=(*book.lines[:at], line, *book.lines[at + 1 :]), notes=())


def _next_number(book: FieldBook) -> int:
    return 1 + max((line.line for line in book.lines), default=0)


def _settled(book: FieldBook, lines: tuple[BookLine, ...]) -> FieldBook:
    try:
        return settled(replace(book, lines=lines, notes=()))
    except CannotUse as fault:
        said = str(fault)
        raise CannotUse(f"{said[0].upper()}{said[1:]}.") from fault
