"""Whether a field book is in doubt, and what would come of it without the line in doubt."""

from math import sqrt

from plan_editor.commands.book_words import agreement
from plan_editor.commands.field_books import Outcome
from plan_editor.survey.adjustment.reliability import most_s0


def headline(told: Outcome) -> str:
    """Return how well the tapes agree, and which line to look at first, in short."""
    said = agreement(told)
    if not told.suspects:
        return said
    first = told.suspects[0]
    book = "" if first.of_book else f" of {first.reading.book}"
    return f"{said} Look at line {first.reading.line.line}{book}."


def without_first(told: Outcome) -> str:
    """Return how the others agree without the line that is suspected first.

    Empty where nothing is suspected, where little would be left to check the others, or where
    the line holds two measurements. One measurement of standardised residual w takes w² off
    the weighted sum of squares. Source: Baarda, A testing procedure for use in geodetic
    networks, 1968.
    """
    answer = told.worked.adjusted
    if not told.suspects or answer.s0 is None or answer.dof < 2:
        return ""
    first = told.suspects[0]
    measured = sum(line.reading.key == first.reading.key for line in told.lines)
    if measured > 1 or first.checked.standardised is None:
        return ""
    left = answer.dof - 1
    squares = answer.dof * answer.s0**2 - first.checked.standardised**2
    if sqrt(max(squares, 0.0) / left) > most_s0(left):
        return "Without it the others still agree worse than they should."
    return "Without it the others agree as well as they should."
