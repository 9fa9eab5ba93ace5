"""The key as a piece of the page."""

from collections.abc import Sequence
from math import ceil

from plan_editor.drawing.ink import Ink
from plan_editor.drawing.legend import HIGH, WIDE, Entry
from plan_editor.drawing.panel import Panel, beside, headed, stacked, words

_GAP = 2.0
_BETWEEN = 0.8
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
    text = words(entry.text, width - WIDE - _GAP, size=size)
    height = max(HIGH, text.height)
    sample = Panel(width=WIDE, height=HIGH, ink=entry.sample).at(WIDE / 2, -height / 2)
    beside_it: tuple[Ink, ...] = text.at(WIDE + _GAP, -(height - text.height) / 2)
    return Panel(width=width, height=height, ink=(*sample, *beside_it))
