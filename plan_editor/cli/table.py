"""Columns of text for a terminal."""

from collections.abc import Collection, Sequence


def columns(rows: Sequence[Sequence[str]], left: Collection[int] = (0,)) -> str:
    """Return rows as lines: the first column, or those given, set to the left, others right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join(_line(row, widths, left) for row in rows)


def _line(row: Sequence[str], widths: Sequence[int], left: Collection[int]) -> str:
    cells = [
        text.ljust(width) if place in left else text.rjust(width)
        for place, (text, width) in enumerate(zip(row, widths, strict=True))
    ]
    return "  ".join(cells).rstrip()
