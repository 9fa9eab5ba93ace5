"""Where a memorial that is asked for stands, or lies, on its grave."""

from math import cos, radians, sin
from typing import Any

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds.application import ApplicationDetails, Shape
from plan_editor.plan.item import Item

_FLAT = (Shape.LEDGER, Shape.TABLET)


def standing_on(space: Item[Any], asked: ApplicationDetails) -> Rectangle | None:
    """Return the footprint of a memorial on its grave, or None where it cannot be told.

    An upright one stands across the head, its back on the head line; a flat one lies in the
    middle. Its own head line is its face, towards the foot. None where the grave is no
    rectangle, or a side is missing.

    Args:
        space: the grave.
        asked: its sizes. Of a flat one the height is its length from head to foot.
    """
    flat = asked.form in _FLAT
    wide, deep = asked.width_mm, asked.height_mm if flat else asked.thickness_mm
    if space.rectangle is None or wide is None or deep is None:
        return None
    on = space.rectangle
    back = max(0.0, (on.length - deep / 1000) / 2) if flat else 0.0
    return _across(on, wide / 1000, deep / 1000, back)


def _across(on: Rectangle, width: float, deep: float, back: float) -> Rectangle:
    """Return a rectangle in the middle of a grave's breadth, so far behind its head line."""
    angle = radians(on.bearing_deg)
    along, foot = (on.width + width) / 2, back + deep
    return Rectangle(
        east=on.east + along * sin(angle) + foot * cos(angle),
        north=on.north + along * cos(angle) - foot * sin(angle),
        width=width,
        length=deep,
        bearing_deg=(on.bearing_deg + 180.0) % 360.0,
    )
