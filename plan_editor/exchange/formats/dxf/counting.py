"""How many things a drawing comes to, blocks within blocks included, before any is drawn.

A few blocks that hold one another, or one block in a grid of itself, can stand for thousands of
millions of lines in a file of a few lines. The count is a sum of products and costs nothing.
"""

from collections.abc import Iterable

from ezdxf.document import Drawing as Document
from ezdxf.entities.dxfentity import DXFEntity

from plan_editor.errors import CannotRead

MOST_THINGS = 1_000_000
"""More than this is no drawing of a churchyard and would not be of use under one."""

_DEEPEST = 40

_RING = (
    "The drawing cannot be laid under the ground: its block “{}” holds itself. Nothing was "
    "changed. Ask its maker for a copy that has been checked."
)
_DEEP = (
    "The drawing cannot be laid under the ground: blocks lie within blocks more than {} deep. "
    "Nothing was changed. Ask its maker for a simpler copy."
)
_MANY = (
    "The drawing cannot be laid under the ground: it comes to more than {:,} lines and texts. "
    "Nothing was changed. Ask its maker for a copy of the churchyard alone."
)


def block_drawn(entity: DXFEntity) -> str:
    """Return the name of the block that an entity is drawn by, empty for none."""
    if entity.dxftype() == "INSERT":
        return str(entity.dxf.get("name", ""))
    if entity.dxftype() in {"DIMENSION", "ARC_DIMENSION", "LARGE_RADIAL_DIMENSION"}:
        return str(entity.dxf.get("geometry", ""))
    return ""


def refuse_too_many(document: Document) -> None:
    """Refuse a drawing that comes to too much.

    Raises:
        CannotRead: it does, or a block holds itself.
    """
    sizes: dict[str, int] = {}
    if _size(document, document.modelspace(), sizes, ()) > MOST_THINGS:
        raise CannotRead(_MANY.format(MOST_THINGS))


def _size(
    document: Document,
    entities: Iterable[DXFEntity],
    sizes: dict[str, int],
    within: tuple[str, ...],
) -> int:
    return sum(_one(document, entity, sizes, within) for entity in entities)


def _one(
    document: Document, entity: DXFEntity, sizes: dict[str, int], within: tuple[str, ...]
) -> int:
    name = block_drawn(entity)
    if not name or name not in document.blocks:
        return 1
    key = name.lower()
    if key in within:
        raise CannotRead(_RING.format(name))
    if len(within) >= _DEEPEST:
        raise CannotRead(_DEEP.format(_DEEPEST))
    if key not in sizes:
        sizes[key] = _size(document, document.blocks[name], sizes, (*within, key))
    return max(1, sizes[key]) * _times(entity)


def _times(entity: DXFEntity) -> int:
    if entity.dxftype() != "INSERT":
        return 1
    rows = int(entity.dxf.get("row_count", 1))
    columns = int(entity.dxf.get("column_count", 1))
    return max(1, rows) * max(1, columns)
