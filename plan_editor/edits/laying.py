"""An item with another shape, mended where that is plain, or refused with the place said."""

from dataclasses import replace
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.errors import EditRefused
from plan_editor.geometry.edges import Place
from plan_editor.geometry.mending import fault_in, mended
from plan_editor.geometry.outlines import Rectangle, rectangle_of
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan


def laid(plan: Plan, item: Item[Any], place: BaseGeometry | Rectangle) -> Item[Any]:
    """Return an item with another shape, or on a rectangle.

    Raises:
        EditRefused: the shape is not one that can be kept, nor one that is plainly mended; the
            sentence says where.
    """
    if isinstance(place, Rectangle):
        return item.on(place)
    shape = mended(place)
    if shape is None:
        fault = fault_in(place)
        where = "" if fault.place is None else f" at {spot(plan, fault.place)}"
        raise EditRefused(
            f"{item.called()} cannot lie like that: {fault.what}{where}. Nothing was changed."
            " Bring the corners there apart."
        )
    return at(item, shape)


def laid_as_before(plan: Plan, item: Item[Any], place: BaseGeometry) -> Item[Any]:
    """Return an item with another shape: a rectangle stays one where the shape is one.

    Raises:
        EditRefused: as ``laid``.
    """
    after = laid(plan, item, place)
    held = item.rectangle
    alike = None if held is None else _as_rectangle(place, held)
    return after if alike is None else item.on(alike)


def at(item: Item[Any], shape: BaseGeometry) -> Item[Any]:
    """Return an item at a shape.

    Raises:
        EditRefused: the shape cannot be kept.
    """
    try:
        return item.at(shape)
    except ValueError as fault:
        raise EditRefused(
            f"{item.called()} cannot lie like that: {fault}. Nothing was changed."
        ) from fault


def workable(item: Item[Any]) -> tuple[Item[Any], BaseGeometry]:
    """Return an item with its shape, which is that of a line or an area.

    Raises:
        EditRefused: it is neither, or lies where it was placed.
    """
    refuse_pinned(item)
    if item.shape is None or item.form is Form.POINT:
        raise EditRefused(
            f"{item.called()} is neither a line nor an area. Nothing was changed. Leave it out."
        )
    return item, item.shape


def refuse_pinned(item: Item[Any]) -> None:
    """Refuse an item that lies where it was placed.

    Raises:
        EditRefused: it does.
    """
    if item.kind.pinned:
        raise EditRefused(
            f"{item.called()} lies where it was placed. Nothing was changed. Place it again"
            " instead."
        )


def spot(plan: Plan, place: Place) -> str:
    """Return a place as a sentence says it: ``E 553012.30, N 421043.10``."""
    east, north = plan.grid.to_crs(*place)
    return f"E {east:.2f}, N {north:.2f}"


def _as_rectangle(shape: BaseGeometry, held: Rectangle) -> Rectangle | None:
    """Return the rectangle that a shape is, its head line on the side that was the head."""
    plain = shapely.simplify(shapely.normalize(shape), SAME)
    found = rectangle_of(plain)
    if found is None:
        return None
    corners = found.corners()
    ways = (
        replace(
            found,
            east=corners[n][0],
            north=corners[n][1],
            width=found.length if n % 2 else found.width,
            length=found.width if n % 2 else found.length,
            bearing_deg=found.bearing_deg + 90.0 * n,
        )
        for n in range(4)
    )
    return min(ways, key=lambda r: abs((r.bearing_deg - held.bearing_deg + 180) % 360 - 180))
