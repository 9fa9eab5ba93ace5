"""Columns of text for a terminal."""

from collections.abc import Sequence


def columns(rows: Sequence[Sequence[str]]) -> str:
    """Return rows as lines: the first column set to the left, the others to the right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join(_line(row, widths) for row in rows)


def _line(row: Sequence[str], widths: Sequence[int]) -> str:
    first, *rest = zip(row, widths, strict=True)
    cells = [first[0].ljust(first[1]), *(text.rjust(width) for text, width in rest)]
    return "  ".join(cells).rstrip()
