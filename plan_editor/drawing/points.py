"""Points as ink: symbols, what is to scale about them, and how far they spread."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely

from plan_editor.drawing.along import scalloped
from plan_editor.drawing.ink import Fill, Ink, Points, Stroke
from plan_editor.drawing.symbols import circle, placed, symbol, turn_deg
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Along, Look, Mark, Pen

ROOTS = Pen(width=0.18, colour="#3F6B35", dash=(0.25, 1.0))
"""The dotted circle within which the ground is left alone."""

_CROWN = Along(mark=Mark.SCALLOPS, every=2.5)
_DOT_MM = 0.8
_QUARTER = np.linspace(0.0, np.pi / 2, 16, endpoint=False)


def point_ink(
    kind: Kind, items: Sequence[Item[Any]], look: Look, viewport: Viewport
) -> tuple[Ink, ...]:
    """Return the ink of items that are points: how far they spread, then themselves."""
    pen = look.pen or Pen()
    at = shapely.get_coordinates(viewport.shapes([i.shape for i in items]))
    sizes = np.array([kind.width_m(i.details) for i in items]) * viewport.mm_per_metre
    turns = np.array([turn_deg(kind.facing_deg(i.details)) for i in items])
    return (
        *_crowns(kind, items, at, viewport, pen),
        *_selves(look, at, sizes, pen, turns),
    )


def crown(spread: tuple[float, float, float, float]) -> Points:
    """Return the outline of a crown about 0, 0 from its spread north, east, south and west.

    A quarter of an ellipse between each two, anticlockwise from the east.
    """
    north, east, south, west = spread
    cos, sin = np.cos(_QUARTER), np.sin(_QUARTER)
    quarters = (
        (east * cos, north * sin),
        (-west * sin, north * cos),
        (-west * cos, -south * sin),
        (east * sin, -south * cos),
    )
    return np.concatenate([np.column_stack(q) for q in quarters])


def _selves(look: Look, at: Points, sizes: Points, pen: Pen, turns: Points) -> tuple[Ink, ...]:
    if not look.symbol:
        rings = tuple(
            circle(x, y, max(size, _DOT_MM) / 2) for (x, y), size in zip(at, sizes, strict=True)
        )
        return (Fill(rings=rings, colour=pen.colour),)
    drawn = symbol(look.symbol)
    # never smaller than its look; where the thing itself is larger on paper, to scale
    return placed(drawn, at, np.maximum(look.symbol_mm, sizes / drawn.core), pen, turns)


def _crowns(
    kind: Kind, items: Sequence[Item[Any]], at: Points, viewport: Viewport, pen: Pen
) -> tuple[Ink, ...]:
    spreads = [kind.crown_m(i.details) for i in items]
    outlines = tuple(
        place + crown(spread) * viewport.mm_per_metre
        for place, spread in zip(at, spreads, strict=True)
        if spread is not None and min(spread) > 0.0
    )
    return (scalloped(outlines, _CROWN, pen),) if outlines else ()


def roots_ink(kind: Kind, items: Sequence[Item[Any]], viewport: Viewport) -> tuple[Ink, ...]:
    """Return the dotted circles within which the ground round items is left alone."""
    rings = tuple(
        circle(x, y, radius * viewport.mm_per_metre)
        for item in items
        if (radius := kind.roots_m(item.details))
        for x, y in shapely.get_coordinates(viewport.shapes([item.shape]))
    )
    return (Stroke(lines=rings, pen=ROOTS, closed=True),) if rings else ()
