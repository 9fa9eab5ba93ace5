"""Blocks: the symbols of points, and things that stand on the ground, with their attributes.

A point is always a block. A rectangle is one where its kind has columns in a schedule and
stands in the way of a mower, as a stone does; a space of ground, as a grave is, stays a closed
polyline, which a drawing program can measure.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from plan_editor.drawing.compose import Group
from plan_editor.drawing.symbols import Symbol, circle, symbol, turn_deg
from plan_editor.exchange.formats.dxf.board import Board, Entity, drawn_with, mark, size_of
from plan_editor.exchange.formats.dxf.layers import Presentation, layer_of
from plan_editor.exchange.formats.dxf.numbers import Number, text_attributes
from plan_editor.exchange.formats.dxf.pens import Attributes
from plan_editor.exchange.formats.dxf.shapes import look_of
from plan_editor.exchange.formats.dxf.words import in_one_line
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look

NUMBER = "NUMBER"
"""The tag of the attribute that holds an item's number."""

_BY_BLOCK: Attributes = {"layer": "0", "color": 0, "linetype": "ByBlock", "lineweight": -2}
_DOT_MM = 0.8
_INVISIBLE = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What attributes say beyond the details of the item itself.

    Args:
        tags: by the name of a kind, the tags that its blocks have besides.
        words: by the id of an item, what these say.
        names: by the id of an item, what to call it where another refers to it.
    """

    tags: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    words: Mapping[ItemId, Mapping[str, str]] = field(default_factory=dict)
    names: Mapping[ItemId, str] = field(default_factory=dict)


def scheduled(kind: Kind) -> tuple[Detail, ...]:
    """Return the details that its blocks show: columns of schedules, none that are private."""
    return tuple(d for d in kind.entries() if d.about.schedule and not d.about.private)


def is_block(item: Item[Any]) -> bool:
    """Return whether an item is drawn as a block."""
    match item.form:
        case Form.POINT:
            return True
        case Form.RECTANGLE:
            return bool(scheduled(item.kind)) and Blocks.MOWING in item.kind.blocks
        case _:
            return False


def draw_blocks(
    board: Board,
    group: Group,
    items: Iterable[Item[Any]],
    told: Told,
    numbers: Mapping[ItemId, Number],
) -> None:
    """Draw items as blocks, each with its attributes; the one that labels it can be read."""
    kind, look = group.kind, look_of(group)
    layer = layer_of(board.document, kind, Presentation.ELEMENT)
    pen = drawn_with(board.document, layer, look.pen, kind.look.pen)
    text = text_attributes(board, layer_of(board.document, kind, Presentation.TEXT))
    for item in items:
        name, place = _placing(board, kind, look, item)
        put = board.space.add_blockref(name, place.pop("insert"), dxfattribs=pen | place)
        mark(put, item, "place", size_of(kind, item))
        _attach(put, item, told, numbers.get(item.id), text)


def _placing(board: Board, kind: Kind, look: Look, item: Item[Any]) -> tuple[str, Attributes]:
    if (rectangle := item.rectangle) is not None:
        east, north = board.grid.to_crs(rectangle.east, rectangle.north)
        return _body(board, kind, look), {
            "insert": (east, north),
            "xscale": rectangle.length,
            "yscale": rectangle.width,
            "rotation": -rectangle.bearing_deg,
        }
    ((east, north),) = board.true(np.array(item.shape.coords))  # type: ignore[union-attr]  # a point
    height = _height(board, look, size_of(kind, item))
    scales = {"xscale": height, "yscale": height, "zscale": height}
    turn = turn_deg(kind.facing_deg(item.details))
    turned = {"rotation": -turn} if turn else {}
    return _sign(board, kind, look), {"insert": (float(east), float(north)), **scales, **turned}


def _height(board: Board, look: Look, diameter_m: float) -> float:
    """Return how high a symbol is on the ground: as its look says, or to scale where larger."""
    if not look.symbol:
        return max(_DOT_MM * board.metres_per_mm, diameter_m)
    return max(look.symbol_mm * board.metres_per_mm, diameter_m / symbol(look.symbol).core)


def _body(board: Board, kind: Kind, look: Look) -> str:
    name = f"{kind.element}-{'SOLID' if look.solid else 'BODY'}"
    if name in board.document.blocks:
        return name
    block = board.document.blocks.new(name)
    square = [(0, 0), (1, 0), (1, 1), (0, 1)]
    block.add_lwpolyline(square, close=True, dxfattribs=_BY_BLOCK)
    if look.solid:
        block.add_solid([(0, 0), (1, 0), (0, 1), (1, 1)], dxfattribs=_BY_BLOCK)
    _templates(board, block, kind)
    return name


def _sign(board: Board, kind: Kind, look: Look) -> str:
    name = f"{kind.element}-{look.symbol.upper() or 'DOT'}"
    if name in board.document.blocks:
        return name
    block = board.document.blocks.new(name)
    _draw(block, symbol(look.symbol) if look.symbol else _dot())
    _templates(board, block, kind)
    return name


def _dot() -> Symbol:
    return Symbol(fills=(circle(0.0, 0.0, 0.5),), closed=(), open=(), core=1.0)


def _draw(block: Entity, drawn: Symbol) -> None:
    for ring in drawn.fills:
        solid = block.add_hatch(color=0, dxfattribs=_BY_BLOCK)
        solid.paths.add_polyline_path(ring.tolist(), is_closed=True)
    for ring in drawn.closed:
        block.add_lwpolyline(ring.tolist(), format="xy", close=True, dxfattribs=_BY_BLOCK)
    for line in drawn.open:
        block.add_lwpolyline(line.tolist(), format="xy", dxfattribs=_BY_BLOCK)


def _templates(board: Board, block: Entity, kind: Kind) -> None:
    del board
    for detail in scheduled(kind):
        unit = f", {detail.about.unit}" if detail.about.unit else ""
        block.add_attdef(
            tag=detail.name.upper(),
            insert=(0, 0),
            dxfattribs={
                **_BY_BLOCK,
                "prompt": f"{detail.about.title}{unit}",
                "flags": _INVISIBLE,
                "height": 0.1,
            },
        )


def _attach(
    put: Entity,
    item: Item[Any],
    told: Told,
    number: Number | None,
    text: Attributes,
) -> None:
    words = {NUMBER: item.number}
    words |= {d.name.upper(): spoken(item, d, told) for d in scheduled(item.kind)}
    words |= dict.fromkeys(told.tags.get(item.kind.name, ()), "")
    words |= told.words.get(item.id, {})
    words = {tag: in_one_line(said) for tag, said in words.items()}
    hidden = text | {"flags": _INVISIBLE}
    at = put.dxf.insert
    for tag, said in words.items():
        if number is not None and said == number.text:
            attribute = put.add_attrib(tag, said, number.at, dxfattribs=text)
            number.place(attribute)
            number = None
        else:
            put.add_attrib(tag, said, at, dxfattribs=hidden)


def spoken(item: Item[Any], detail: Detail, told: Told) -> str:
    """Return what an item's detail says, as a file for another program holds it."""
    value = getattr(item.details, detail.name)
    if value is None:
        return ""
    match detail.value:
        case Value.YES_NO:
            return "yes" if value else "no"
        case Value.NUMBERS:
            return " ".join(f"{part:g}" for part in value)
        case Value.NUMBER:
            return f"{value:g}"
        case Value.ITEM:
            return told.names.get(value, "")
        case _:
            return str(value)
