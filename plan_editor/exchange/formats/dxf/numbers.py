"""Numbers and names: where they are written beside what they belong to, and how high."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from ezdxf.enums import TextEntityAlignment

from plan_editor.drawing.compose import Group
from plan_editor.drawing.ink import Points
from plan_editor.drawing.lettering import CAPITAL
from plan_editor.drawing.wishes import wishes
from plan_editor.exchange.formats.dxf.board import Board, Entity, mark
from plan_editor.exchange.formats.dxf.layers import Presentation, layer_of
from plan_editor.exchange.formats.dxf.pens import Attributes
from plan_editor.exchange.formats.dxf.words import in_one_line
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form

STYLE, BOLD = "PLAN", "PLAN-BOLD"
"""The text styles; a program that lacks the shipped fonts replaces them."""

FONTS = {STYLE: "SourceSans3-Regular.ttf", BOLD: "SourceSans3-SemiBold.ttf"}

_INSIDE = 1  # of the places that a label of a rectangle wishes for


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A number or name beside an item.

    Args:
        text: in one line.
        at: its middle, in the coordinates of the drawing.
        height: of its capitals, in metres.
        turn_deg: anticlockwise.
    """

    text: str
    at: tuple[float, float]
    height: float
    turn_deg: float

    def place(self, entity: Entity) -> None:
        """Put a text or an attribute there."""
        entity.dxf.height = self.height
        entity.dxf.rotation = self.turn_deg
        entity.set_placement(self.at, align=TextEntityAlignment.MIDDLE_CENTER)


def numbers_of(board: Board, groups: tuple[Group, ...]) -> Mapping[ItemId, Number]:
    """Return the number or name of each item that has one."""
    items = [item for group in groups for item in group.items]
    boxed = [flag for group in groups for flag in [_rectangular(group)] * len(group.items)]
    wished = wishes(groups, board.viewport)
    if not wished:
        return {}
    chosen = [_dearest(wish.places, inside=boxed[wish.own]) for wish in wished]
    middles = board.from_paper(np.array(chosen))
    return {
        items[wish.own].id: Number(
            text=in_one_line(wish.text),
            at=(east, north),
            height=wish.size * CAPITAL * board.metres_per_mm,
            turn_deg=wish.turn_deg,
        )
        for wish, (east, north) in zip(wished, middles.tolist(), strict=True)
    }


def draw_numbers(
    board: Board, group: Group, items: Iterable[Item[Any]], numbers: Mapping[ItemId, Number]
) -> None:
    """Write the numbers and names of items."""
    for item in items:
        if (number := numbers.get(item.id)) is not None:
            layer = layer_of(board.document, group.kind, Presentation.TEXT)
            text = board.space.add_text(number.text, dxfattribs=text_attributes(board, layer))
            number.place(text)
            mark(text, item, "number")


def text_attributes(board: Board, layer: str) -> Attributes:
    """Return the attributes of a text on a layer before it is given its place and height."""
    return {"layer": layer, "style": STYLE, "height": 1.25 * board.metres_per_mm}


def _rectangular(group: Group) -> bool:
    return all(item.form is Form.RECTANGLE for item in group.items)


def _dearest(places: Points, *, inside: bool) -> Points:
    # no label gives way to another here, so that in a rectangle is better than at its foot
    fits = inside and not np.isnan(places[_INSIDE]).any()
    return np.asarray(places[_INSIDE if fits else 0])
