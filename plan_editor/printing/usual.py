"""What every sheet has in common: title block, north and scale, sources, base plans."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from plan_editor.drawing.backdrop import Backdrop
from plan_editor.drawing.ink import Clipped, Ink, Text
from plan_editor.drawing.lettering import unwritable
from plan_editor.drawing.north_point import north_point
from plan_editor.drawing.norths import briefly, facts_of, norths, up_told
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, beside, stacked, words
from plan_editor.drawing.scale_bar import scale_bar
from plan_editor.drawing.title_block import TitleBlock
from plan_editor.drawing.underlay import underlay
from plan_editor.drawing.viewport import Viewport
from plan_editor.ground.base_plans import laid
from plan_editor.plan.item import BASE_PLAN, Item
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Page

Extent = tuple[float, float, float, float]
"""Least east and north, greatest east and north, in metres about the plan's origin."""

UNNAMED = "Churchyard without a name"

_NORTH_MM = 13.0
_NORTHS_MM = 17.0
_BESIDE = 4.0


def block(plan: Plan, asked: Asked, *, title: str, document: str, prefix: str) -> TitleBlock:
    """Return a title block, but for scale, paper and number of sheets."""
    return TitleBlock(
        owner=plan.name or UNNAMED,
        title=title,
        supplement="",
        document=document,
        number=f"{prefix}-{asked.date.replace('-', '')}"[:16],
        issued=asked.date,
        sheet=1,
        sheets=1,
        creator=asked.maker,
        scale=None,
        paper="A4",
    )


def shown(plan: Plan) -> tuple[Item[Any], ...]:
    """Return what is drawn on a sheet: all that has a place but the base plans."""
    return tuple(
        item
        for item in plan.items.values()
        if item.shape is not None and item.kind.name != BASE_PLAN
    )


def extent_of(items: Sequence[Item[Any]]) -> Extent | None:
    """Return least east and north, greatest east and north, crowns included, or None."""
    return _round([_with_crown(item, box) for item in items if (box := item.box)])


def extent_without_crowns(items: Sequence[Item[Any]]) -> Extent | None:
    """Return least east and north, greatest east and north, of stems only, or None."""
    return _round([box for item in items if (box := item.box)])


def middle_of(items: Sequence[Item[Any]]) -> tuple[float, float]:
    """Return the middle of what has a place, east and north; the plan's origin of nothing."""
    e0, n0, e1, n1 = extent_without_crowns(items) or (0.0, 0.0, 0.0, 0.0)
    return (e0 + e1) / 2, (n0 + n1) / 2


def _round(boxes: Sequence[Extent]) -> Extent | None:
    if not boxes:
        return None
    array = np.array(boxes)
    low, high = array[:, :2].min(axis=0), array[:, 2:].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def _with_crown(item: Item[Any], box: Extent) -> Extent:
    north, east, south, west = item.kind.crown_m(item.details) or (0.0, 0.0, 0.0, 0.0)
    e0, n0, e1, n1 = box
    return e0 - west, n0 - south, e1 + east, n1 + north


def north_and_scale(
    plan: Plan, middle: tuple[float, float], scale: float, width: float, sizes: Sizes
) -> Panel:
    """Return the north point beside scale, grid and true north, and a bar as long as may be.

    Args:
        plan: the plan.
        middle: of what is drawn, in metres about the plan's origin: true north is told there.
        scale: of the drawing.
        width: room for it, in millimetres.
        sizes: of its lettering.
    """
    facts = facts_of(plan, middle)
    north = north_point(_NORTH_MM)
    known = facts and norths(_NORTHS_MM, facts.convergence_deg, size=sizes.body)
    room = width - north.width - _BESIDE - (known.width + _BESIDE if known else 0.0)
    told = (
        _scale(scale, room, sizes),
        words(f"Metres. {up_told(plan, facts)}", room, size=sizes.body),
    )
    top = beside((north, *((known,) if known else ()), stacked(told, 1.2)), _BESIDE)
    return stacked((top, scale_bar(scale, width, size=sizes.body)), 1.0)


def north_and_bar(
    plan: Plan, middle: tuple[float, float], scale: float, width: float, sizes: Sizes
) -> Panel:
    """Return the north point beside the scale and its bar, in little room.

    Args: as of ``north_and_scale``.
    """
    north = north_point(_NORTH_MM)
    room = width - north.width - _BESIDE
    told = (
        _scale(scale, room, sizes),
        scale_bar(scale, room, size=sizes.body),
        words(briefly(plan, facts_of(plan, middle)), room, size=sizes.body),
    )
    return beside((north, stacked(told, 1.2)), _BESIDE)


def _scale(scale: float, width: float, sizes: Sizes) -> Panel:
    return words(f"SCALE 1 : {scale:g}", width, size=sizes.head, bold=True)


def under(
    plan: Plan, asked: Asked, backdrops: Sequence[Backdrop]
) -> tuple[tuple[Backdrop, ...], tuple[str, ...]]:
    """Return the base plans that may be printed, and a remark on each that may not."""
    if not asked.base_plans:
        return (), ()
    kept = tuple(b for b in backdrops if b.laid.reproducible)
    remarks = tuple(
        f"{one.name or 'A base plan'} is not under the sheet: it is not recorded that it may "
        "be reproduced."
        for one in laid(plan)
        if not one.reproducible
    )
    return kept, remarks


def acknowledgements(backdrops: Sequence[Backdrop]) -> tuple[str, ...]:
    """Return what must be printed with base plans."""
    return tuple(
        f"Base plan: {b.laid.name}. {b.laid.acknowledgement}".strip() for b in backdrops
    )


def underlays(backdrops: Sequence[Backdrop], viewport: Viewport) -> tuple[Ink, ...]:
    """Return base plans as ink, the first laid first."""
    return tuple(piece for b in backdrops for piece in underlay(b, viewport))


def remarks_on(pages: Sequence[Page]) -> tuple[str, ...]:
    """Return a remark on the characters that no shipped font has."""
    told = [t.text for page in pages for t in _texts(page.ink)]
    missing = unwritable(told)
    if not missing:
        return ()
    signs = ", ".join(f"{c} (U+{ord(c):04X})" for c in missing)
    return (f"None of the fonts has these; a question mark stands for each: {signs}.",)


def _texts(ink: Sequence[Ink]) -> list[Text]:
    found: list[Text] = []
    for piece in ink:
        if isinstance(piece, Text):
            found.append(piece)
        elif isinstance(piece, Clipped):
            found.extend(_texts(piece.ink))
    return found
