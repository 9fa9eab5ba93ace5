"""Point symbols: the drawings of ``resources/symbols`` as ink.

A symbol is made of five elements (circle, line, polyline, polygon, rect) in a box of 20 units
about its middle, y down, black, filled or stroked; its lines take the width of the pen.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from xml.etree.ElementTree import Element  # the type only; reading is defusedxml's

import numpy as np
from defusedxml.ElementTree import parse

from plan_editor.drawing.ink import Fill, Ink, Points, Stroke
from plan_editor.plan.look import Pen
from plan_editor.resources import resource

_BOX = 20.0
_ROUND = 36


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Symbol:
    """A symbol of height 1 about its middle, y up.

    Args:
        fills: rings of solid parts.
        closed: outlines.
        open: lines.
        core: diameter of what stands for the thing itself: its solid parts, or else all of it.
    """

    fills: tuple[Points, ...]
    closed: tuple[Points, ...]
    open: tuple[Points, ...]
    core: float


@cache
def symbol(name: str) -> Symbol:
    """Return the symbol of that name.

    Raises:
        FileNotFoundError: there is none.
    """
    root = parse(resource(f"symbols/{name}.svg")).getroot()
    parts = [(e, *_points(e)) for e in root or ()]
    fills = tuple(p for e, p, _ in parts if e.get("fill", "none") != "none")
    lines = [(p, closed) for e, p, closed in parts if e.get("stroke", "none") != "none"]
    closed_lines = tuple(p for p, closed in lines if closed)
    open_lines = tuple(p for p, closed in lines if not closed)
    core = np.concatenate(fills or closed_lines + open_lines)
    return Symbol(
        fills=fills,
        closed=closed_lines,
        open=open_lines,
        core=float(2 * np.hypot(core[:, 0], core[:, 1]).max()),
    )


FACES_DEG = 180.0
"""The bearing to which the front of every symbol is drawn."""


def turn_deg(facing_deg: float | None) -> float:
    """Return by how many degrees clockwise the symbol of what faces there is turned."""
    return 0.0 if facing_deg is None else (facing_deg - FACES_DEG) % 360.0


def placed(
    drawn: Symbol,
    at: Points,
    heights: Points | float,
    pen: Pen,
    turns: Points | float = 0.0,
) -> tuple[Ink, ...]:
    """Return a symbol at many places, (n, 2).

    Args:
        drawn: the symbol.
        at: where.
        heights: of each, in millimetres.
        pen: for its lines.
        turns: of each, in degrees clockwise.
    """
    sizes = np.broadcast_to(np.asarray(heights, dtype=float), (len(at),))
    angles = np.radians(np.broadcast_to(np.asarray(turns, dtype=float), (len(at),)))
    # a place is multiplied from the left: x to the right, y up
    cos, sin = np.cos(angles) * sizes, np.sin(angles) * sizes
    ways = np.moveaxis(np.array([[cos, -sin], [sin, cos]]), 2, 0)
    ink: list[Ink] = []
    if drawn.fills:
        ink.append(Fill(rings=_everywhere(drawn.fills, at, ways), colour=pen.colour))
    if drawn.closed:
        ink.append(Stroke(lines=_everywhere(drawn.closed, at, ways), pen=pen, closed=True))
    if drawn.open:
        ink.append(Stroke(lines=_everywhere(drawn.open, at, ways), pen=pen))
    return tuple(ink)


def circle(x: float, y: float, radius: float) -> Points:
    """Return a circle as a ring of points."""
    angle = np.linspace(0.0, 2 * np.pi, _ROUND, endpoint=False)
    return np.column_stack([x + radius * np.cos(angle), y + radius * np.sin(angle)])


def _everywhere(parts: Iterable[Points], at: Points, ways: Points) -> tuple[Points, ...]:
    return tuple(one for part in parts for one in at[:, None, :] + part[None] @ ways)


def _points(element: Element) -> tuple[Points, bool]:
    # in units of the box's height, y up
    name = element.tag.rpartition("}")[2]
    match name:
        case "circle":
            cx, cy, r = (float(element.get(k, "0")) for k in ("cx", "cy", "r"))
            points = circle(cx, cy, r)
        case "rect":
            x, y, w, h = (float(element.get(k, "0")) for k in ("x", "y", "width", "height"))
            points = np.array([(x, y), (x + w, y), (x + w, y + h), (x, y + h)])
        case "line":
            ends = [float(element.get(k, "0")) for k in ("x1", "y1", "x2", "y2")]
            points = np.array(ends).reshape(-1, 2)
        case _:
            listed = element.get("points", "").replace(",", " ").split()
            points = np.array([float(n) for n in listed]).reshape(-1, 2)
    return points * (1 / _BOX, -1 / _BOX), name not in {"line", "polyline"}
