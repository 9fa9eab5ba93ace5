"""All lines and texts of a drawing that are to be seen, its blocks drawn where they are put."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from math import floor, log2
from typing import Any, TypeAlias

import numpy as np
from ezdxf.document import Drawing as Document
from ezdxf.protocols import SupportsVirtualEntities, virtual_entities

from plan_editor.exchange.formats.dxf.arcs import TooLarge
from plan_editor.exchange.formats.dxf.counting import block_drawn
from plan_editor.exchange.formats.dxf.curves import lines_of
from plan_editor.exchange.formats.dxf.opening import BROKEN
from plan_editor.exchange.formats.dxf.pieces import Matrix, Pieces, Space, pieces_of, together
from plan_editor.exchange.formats.dxf.texts import written

Entity: TypeAlias = Any

OFF = "off"
"""What is left out because its layer, or it itself, is switched off or frozen."""
ELSEWHERE = "elsewhere"
"""What is left out because it lies in another file."""
LARGE = "large"
"""What is left out because it would take too many points."""
DAMAGED = "damaged"
"""What is left out because its numbers make no sense."""
POINT = "point"
"""Not left out: points, which are drawn as crosses."""

CROSS_M = 0.2
"""How wide the cross is that a point is drawn as, in metres."""

_BY_BLOCK = "0"  # the layer of a thing in a block that shares the layer of the block
_SILENT = frozenset({"ATTDEF", "SEQEND", "VIEWPORT"})  # nothing is to be seen of them
_ALWAYS_SHOWN = 2  # flag of an attribute's template: it stands in the block itself


@dataclass(frozen=True, slots=True, kw_only=True)
class Layers:
    """The layers of a drawing that are not seen, in lower case."""

    off: frozenset[str]
    frozen: frozenset[str]


def layers_of(document: Document) -> Layers:
    """Return the layers that are switched off or frozen."""
    layers = list(document.layers)
    return Layers(
        off=frozenset(x.dxf.name.lower() for x in layers if x.is_off()),
        frozen=frozenset(x.dxf.name.lower() for x in layers if x.is_frozen()),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathering:
    """One pass over a drawing.

    Args:
        document: the drawing.
        within: greatest distance between chord and curve, in units of the drawing.
        cross: half the width of the cross of a point, in units of the drawing.
        blocks: what each block came to, by name, tolerance and whether its layer is off.
    """

    document: Document
    layers: Layers
    within: float
    cross: float
    blocks: dict[tuple[str, int, bool], Pieces] = field(default_factory=dict)


def gather(gathering: Gathering) -> Pieces:
    """Return all that is seen in the drawing's model space."""
    space = gathering.document.modelspace()
    with np.errstate(all="ignore"):  # what is no number is sorted out here
        return _all(gathering, space, gathering.within, by_block_off=False).finite()


def _all(
    gathering: Gathering, entities: Iterable[Entity], within: float, *, by_block_off: bool
) -> Pieces:
    lines: list[Space] = []
    parts: list[Pieces] = []
    left_out: Counter[str] = Counter()
    for entity in entities:
        if not _seen(gathering.layers, entity, by_block_off=by_block_off):
            left_out[OFF] += 1
            continue
        try:
            plain = lines_of(entity, within)
            if plain is None:
                parts.append(_one(gathering, entity, within, by_block_off=by_block_off))
            else:
                lines.extend(plain)
        except TooLarge:
            left_out[LARGE] += 1
        except BROKEN:
            left_out[DAMAGED] += 1
    return together([pieces_of(lines), *parts, Pieces(left_out=left_out)])


def _seen(layers: Layers, entity: Entity, *, by_block_off: bool) -> bool:
    if entity.dxf.get("invisible", 0):
        return False
    layer = entity.dxf.get("layer", _BY_BLOCK).lower()
    if layer in layers.frozen:
        return False
    if block_drawn(
        entity
    ):  # a layer switched off, unlike a frozen one, lets its blocks be seen
        return True
    return not (by_block_off if layer == _BY_BLOCK else layer in layers.off)


def _one(gathering: Gathering, entity: Entity, within: float, *, by_block_off: bool) -> Pieces:
    """Return what is seen of a thing that is no plain line."""
    sort = entity.dxftype()
    if sort == "POINT":
        return _cross(entity, gathering.cross)
    if name := block_drawn(entity):
        return _block(gathering, entity, name, within, by_block_off=by_block_off)
    if sort in _SILENT and not entity.dxf.get("flags", 0) & _ALWAYS_SHOWN:
        return Pieces()
    found = written(entity)
    if found is not None:
        return found
    if isinstance(entity, SupportsVirtualEntities):
        parts = list(virtual_entities(entity))
        if parts:
            return _all(gathering, parts, within, by_block_off=by_block_off)
    return Pieces(left_out=Counter({sort: 1}))


def _cross(entity: Entity, half: float) -> Pieces:
    at = np.array(entity.dxf.location.xyz)
    east, north = np.array([half, 0.0, 0.0]), np.array([0.0, half, 0.0])
    crossed = [np.array([at - east, at + east]), np.array([at - north, at + north])]
    return together([pieces_of(crossed), Pieces(left_out=Counter({POINT: 1}))])


def _block(
    gathering: Gathering, entity: Entity, name: str, within: float, *, by_block_off: bool
) -> Pieces:
    layer = entity.dxf.get("layer", _BY_BLOCK).lower()
    off = by_block_off if layer == _BY_BLOCK else layer in gathering.layers.off
    block: Entity = gathering.document.blocks.get(name)
    if block is None or block.block.is_xref:
        return Pieces(left_out=Counter({ELSEWHERE: 1}))
    if entity.dxftype() != "INSERT":
        return _content(gathering, name, within, off=off)
    put = [np.array(list(one.matrix44().rows())) for one in _each(entity)]
    content = _content(gathering, name, within / max(map(_stretch, put)), off=off)
    notes = _all(gathering, entity.attribs, within, by_block_off=off)
    return together([notes, *(content.moved(matrix) for matrix in put)])


def _each(entity: Entity) -> Iterable[Entity]:
    return entity.multi_insert() if entity.mcount > 1 else (entity,)


def _stretch(matrix: Matrix) -> float:
    found = float(np.abs(np.linalg.svd(matrix[:3, :3], compute_uv=False)).max())
    return found if found > 0 else 1.0


def _content(gathering: Gathering, name: str, within: float, *, off: bool) -> Pieces:
    # the tolerance goes down to a power of two: blocks put at like sizes are drawn once
    power = floor(log2(within))
    key = (name.lower(), power, off)
    if key not in gathering.blocks:
        block = gathering.document.blocks[name]
        gathering.blocks[key] = _all(gathering, block, 2.0**power, by_block_off=off)
    return gathering.blocks[key]
