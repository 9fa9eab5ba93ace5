"""The key as a piece of the page."""

from collections.abc import Sequence
from math import ceil

from plan_editor.drawing.ink import Ink
from plan_editor.drawing.legend import HIGH, WIDE, Entry
from plan_editor.drawing.lettering import width as lettered
from plan_editor.drawing.panel import Panel, beside, headed, stacked, words

_GAP = 2.0
_BETWEEN = 0.6
_ROOMY = 15.5
"""A column is at least so many times as wide as the lettering is high."""


def key_panel(entries: Sequence[Entry], width: float, *, size: float, head: float) -> Panel:
    """Return the key in as many columns as the width has room for."""
    if not entries:
        return Panel(width=width, height=0.0, ink=())
    columns = max(1, min(int(width // (size * _ROOMY)), len(entries)))
    column = (width - (columns - 1) * _GAP) / columns
    lines = [_line(entry, column, size) for entry in entries]
    per_column = ceil(len(lines) / columns)
    stacks = [
        stacked(lines[n * per_column : (n + 1) * per_column], _BETWEEN) for n in range(columns)
    ]
    return headed("Key", (beside(stacks, _GAP),), width, size=head)


def _line(entry: Entry, width: float, size: float) -> Panel:
    figure = _figure(entry.figure, width, size)
    text = words(entry.text, width - WIDE - _GAP - figure.width, size=size)
    height = max(HIGH, text.height)
    sample = Panel(width=WIDE, height=HIGH, ink=entry.sample).at(WIDE / 2, -height / 2)
    beside_it: tuple[Ink, ...] = text.at(WIDE + _GAP, -(height - text.height) / 2)
    at_the_end = figure.at(width - figure.width, -(height - text.height) / 2)
    return Panel(width=width, height=height, ink=(*sample, *beside_it, *at_the_end))


def _figure(told: str, width: float, size: float) -> Panel:
    # as wide as it is, and a gap before it
    if not told:
        return Panel(width=0.0, height=0.0, ink=())
    long = lettered(told) * size
    made = words(told, width, size=size)
    return Panel(width=long + _GAP, height=made.height, ink=made.at(_GAP, 0.0))
