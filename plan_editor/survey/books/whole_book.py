"""All lines of a field book together: what one leaves to its neighbours, and what is odd."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from plan_editor.errors import CannotUse
from plan_editor.survey.books.book_cells import Fault
from plan_editor.survey.books.book_lines import read_line
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same

MOST_LINES = 20_000
"""A longer field book is none."""

_TOLD = 10  # faults


def whole_book(
    rows: Sequence[tuple[int, Mapping[str, str]]],
    settings: BookSettings,
    notes: Sequence[str] = (),
) -> FieldBook:
    """Return a field book from what is written in its lines.

    Args:
        rows: number and texts of each line; see ``book_lines.read_line``.
        settings: what holds for all of them; the name of the book among them.
        notes: what was taken for granted before.

    Raises:
        CannotUse: lines that make no sense, all of them told together, the first ten in full.
    """
    if not rows:
        raise CannotUse("there is no line below the header")
    if len(rows) > MOST_LINES:
        raise CannotUse(f"there are more than {MOST_LINES:,} lines")
    read = [read_line(number, texts, settings) for number, texts in rows]
    faults = [f for one in read if isinstance(one, tuple) for f in one]
    lines = [one for one in read if isinstance(one, BookLine)]
    book = FieldBook(
        name=settings.name,
        date=settings.date,
        observer=settings.observer,
        lines=tuple(lines),
        marks=settings.marks,
        notes=tuple(notes),
    )
    return settled(book, faults)


def settled(book: FieldBook, faults: Sequence[Fault] = ()) -> FieldBook:
    """Return a book with every point spelt in one way, and a back sight at every angle.

    Args:
        book: lines that were read one by one.
        faults: what was found wrong before.

    Raises:
        CannotUse: lines that make no sense, all of them told together, the first ten in full.
    """
    lines, without = _with_back_sights(_one_spelling(book.lines))
    if wrong := sorted((*faults, *without), key=lambda f: f.line):
        raise CannotUse(_told(wrong))
    return replace(book, lines=tuple(lines), notes=(*book.notes, *_repeated(lines)))


def _told(faults: Sequence[Fault]) -> str:
    more = len(faults) - _TOLD
    rest = f"; and {more} more" if more > 0 else ""
    return "; ".join(map(str, faults[:_TOLD])) + rest


def _one_spelling(lines: Sequence[BookLine]) -> list[BookLine]:
    """Return the lines with every point spelt as it is spelt first."""
    spelt: dict[str, str] = {}
    for line in lines:
        for name in line.names:
            spelt.setdefault(same(name), name)
    return [
        replace(
            line,
            start=spelt.get(same(line.start), ""),
            end=spelt.get(same(line.end), ""),
            point=spelt.get(same(line.point), ""),
            back=spelt.get(same(line.back), ""),
        )
        for line in lines
    ]


def _with_back_sights(lines: Sequence[BookLine]) -> tuple[list[BookLine], list[Fault]]:
    """Return the lines with a back sight for each angle: the start of the leg that came there.

    That is the last one before it; of the first leg of a closed traverse the one that closes.
    """
    done: list[BookLine] = []
    faults: list[Fault] = []
    closes = {line.end: line.start for line in lines if line.sort is Sort.LEG}
    came_from: dict[str, str] = {}
    for line in lines:
        back = line.back
        if line.angle is not None and not back:
            back = came_from.get(line.start) or closes.get(line.start, "")
            if back in ("", line.end):
                words = "no leg ends where this angle was turned; name the back sight"
                faults.append(Fault(line.line, "back", words))
        if line.sort is Sort.LEG:
            came_from[line.end] = line.start
        done.append(replace(line, back=back))
    return done, faults


def _repeated(lines: Sequence[BookLine]) -> list[str]:
    seen: dict[BookLine, int] = {}
    notes: list[str] = []
    for line in lines:
        first = seen.setdefault(replace(line, line=0, remarks=""), line.line)
        if first != line.line and not line.left_out:
            notes.append(
                f"Lines {first} and {line.line} say the same: they count as two readings."
            )
    return notes
