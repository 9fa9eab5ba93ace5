"""What findings call things and places."""

from collections.abc import Iterable
from typing import Any

from shapely.geometry.base import BaseGeometry

from plan_editor.plan.item import Item

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""


def named(items: Iterable[Item[Any]]) -> str:
    """Return what to call some things in a sentence: ``Grave C 14 and grave C 15``."""
    told = [within(i) for i in items]
    first = told[0][:1].upper() + told[0][1:]
    if len(told) == 1:
        return first
    return f"{', '.join((first, *told[1:-1]))} and {told[-1]}"


def within(item: Item[Any]) -> str:
    """Return what to call a thing in the midst of a sentence: ``grave C 14``, ``a bench``."""
    name = item.called()
    if name == item.kind.title:
        return item.kind.one
    return name[:1].lower() + name[1:]


def inside(shape: BaseGeometry) -> Place:
    """Return a place on a shape: its middle, where that lies on it."""
    middle = shape.centroid
    at = middle if shape.intersects(middle) else shape.representative_point()
    return float(at.x), float(at.y)
