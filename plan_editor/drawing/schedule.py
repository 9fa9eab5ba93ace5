"""Tables that flow over pages, their heads repeated."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.drawing.ink import Anchor, Ink, Stroke, Text
from plan_editor.drawing.lettering import LEADING, shortened, wrapped
from plan_editor.drawing.lettering import width as broad
from plan_editor.drawing.panel import Panel, stacked, words
from plan_editor.plan.look import Pen

_RULE = Pen(width=0.18)
_HEAVY = Pen(width=0.35)
_MOST_LINES = 8
_GAP = 5.0
_MARGIN, _ASIDE = 0.26, 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its head, its share of the width, and whether it holds figures."""

    title: str
    share: float
    figures: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table: a heading, columns, rows of as many texts, and a note under the heading."""

    heading: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


def flowed(
    tables: Sequence[Table],
    width: float,
    height: float,
    *,
    size: float,
    over: Panel | None = None,
) -> tuple[Panel, ...]:
    """Return tables as panels, each at most a page high; a row is never split.

    Args:
        tables: one below the other.
        width: of a page's room, in millimetres.
        height: of a page's room, in millimetres.
        size: of lettering.
        over: stands over the first of them, and leaves room for it.
    """
    pages: list[list[Panel]] = [[over] if over else []]
    room = height - (over.height if over else 0.0)
    for table in tables:
        head = _head(table, width, size)
        again = _again(table, width, size)
        rows = [_row(table.columns, row, width, size) for row in table.rows]
        first = rows[0].height if rows else 0.0
        if pages[-1] and head.height + first > room:
            pages.append([])
            room = height
        pages[-1].append(head)
        room -= head.height
        for row in rows:
            if row.height > room:
                pages.append([again])
                room = height - again.height
            pages[-1].append(row)
            room -= row.height
        pages[-1].append(Panel(width=width, height=_GAP, ink=()))
        room -= _GAP
    return tuple(stacked(page, 0.0) for page in pages if page)


def breaks_words(table: Table, width: float, *, size: float) -> bool:
    """Return whether some word of a table, or a figure, is broader than its column.

    Args:
        table: the table.
        width: of all of it, in millimetres.
        size: of its lettering.
    """
    total = sum(c.share for c in table.columns)
    rooms = [width * c.share / total - 2 * size * _ASIDE for c in table.columns]
    heads = zip((c.title for c in table.columns), rooms, strict=True)
    if any(_widest(title, size, bold=True) > room for title, room in heads):
        return True
    columns = zip(zip(*table.rows, strict=True), rooms, strict=False)
    return any(_widest(t, size) > room for told, room in columns for t in dict.fromkeys(told))


def _widest(text: str, size: float, *, bold: bool = False) -> float:
    return size * max((broad(word, bold=bold) for word in text.split()), default=0.0)


def table_panel(table: Table, width: float, *, size: float) -> Panel:
    """Return a small table as one panel."""
    rows = [_row(table.columns, row, width, size) for row in table.rows]
    return stacked((_head(table, width, size), *rows), 0.0)


def _head(table: Table, width: float, size: float) -> Panel:
    heading = words(table.heading, width, size=size * 1.25, bold=True)
    note = words(table.note, width, size=size)
    gap = Panel(width=width, height=size * 0.5, ink=())
    return stacked((heading, note, gap, _titles(table, width, size)), 0.0)


def _again(table: Table, width: float, size: float) -> Panel:
    heading = words(f"{table.heading}, continued", width, size=size * 1.25, bold=True)
    gap = Panel(width=width, height=size * 0.5, ink=())
    return stacked((heading, gap, _titles(table, width, size)), 0.0)


def _titles(table: Table, width: float, size: float) -> Panel:
    titles = tuple(c.title for c in table.columns)
    made = _row(table.columns, titles, width, size, bold=True)
    rules = _level(width, 0.0, _HEAVY), _level(width, -made.height, _HEAVY)
    return Panel(width=width, height=made.height, ink=(*made.ink, *rules))


def _row(
    columns: Sequence[Column],
    texts: Sequence[str],
    width: float,
    size: float,
    *,
    bold: bool = False,
) -> Panel:
    total = sum(c.share for c in columns)
    pad, aside = size * _MARGIN, size * _ASIDE
    ink: list[Ink] = []
    left = 0.0
    most = 1
    for column, text in zip(columns, texts, strict=True):
        room = width * column.share / total
        lines = _few(text, size, room - 2 * aside, bold=bold)
        most = max(most, len(lines))
        x = left + room - aside if column.figures else left + aside
        anchor = Anchor.RIGHT if column.figures else Anchor.LEFT
        ink.extend(
            Text(
                text=line,
                x=x,
                y=-pad - size * (0.8 + LEADING * n),
                size=size,
                bold=bold,
                anchor=anchor,
            )
            for n, line in enumerate(lines)
        )
        left += room
    height = most * size * LEADING + 2 * pad
    return Panel(width=width, height=height, ink=(*ink, _level(width, -height, _RULE)))


def _few(text: str, size: float, room: float, *, bold: bool) -> tuple[str, ...]:
    lines = wrapped(text, size, room, bold=bold)
    if len(lines) <= _MOST_LINES:
        return lines
    rest = " ".join(lines[_MOST_LINES - 1 :])
    return (*lines[: _MOST_LINES - 1], shortened(rest, size, room, bold=bold))


def _level(width: float, y: float, pen: Pen) -> Stroke:
    return Stroke(lines=(np.array([(0.0, y), (width, y)]),), pen=pen)
