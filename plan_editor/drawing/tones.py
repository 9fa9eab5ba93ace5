"""Looks made quieter: of what is only proposed, and of what a sheet is not about."""

from dataclasses import replace

from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Across, Along, Look, Pen

_SERIES = (0.18, 0.25, 0.35, 0.5, 0.7)
_PROPOSED = (1.5, 1.0)
_PALE = "#8A9296"


def proposed(look: Look) -> Look:
    """Return the look of a thing that is not there yet: a thinner pen, dashed, no colour."""
    if look.pen is None:
        return look
    pen = Pen(width=_thinner(look.pen.width), colour=look.pen.colour, dash=_PROPOSED)
    return replace(look, pen=pen, fill=None, solid=False)


def pale(kind: Kind, look: Look) -> Look | None:
    """Return a quiet look: thin grey lines, no colour, hatch, strokes across or letters."""
    del kind
    if look.pen is None:
        return replace(look, hatch=None, fill=None)
    pen = Pen(width=min(look.pen.width, 0.25), colour=_PALE, dash=look.pen.dash)
    quiet = replace(look, pen=pen, fill=None, hatch=None, along=_quiet(look.along))
    return replace(quiet, head_bar=False, across=Across.NONE, face=False)


def _quiet(along: Along | None) -> Along | None:
    return None if along is None or along.text else along


def _thinner(width: float) -> float:
    return max((w for w in _SERIES if w < width), default=_SERIES[0])
