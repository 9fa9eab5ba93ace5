"""Every item as it lies once the whole plan has been moved to another grid."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from plan_editor.errors import EditRefused
from plan_editor.geometry.bearings import normal
from plan_editor.geometry.mappings import Affine
from plan_editor.geometry.moving import carried
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, kept_place, note, observation
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.item import Item, all_on
from plan_editor.plan.plan import Plan
from plan_editor.survey.fits.models import Model
from plan_editor.survey.grids.frame_fit import Way

LEVEL_DEG = 90.0
"""A note that runs so is level on the paper, and stays level."""

_CONTROL_DIGITS = 4
"""Places that a base plan was placed by are kept to a tenth of a millimetre."""

_BEARING_DIGITS = 9


def moved_items(plan: Plan, way: Way) -> Iterator[Item[Any]]:
    """Return every item that has a place, or a bearing from grid north, as it lies afterwards.

    Raises:
        EditRefused: one would lie more than 100 km from the new origin, or vanish.
    """
    items = [_turned(item, way) for item in plan.items.values()]
    held = [(i, i.rectangle) for i in items if i.rectangle is not None]
    loose = [i for i in items if i.rectangle is None and i.shape is not None]
    yield from all_on([i for i, _ in held], _carried([r for _, r in held], way))
    shapes = carried([i.shape for i in loose if i.shape is not None], way.all_at)
    for item, shape in zip(loose, shapes, strict=True):
        try:
            yield item.at(shape)
        except ValueError as fault:
            raise EditRefused(
                f"{item.called()} cannot lie there: {fault}. The plan was not moved, and"
                " nothing was changed."
            ) from fault
    yield from (i for i in items if i.shape is None)


def _carried(rectangles: Sequence[Rectangle], way: Way) -> list[Rectangle]:
    """Return rectangles turned, their middles carried, their sides kept."""
    return [_about(r, way.at(*r.centre), way.turn_deg) for r in rectangles]


def _about(rectangle: Rectangle, centre: tuple[float, float], turn_deg: float) -> Rectangle:
    was = rectangle.centre
    return rectangle.turned(turn_deg, was).moved(centre[0] - was[0], centre[1] - was[1])


def _turned(item: Item[Any], way: Way) -> Item[Any]:
    """Return an item with what its details say of grid north, or of places, made true."""
    details = item.details
    if item.kind == base_plan.KIND:
        details = _placed(details, way)
    elif item.kind == kept_place.KIND and len(details.seen) == 3:
        east, north = way.at(*details.seen[:2])
        seen = round(east, 3), round(north, 3), details.seen[2]
        details = replace(details, seen=seen)
    elif _has_bearing(item):
        details = replace(details, bearing_deg=_bearing(details.bearing_deg, way))
    elif (facing := item.kind.facing_deg(details)) is not None:
        details = replace(details, **{item.kind.facing: _bearing(facing, way)})
    return item if details is item.details else replace(item, details=details)


def _has_bearing(item: Item[Any]) -> bool:
    if item.kind == observation.KIND:
        # what a compass read stays as read: by how much it is off is found from the book
        return item.details.bearing_deg is not None and not item.details.compass
    return item.kind == note.KIND and item.details.bearing_deg != LEVEL_DEG


def _bearing(bearing_deg: float, way: Way) -> float:
    return normal(round(bearing_deg + way.turn_deg, _BEARING_DIGITS))


def _placed(details: BasePlanDetails, way: Way) -> BasePlanDetails:
    control = np.array(details.control).reshape(-1, 4)
    control[:, 2:] = way.all_at(control[:, 2:]).round(_CONTROL_DIGITS) + 0.0
    bent = details.model is Model.PROJECTIVE and len(details.bend) == 8
    return replace(
        details,
        fit=_composed(details.fit, way) if details.fit else (),
        bend=_in_perspective(details.bend, way) if bent else details.bend,
        control=tuple(control.ravel().tolist()),
    )


def _composed(fit: Sequence[float], way: Way) -> Affine:
    """Return six numbers that lead onward by a way."""
    a, b, c, d, e, f = fit
    return (
        way.a * a - way.b * d,
        way.a * b - way.b * e,
        way.a * c - way.b * f + way.c,
        way.b * a + way.a * d,
        way.b * b + way.a * e,
        way.b * c + way.a * f + way.d,
    )


def _in_perspective(bend: Sequence[float], way: Way) -> tuple[float, ...]:
    """Return eight numbers that lead onward by a way; the vanishing line stays."""
    a, b, c, d, e, f, g, h = bend
    a, b, c, d, e, f = _composed((a, b, c, d, e, f), way)
    # the shift is added to the quotient, so it meets the divisor too
    return (a + way.c * g, b + way.c * h, c, d + way.d * g, e + way.d * h, f, g, h)
