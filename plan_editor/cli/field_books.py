"""The verb that takes in a field book: worked out, then one edit, saved whole."""

from argparse import Namespace
from pathlib import Path
from typing import Any

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.book_words import CAUTION, all_moves, how_far
from plan_editor.commands.field_books import (
    Line,
    Outcome,
    line_in_words,
    outcome,
    sentences,
    unit_of,
)
from plan_editor.commands.numbers import signed
from plan_editor.commands.reading import read
from plan_editor.edits.field_books import TakeInFieldBook
from plan_editor.exchange.field_books import read_field_book
from plan_editor.plan.document import Document, Entry
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.adjustment.observed import Found
from plan_editor.survey.books.field_book import FieldBook, same
from plan_editor.survey.books.offset_runs import OffsetRun
from plan_editor.survey.grids.grid import Grid

DRY = "Nothing was changed: this was a dry run."

SHOWN = 60
"""So many points or lines are listed; a program gets them all."""


def ties(asked: Namespace) -> Said:
    """Take a field book in, or say what would come of it."""
    book = book_of(asked)
    edit = TakeInFieldBook(book=book)
    if asked.dry_run:
        found = read(Path(asked.plan))
        told = outcome(found.plan, book)
        moved = how_far(edit.changes(found.plan))
        return _said(asked, found.plan.grid, told, moved, (*found.remarks, DRY))
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        before = document.plan
        told = outcome(before, book)
        entry = document.apply(edit)
        remarks = tuple(file.save()) if entry is not None else ()
    moved = how_far(entry.changes if entry else ())
    return _said(asked, before.grid, told, moved, (*remarks, _done(told, entry)))


def _said(
    asked: Namespace,
    grid: Grid,
    told: Outcome,
    moved: tuple[tuple[str, float], ...],
    closing: tuple[str, ...],
) -> Said:
    verbs = ("would move", "would move") if asked.dry_run else ("has moved", "have moved")
    lines = [
        _head(told),
        _points(grid, told),
        _lines(told),
        *sentences(told),
        CAUTION,
        all_moves(moved, *verbs) if moved else "",
        *closing,
    ]
    moves = [{"what": what, "metres": round(metres, 4)} for what, metres in moved]
    return Said(
        text="\n".join(filter(None, lines)),
        facts=_facts(asked, grid, told) | {"moved": moves},
        code=0 if told.is_sound else 1,
    )


def _head(told: Outcome) -> str:
    book, answer = told.book, told.worked.adjusted
    when = f" of {book.date}" if book.date else ""
    s0 = "nothing checks anything" if answer.s0 is None else f"s0 {answer.s0:.2f}"
    others = "" if all(line.of_book for line in told.lines) else " with the other books"
    return (
        f"{_called(book.name)}{when}: {_count(len(book.lines), 'line')},"
        f" {_count(len(told.points), 'point')} from {_count(len(told.marks), 'mark')};"
        f" {_count(answer.dof, 'measurement')} more than needed{others}, {s0}."
    )


def _called(name: str) -> str:
    # most are called so already
    return name if same(name).startswith("fieldbook") else f"Field book {name}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _points(grid: Grid, told: Outcome) -> str:
    head = ("point", "E", "N", "sd E", "sd N", "95 % ellipse", "")
    rows = [head, *(_point(grid, p) for p in told.points[:SHOWN])]
    return _listed(rows, len(told.points)) if told.points else ""


def _point(grid: Grid, point: Found) -> tuple[str, ...]:
    if point.east is None or point.north is None or point.ellipse is None:
        return (point.name, *("",) * 5, point.standing)
    east, north = grid.to_crs(point.east, point.north)
    shape = point.ellipse
    return (
        point.name,
        f"{east:.3f}",
        f"{north:.3f}",
        f"{point.sd_east:.3f}",
        f"{point.sd_north:.3f}",
        f"{shape.a:.3f} × {shape.b:.3f} m at {shape.bearing_deg:.0f}°",
        point.standing,
    )


def _lines(told: Outcome) -> str:
    shown = [line for line in told.lines if line.of_book or line.checked.suspect]
    head = ("line", "", "", "measured", "residual", "standardised", "redundancy", "")
    rows = [head, *map(_line, shown[:SHOWN])]
    return _listed(rows, len(shown), left=(0, 1, 2)) if shown else ""


