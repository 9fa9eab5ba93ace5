"""Plan north, grid north and true north: what a sheet says of them, and a small diagram."""

from math import cos, radians, sin

import numpy as np

from plan_editor.drawing.ink import Anchor, Fill, Points, Stroke, Text
from plan_editor.drawing.panel import Panel
from plan_editor.errors import CannotUse
from plan_editor.plan.look import Pen
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.grid import LOCAL
from plan_editor.survey.grids.grid_facts import GridFacts, grid_facts

LEAST_APART_MM = 0.4
"""Two fine lines nearer than this at their ends print as one; then words alone say it."""

_PEN = Pen(width=0.18)
_GRID_PART, _STAR_MM, _GAP_MM = 0.8, 1.0, 0.8


def facts_of(plan: Plan, middle: tuple[float, float]) -> GridFacts | None:
    """Return what the plan's grid does to the ground at a place.

    None of a local grid, and where the place lies outside of what the grid can be used for.
    """
    try:
        return grid_facts(plan.grid, *middle)
    except CannotUse:
        return None


def up_told(plan: Plan, facts: GridFacts | None) -> str:
    """Return what is up on a sheet, and where true north lies, in a sentence."""
    if plan.grid.crs == LOCAL:
        return "Up is plan north (local grid); true north is not known."
    if facts is None:
        return f"Up is grid north ({plan.grid.crs})."
    return f"Up is grid north ({plan.grid.crs}); {true_north_told(facts.convergence_deg)}."


def briefly(plan: Plan, facts: GridFacts | None) -> str:
    """Return the same in so few words that they find room beside a small north point."""
    if plan.grid.crs == LOCAL:
        return "Up is plan north; true north unknown."
    if facts is None:
        return "Up is grid north."
    return f"Up is grid north; true north {_off(facts.convergence_deg)}."


def true_north_told(convergence_deg: float) -> str:
    """Return where true north lies: ``true north lies 1°52′ west of it``."""
    if round(convergence_deg * 60) == 0:
        return "true north is the same here"
    return f"true north lies {_off(convergence_deg)} of it"


def angle_told(degrees: float) -> str:
    """Return the size of an angle to the minute: ``2°57′``."""
    whole, minutes = divmod(round(abs(degrees) * 60), 60)
    return f"{whole}°{minutes:02d}′"


def _off(convergence_deg: float) -> str:
    return f"{angle_told(convergence_deg)} {'west' if convergence_deg > 0 else 'east'}"


def norths(height: float, convergence_deg: float, *, size: float) -> Panel | None:
    """Return grid north and true north from one foot, at their true angle.

    None where the two lines would print as one. True north ends in a star, as is common on
    maps; each has its name beside it.

    Args:
        height: of the whole, in millimetres.
        convergence_deg: by which true north lies west of grid north.
        size: of the lettering.
    """
    long = height - _STAR_MM
    angle = radians(-convergence_deg)
    if abs(long * sin(angle)) < LEAST_APART_MM:
        return None
    side = 1.0 if angle > 0 else -1.0  # on which true north lies
    room = size * 2.6 + _GAP_MM
    foot = np.array((room + max(0.0, -long * sin(angle)), -height))
    star = foot + long * np.array((sin(angle), cos(angle)))
    tip = foot + np.array((0.0, long * _GRID_PART))
    ink = (
        Stroke(lines=(np.array([foot, star]), np.array([foot, tip])), pen=_PEN),
        Fill(rings=(_star(star), tip + _HEAD)),
        _name("true", float(star[0]) + side * (_STAR_MM + _GAP_MM), float(star[1]), size, side),
        _name("grid", float(tip[0]) - side * _GAP_MM * 1.5, float(tip[1]) - size, size, -side),
    )
    return Panel(width=2 * room + abs(long * sin(angle)), height=height, ink=ink)


_HEAD: Points = np.array([(0.0, 0.6), (-0.5, -1.4), (0.5, -1.4)])


def _name(text: str, x: float, y: float, size: float, side: float) -> Text:
    anchor = Anchor.LEFT if side > 0 else Anchor.RIGHT
    return Text(text=text, x=x, y=y - size * 0.35, size=size, anchor=anchor)


def _star(middle: Points) -> Points:
    turns = radians(36) * np.arange(10)
    reach = np.where(np.arange(10) % 2, 0.4, 1.0) * _STAR_MM
    return np.asarray(middle + np.column_stack([reach * np.sin(turns), reach * np.cos(turns)]))
