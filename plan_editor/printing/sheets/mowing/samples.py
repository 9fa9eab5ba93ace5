"""Lines of the key of the mowing map that no kind declares."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely

from plan_editor.drawing.along import scalloped
from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.ink import Fill, Stroke
from plan_editor.drawing.legend import HIGH, WIDE, Entry
from plan_editor.drawing.symbols import circle
from plan_editor.drawing.tones import PALE
from plan_editor.plan.item import Item
from plan_editor.plan.look import Along, Hatch, Look, Mark, Pattern, Pen

_STRAW = "#8A6410"

FRESH = Look(
    pen=Pen(width=0.35, colour=_STRAW),
    hatch=Hatch(pattern=Pattern.CROSSED, spacing=1.2, pen=Pen(width=0.18, colour=_STRAW)),
)
"""How a grave is drawn that still settles."""

_GREY = Pen(width=0.25, colour=PALE)


def fresh_entry() -> Entry:
    """Return the line for a grave that still settles."""
    room = shapely.box(-WIDE / 2 + 1.5, -HIGH / 2 + 0.6, WIDE / 2 - 1.5, HIGH / 2 - 0.6)
    sample = area_ink(np.array([room], dtype=object), FRESH, np.array([], dtype=object))
    return Entry(text="Settling grave: no machine on it", sample=sample)


def rest_entry(items: Sequence[Item[Any]]) -> tuple[Entry, ...]:
    """Return the line for all that the map is not about; none where nothing is drawn."""
    if not items:
        return ()
    grave = np.array([(-5.0, -1.0), (-5.0, 1.0), (-0.6, 1.0), (-0.6, -1.0)])
    stone = np.array([(-5.0, -0.7), (-5.0, 0.7), (-4.4, 0.7), (-4.4, -0.7)])
    crown = scalloped((circle(3.2, 0.0, 1.8),), Along(mark=Mark.SCALLOPS, every=1.4), _GREY)
    sample = (
        Stroke(lines=(grave,), pen=_GREY, closed=True),
        Fill(rings=(stone, circle(3.2, 0.0, 0.4)), colour=PALE),
        crown,
    )
    return (Entry(text="Graves, stones, trees, all else", sample=sample),)
