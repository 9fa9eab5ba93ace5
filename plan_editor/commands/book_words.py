"""What a field book comes to, for whoever writes it: rows of a table, and plain words."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from shapely.geometry.base import BaseGeometry

from plan_editor.commands.book_drafts import base_of
from plan_editor.commands.field_books import Line, Outcome, line_in_words, unit_of
from plan_editor.commands.numbers import signed
from plan_editor.commands.traverses import walked
from plan_editor.edits.field_books import AdjustFieldBooks
from plan_editor.errors import CannotUse
from plan_editor.plan.change import Change
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.observed import Found, Standing
from plan_editor.survey.adjustment.reliability import most_s0
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same

CAUTION = (
    "A point that nothing checks may be wrong by any amount. Never dig by it: tape it from a"
    " third mark first."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A line of the book as the table shows it.

    Args:
        line: its number.
        what: ``M4 – Q1``; of an offset the point alone.
        told: the same in words: ``tie M4 to Q1``.
        measured: ``17.40``; of a leg ``63.43°, 11.18``; metres and degrees.
        off: the residual, in metres or degrees; empty where nothing checks it.
        times: how many of its standard deviations that is; empty as above.
        suspect: 1 for the most likely blunder, 0 for none.
        used: it is not left out.
    """

    line: int
    what: str
    told: str
    measured: str
    off: str
    times: str
    suspect: int
    used: bool


def rows(book: FieldBook, told: Outcome | None) -> tuple[Row, ...]:
    """Return the lines of a book, with what the adjustment made of them if that is known."""
    of_line: dict[int, list[Line]] = {}
    for one in told.lines if told is not None else ():
        if one.of_book:
            of_line.setdefault(one.reading.line.line, []).append(one)
    return tuple(_row(line, of_line.get(line.line, [])) for line in book.lines)


def agreement(told: Outcome) -> str:
    """Return in words how well the tapes agree."""
    answer = told.worked.adjusted
    if answer.s0 is None:
        return "Nothing checks these tapes yet: every point hangs on as many as fix it."
    spare = "1 tape more" if answer.dof == 1 else f"{answer.dof} tapes more"
    by = f"{spare} than needed; they differ {answer.s0:.1f} times as much as is usual"
    if answer.s0 > most_s0(answer.dof):
        return f"The tapes agree worse than they should ({by})."
    return f"The tapes agree as well as they should ({by})."


def question(told: Outcome, point: Found) -> str:
    """Return what must be known of a point that may lie on either side; empty if not that."""
    base = base_of(told.book, point.name) if point.standing is Standing.AMBIGUOUS else None
    if base is None:
        return ""
    return (
        f"{point.name} may lie on either side. Stand at {base[0]} and look to {base[1]}: on"
        " which hand is it?"
    )


def traverse_in_words(told: Outcome) -> str:
    """Return how a traverse of the book closes; empty where it holds none."""
    book = told.book
    if not any(line.sort is Sort.LEG for line in book.lines):
        return ""
    ends = {same(n) for line in book.lines for n in line.names}
    known = tuple(s for s in told.worked.survey.stations if same(s.name) in ends)
    try:
        done = walked(replace(book, marks=known, notes=())).traverse
    except CannotUse as fault:
        return str(fault)
    ratio = "" if done.ratio is None else f", 1 in {done.ratio:,.0f}"
    area = "" if done.area is None else f" It encloses {done.area:.1f} m²."
    return (
        f"The traverse of {done.length:.2f} m misses its end by"
        f" {done.misclosure:.3f} m{ratio}.{area}"
    )


def moves_in_words(plan: Plan) -> tuple[str, int]:
    """Return what adjusting all books again would move, in words, and how many things.

    Raises:
        EditRefused: there is nothing to adjust, or what is written makes no sense.
    """
    moved = how_far(AdjustFieldBooks().changes(plan))
    if not moved:
        return "Every point lies where the field books have it.", 0
    return all_moves(moved, "moves", "move"), len(moved)


def how_far(changes: Iterable[Change]) -> tuple[tuple[str, float], ...]:
    """Return what is moved by changes and by how many metres, what goes farthest first."""
    moved = [
        (c.after.called(), _between(c.before.shape, c.after.shape))
        for c in changes
        if c.before is not None and c.after is not None and c.before.shape != c.after.shape
    ]
    return tuple(sorted(moved, key=lambda one: -one[1]))


def all_moves(moved: Sequence[tuple[str, float]], one: str, many: str) -> str:
    """Return what moves, as ``how_far`` has it and some at least, as a sentence.

    Args:
        moved: what moves, and by how many metres.
        one: the verb where one thing moves: ``moves``.
        many: where several do: ``move``.
    """
    things = f"1 thing {one}" if len(moved) == 1 else f"{len(moved)} things {many}"
    named = ", ".join(name for name, _ in moved[:4]) + (" …" if len(moved) > 4 else "")
    return f"{things}, by up to {moved[0][1]:.2f} m: {named}."


def _between(before: BaseGeometry | None, after: BaseGeometry | None) -> float:
    if before is None or after is None:
        return 0.0
    return before.centroid.distance(after.centroid)


def _row(line: BookLine, found: list[Line]) -> Row:
    worst = max(found, key=lambda o: abs(o.checked.standardised or 0.0), default=None)
    checked = worst is not None and worst.checked.standardised is not None
    return Row(
        line=line.line,
        what=" – ".join(_ends(line)),
        told=line_in_words(line),
        measured=_measured(line),
        off=_off(worst) if checked and worst is not None else "",
        times=f"{abs(worst.checked.standardised or 0.0):.1f}" if checked and worst else "",
        suspect=min((o.checked.suspect for o in found if o.checked.suspect), default=0),
        used=not line.left_out,
    )


def _off(line: Line) -> str:
    unit = unit_of(line.checked)  # metres go without saying in that column
    return signed(line.checked.residual, 3) + ("°" if unit == "°" else "")


def _ends(line: BookLine) -> Iterator[str]:
    if line.sort is Sort.OFFSET:
        yield line.point
    else:
        yield line.start
        yield line.far


def _measured(line: BookLine) -> str:
    parts = []
    if line.bearing is not None:
        parts.append(f"{line.bearing:.2f}°")
    if line.angle is not None:
        parts.append(f"∠ {line.angle:.2f}°")
    if line.distance is not None:
        parts.append(f"{line.distance:.2f}")
    if line.aside is not None:
        hand = "L" if line.aside < 0 else "R"
        parts.append(f"{abs(line.aside):.2f} {hand}")
    return ", ".join(parts)
