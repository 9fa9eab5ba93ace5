"""The paper sheet: which paper and scale the ground fits, and where what lies on it."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from plan_editor.drawing.scales import fits, largest
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.item import BASE_PLAN, Item
from plan_editor.plan.plan import Plan

Box = tuple[float, float, float, float]

_PAPERS = (
    ("A3", 420.0, 297.0),
    ("A2", 594.0, 420.0),
    ("A1", 841.0, 594.0),
    ("A0", 1189.0, 841.0),
)
_FILING, _EDGE = 20.0, 10.0  # margins of ISO 5457, in millimetres
PANEL = 76.0
"""Width of the strip at the right for title block, scale bar and north point."""

_LEAST_SCALE, _COARSE = 100.0, 200.0
_METRES_LEAST = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSheet:
    """A sheet of paper in millimetres, and the window on the ground that lies on it."""

    paper: str
    width: float
    height: float
    viewport: Viewport

    @property
    def frame(self) -> Box:
        """The frame within the margins: left, bottom, right, top."""
        return _frame(self.width, self.height)


def paper_sheet(plan: Plan) -> PaperSheet:
    """Return the smallest paper on which the plan has a scale of 1:200 or larger, or else A0.

    On A0 the scale is the largest preferred one that fits.
    """
    e0, n0, e1, n1 = _extent(plan)
    ground = max(e1 - e0, _METRES_LEAST), max(n1 - n0, _METRES_LEAST)
    name, width, height, scale = _chosen(ground)
    left, bottom, right, top = _frame(width, height)
    return PaperSheet(
        paper=name,
        width=width,
        height=height,
        viewport=Viewport(
            east=(e0 + e1) / 2,
            north=(n0 + n1) / 2,
            scale=scale,
            frame=(left, bottom, right - PANEL, top),
        ),
    )


def _chosen(ground: tuple[float, float]) -> tuple[str, float, float, float]:
    for name, width, height in _PAPERS:
        scale = largest(ground, _room(width, height), least=_LEAST_SCALE)
        if scale is not None and scale <= _COARSE:
            return name, width, height, scale
    name, width, height = _PAPERS[-1]
    room = _room(width, height)
    scale = largest(ground, room, least=_LEAST_SCALE) or _whatever_fits(ground, room)
    return name, width, height, scale


def _whatever_fits(ground: tuple[float, float], room: tuple[float, float]) -> float:
    scale = 20_000.0
    while not fits(ground, room, scale):
        scale *= 2
    return scale


def _room(width: float, height: float) -> tuple[float, float]:
    left, bottom, right, top = _frame(width, height)
    return right - PANEL - left, top - bottom


def _frame(width: float, height: float) -> Box:
    return _FILING, _EDGE, width - _EDGE, height - _EDGE


def _extent(plan: Plan) -> Box:
    boxes = [
        _spread(item, item.box)
        for item in plan.items.values()
        if item.box is not None and item.kind.name != BASE_PLAN
    ]
    if not boxes:
        return 0.0, 0.0, _METRES_LEAST, _METRES_LEAST
    rows = np.array(boxes)
    e0, n0 = rows[:, :2].min(axis=0).tolist()
    e1, n1 = rows[:, 2:].max(axis=0).tolist()
    return e0, n0, e1, n1


def _spread(item: Item[Any], box: Box) -> Box:
    """Return the box of an item with its crown."""
    crown = item.kind.crown_m(item.details)
    if crown is None or item.shape is None:
        return box
    north, east, south, west = crown
    e0, n0, e1, n1 = item.shape.bounds
    return (
        min(box[0], e0 - west),
        min(box[1], n0 - south),
        max(box[2], e1 + east),
        max(box[3], n1 + north),
    )
