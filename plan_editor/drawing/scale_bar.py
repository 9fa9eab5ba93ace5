"""The scale bar: metres of the ground, drawn as fills so that a pen adds nothing to them."""

from math import floor, log10

import numpy as np

from plan_editor.drawing.ink import Anchor, Fill, Ink, Points, Text
from plan_editor.drawing.lettering import SMALLEST
from plan_editor.drawing.panel import Panel

_HIGH = 1.6
_LINE = 0.18
_STEPS = (5.0, 2.0, 1.0)


def bar_length(scale: float, room: float) -> float:
    """Return the metres of ground that a bar shows: 1, 2 or 5 times a power of ten."""
    metres = room * scale / 1000.0
    power = 10.0 ** floor(log10(metres))
    return next(step * power for step in _STEPS if step * power <= metres * 1.000001)


def scale_bar(scale: float, width: float, *, size: float = SMALLEST) -> Panel:
    """Return a bar that fits a width, in five parts, and what it says."""
    metres = bar_length(scale, width - 4.5)
    long = metres * 1000.0 / scale
    base = -size * 1.3
    part = long / 5
    rings = (*_dark_parts(part, base), *_edges(long, base))
    ink: tuple[Ink, ...] = (
        *(Fill(rings=(ring,)) for ring in rings),
        *(_figure(n * part, metres * n / 5, base, size) for n in _figured(part, size)),
        Text(
            text=f"{metres:g} m", x=long, y=base + size * 0.35, size=size, anchor=Anchor.MIDDLE
        ),
    )
    return Panel(width=width, height=size * 1.3 + _HIGH, ink=ink)


def _figured(part: float, size: float) -> tuple[int, ...]:
    # the last part's figure is written out with its unit
    return (0, 1, 2, 3, 4) if part > size * 3.2 else (0,)


def _dark_parts(part: float, base: float) -> tuple[Points, ...]:
    return tuple(_box(n * part, base - _HIGH, (n + 1) * part, base) for n in (0, 2, 4))


def _edges(long: float, base: float) -> tuple[Points, ...]:
    low = base - _HIGH
    return (
        _box(0.0, base - _LINE, long, base),
        _box(0.0, low, long, low + _LINE),
        _box(0.0, low, _LINE, base),
        _box(long - _LINE, low, long, base),
    )


def _figure(x: float, metres: float, base: float, size: float) -> Text:
    return Text(
        text=f"{metres:g}",
        x=x,
        y=base + size * 0.35,
        size=size,
        anchor=Anchor.LEFT if x == 0.0 else Anchor.MIDDLE,
    )


def _box(left: float, bottom: float, right: float, top: float) -> Points:
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
