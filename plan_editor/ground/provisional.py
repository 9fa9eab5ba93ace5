"""A base plan that has not been placed, laid across the view so that one can click on it."""

from dataclasses import replace
from typing import Any

import numpy as np

from plan_editor.ground.base_plans import Laid, laid
from plan_editor.kinds.base_plan import Content
from plan_editor.plan.item import Item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.fits.models import Model

Box = tuple[float, float, float, float]

FILLED = 0.8
"""The share of the view that it fills."""


def provisionally(item: Item[Any], view: Box) -> Laid:
    """Return a base plan as it lies across a view, upright, its middle in the middle.

    Args:
        item: the base plan.
        view: least east and north, greatest east and north, in metres.
    """
    x0, y0, x1, y1 = item.details.extent
    west, south, east, north = view
    side = FILLED * min((east - west) / (x1 - x0), (north - south) / (y1 - y0))
    # pixels count down, the units of a drawing count up
    down = -side if item.details.content is Content.SCAN else side
    fit = (
        side,
        0.0,
        (west + east) / 2 - side * (x0 + x1) / 2,
        0.0,
        down,
        (south + north) / 2 - down * (y0 + y1) / 2,
    )
    details = replace(
        item.details, model=Model.SIMILARITY, fit=fit, bend=(), opacity=1.0, shown=True
    )
    return laid(plan_of([replace(item, details=details)]))[0]


def on_base_plan(placed: Laid, east: float, north: float) -> tuple[float, float]:
    """Return the place on a base plan, in its own pixels or units, of a place on the ground."""
    x, y = placed.mapping.to_paper(np.array([(east, north)]))[0].tolist()
    return x, y
