"""The keys on paper: tables in two columns, to lie beside the keyboard."""

from collections.abc import Sequence

from plan_editor.drawing.ink import Ink
from plan_editor.drawing.panel import Panel, stacked, words
from plan_editor.drawing.schedule import Column, Table, flowed
from plan_editor.printing.sheet import Page, Paper, Printed

MARGIN = 15.0
GAP = 8.0
COLUMNS = 2
_TITLE, _BODY = 5.0, 2.5
"""Heights of lettering, in millimetres."""

Keys = Sequence[tuple[str, tuple[tuple[str, str], ...]]]


def key_pages(title: str, keys: Keys, note: str) -> Printed:
    """Return keys by their groups, each key with what it does, as upright pages of A4.

    Args:
        title: at the head of each page.
        keys: heading of each group, with its keys.
        note: under the title.
    """
    width, height = Paper.A4.value
    head = _head(title, note, width - 2 * MARGIN)
    room = height - 2 * MARGIN - head.height
    across = (width - 2 * MARGIN - (COLUMNS - 1) * GAP) / COLUMNS
    columns = flowed([_table(*group) for group in keys], across, room, size=_BODY)
    pages = [columns[n : n + COLUMNS] for n in range(0, len(columns), COLUMNS)]
    return Printed(
        title=title,
        paper=Paper.A4,
        scale=1.0,
        pages=tuple(Page(width=width, height=height, ink=_ink(head, page)) for page in pages),
    )


def _head(title: str, note: str, width: float) -> Panel:
    made = (words(title, width, size=_TITLE, bold=True), words(note, width, size=_BODY))
    return stacked((*made, Panel(width=width, height=_BODY, ink=())), _BODY / 2)


def _table(heading: str, keys: tuple[tuple[str, str], ...]) -> Table:
    columns = Column(title="Key", share=2.0), Column(title="What it does", share=3.4)
    return Table(heading=heading, columns=columns, rows=keys)


def _ink(head: Panel, columns: Sequence[Panel]) -> tuple[Ink, ...]:
    top = Paper.A4.value[1] - MARGIN
    ink = list(head.at(MARGIN, top))
    left = MARGIN
    for column in columns:
        ink.extend(column.at(left, top - head.height))
        left += column.width + GAP
    return tuple(ink)
