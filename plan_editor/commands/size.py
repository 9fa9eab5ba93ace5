"""How large a thing is, in metres with feet and inches beside them."""

from dataclasses import dataclass
from typing import Any

from plan_editor.geometry.lengths import as_feet_and_inches
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form


@dataclass(frozen=True, slots=True)
class Figure:
    """One computed figure: what it is, and its text with the unit."""

    title: str
    text: str


def sizes(item: Item[Any]) -> tuple[Figure, ...]:
    """Return an item's size: sides, area and perimeter, or length; nothing of a point."""
    shape = item.shape
    if shape is None:
        return ()
    match item.form:
        case Form.NONE | Form.POINT:
            return ()
        case Form.LINE:
            return (Figure("Length", length(shape.length)),)
        case Form.AREA:
            return (Figure("Area", area(shape.area)), Figure("Round it", length(shape.length)))
        case Form.RECTANGLE:
            return (*_sides(item), Figure("Area", area(shape.area)))


def length(metres: float) -> str:
    """Return a length as a sexton reads it: ``2.13 m  (7′ 0″)``."""
    return f"{metres:.2f} m  ({as_feet_and_inches(metres)})"


def area(square_metres: float) -> str:
    """Return an area: to the tenth of a square metre under 1,000, else to the whole one."""
    if square_metres < 1000:
        return f"{square_metres:.1f} m²" if square_metres >= 10 else f"{square_metres:.2f} m²"
    return f"{thousands(square_metres)} m²"


def thousands(number: float) -> str:
    """Return a number to the whole one, its digits in groups of three."""
    return f"{number:,.0f}".replace(",", "\u202f")


def _sides(item: Item[Any]) -> tuple[Figure, ...]:
    sides = item.rectangle
    if sides is None:
        return ()
    along, across = ("Head line", "Length") if item.kind.look.head_bar else ("Face", "Depth")
    return (
        Figure(along, length(sides.width)),
        Figure(across, length(sides.length)),
        Figure("Faces", f"{sides.facing_deg:.1f}° from grid north"),
    )
