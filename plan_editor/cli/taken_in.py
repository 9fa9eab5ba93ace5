"""What is said of a table that was taken in: rows that were not taken, and doubtful cells."""

from collections.abc import Sequence
from typing import Any

from plan_editor.edits.written_entries import Doubtful, Rejected

SHOWN = 40
"""So many of each are listed; a program gets them all."""


def lines_told(rejected: Sequence[Rejected], doubtful: Sequence[Doubtful]) -> list[str]:
    """Return a line for each, the first of many."""
    return [
        *_few([f"Line {r.row} was not taken: {r.why}." for r in rejected]),
        *_few([f"Line {d.row}, {d.column}: {d.why}." for d in doubtful]),
    ]


def facts_told(
    rejected: Sequence[Rejected], doubtful: Sequence[Doubtful]
) -> dict[str, list[dict[str, Any]]]:
    """Return them all, as a program reads them."""
    return {
        "doubtful": [{"row": d.row, "column": d.column, "why": d.why} for d in doubtful],
        "rejected": [{"row": r.row, "why": r.why} for r in rejected],
    }


def _few(lines: list[str]) -> list[str]:
    more = len(lines) - SHOWN
    return [*lines[:SHOWN], *([f"and {more:,} more"] if more > 0 else [])]
