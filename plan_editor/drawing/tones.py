"""Looks made quieter: of what is only proposed, and of what a sheet is not about."""

from dataclasses import replace

from plan_editor.plan.kind import Blocks, Kind
from plan_editor.plan.look import Across, Along, Look, Pen

_SERIES = (0.18, 0.25, 0.35, 0.5, 0.7)
_PROPOSED = (1.5, 1.0)
PALE = "#70797E"
"""Grey lines of what a sheet is not about: dark enough for a copy in black and white."""

_PALE_GROUND = "#E6E9EA"
_PALE_PENS = (0.25, 0.35)


def proposed(look: Look) -> Look:
    """Return the look of a thing that is not there yet: a thinner pen, dashed, no colour."""
    if look.pen is None:
        return look
    pen = Pen(width=_thinner(look.pen.width), colour=look.pen.colour, dash=_PROPOSED)
    return replace(look, pen=pen, fill=None, solid=False)


def pale(kind: Kind, look: Look) -> Look | None:
    """Return a quiet look: thin grey lines, no hatch, strokes across or letters.

    What is filled or hatched and cannot be walked through, such as a building, has a grey
    ground and a stronger outline: people find their way by it.
    """
    massive = Blocks.WALKING in kind.blocks and bool(look.hatch or look.fill)
    ground = _PALE_GROUND if massive else None
    if look.pen is None:
        return replace(look, hatch=None, fill=ground)
    pen = Pen(width=min(look.pen.width, _PALE_PENS[massive]), colour=PALE, dash=look.pen.dash)
    quiet = replace(look, pen=pen, fill=ground, hatch=None, along=_quiet(look.along))
    return replace(quiet, head_bar=False, across=Across.NONE, face=False)


def _quiet(along: Along | None) -> Along | None:
    return None if along is None or along.text else along


def _thinner(width: float) -> float:
    return max((w for w in _SERIES if w < width), default=_SERIES[0])