def _line(line: Line) -> tuple[str, ...]:
    found = line.checked
    number = str(line.reading.line.line) if line.of_book else line.reading.book
    what = line_in_words(line.reading.line)
    measured = f"{line.measured:.3f}{unit_of(found)}"
    if not found.used:
        return (number, what, found.what, measured, "", "", "", "not used")
    standardised = "" if found.standardised is None else signed(found.standardised, 1)
    return (
        number,
        what,
        found.what,
        measured,
        signed(found.residual, 3),
        standardised,
        f"{found.redundancy:.2f}",
        f"suspected {found.suspect}" if found.suspect else "",
    )


def _listed(rows: list[tuple[str, ...]], count: int, left: tuple[int, ...] = (0,)) -> str:
    more = count - SHOWN
    table = columns([tuple(map(str, row)) for row in rows], left=left)
    return f"\n{table}" + (f"\nand {more} more" if more > 0 else "") + "\n"


def _done(told: Outcome, entry: Entry | None) -> str:
    if entry is None:
        return "The plan has all of this book already. Nothing was changed."
    placed = len(told.points) - len(told.unplaced)
    done = f"Taken in: {_count(len(told.book.lines), 'line')} and {_count(placed, 'point')}."
    if told.suspects:
        done += (
            " The suspected line counts in them: measure it again, or write yes in the column"
            " “out”, and take the book in again."
        )
    return done


def _facts(asked: Namespace, grid: Grid, told: Outcome) -> dict[str, Any]:
    answer = told.worked.adjusted
    return {
        "plan": asked.plan,
        "book": told.book.name,
        "file": asked.book,
        "dry_run": asked.dry_run,
        "crs": grid.crs,
        "scale_factor": answer.scale_factor,
        "points": [point_facts(p, grid) for p in told.points],
        "marks": [point_facts(p, grid) for p in told.marks],
        "observations": [
            line_facts(line) for line in told.lines if line.of_book or line.checked.suspect
        ],
        "dof": answer.dof,
        "s0": answer.s0,
        "advice": [a.text for a in told.advice],
        "offset_areas": [area_facts(run) for run in told.runs],
        "sentences": list(sentences(told)),
        "caution": CAUTION,
    }


def point_facts(point: Found, grid: Grid) -> dict[str, Any]:
    """Return a point for a program; places in the coordinates of the grid's system."""
    placed = point.east is not None and point.north is not None
    east, north = grid.to_crs(point.east or 0.0, point.north or 0.0)
    shape = point.ellipse
    return {
        "name": point.name,
        "E": round(east, 4) if placed else None,
        "N": round(north, 4) if placed else None,
        "sd_E": point.sd_east,
        "sd_N": point.sd_north,
        "ellipse": shape
        and {"a": shape.a, "b": shape.b, "bearing_deg": shape.bearing_deg, "percent": 95},
        "status": str(point.standing),
        "choices": [[round(v, 4) for v in grid.to_crs(*choice)] for choice in point.choices],
    }


def line_facts(line: Line) -> dict[str, Any]:
    """Return what the adjustment made of a measurement, for a program."""
    told, found = line.reading.line, line.checked
    return {
        "line": told.line,
        "book": line.reading.book,
        "type": str(told.sort),
        "from": told.start,
        "to": told.end or None,
        "point": told.point or None,
        "what": found.what,
        "measured": line.measured,
        "residual": found.residual,
        "standardised": found.standardised,
        "redundancy": found.redundancy,
        "suspect": found.suspect,
        "used": found.used,
    }


def area_facts(run: OffsetRun) -> dict[str, Any]:
    """Return the area of a run of offsets, for a program."""
    return {
        "from": run.start,
        "to": run.end,
        "side": "right" if run.right else "left",
        "lines": list(run.lines),
        "trapezoidal_m2": run.trapezoidal,
        "simpson_m2": run.simpson,
    }


def book_of(asked: Namespace) -> FieldBook:
    """Return the field book that was asked for."""
    return read_field_book(Path(asked.book), sheet=asked.sheet)
