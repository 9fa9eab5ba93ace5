"""What is written beside the things on a plan: numbers and names, and where they may be."""

from collections.abc import Iterable
from typing import Any

from plan_editor.drawing.area_names import Covers, covers
from plan_editor.drawing.compose import Group
from plan_editor.drawing.lettering import shortened
from plan_editor.drawing.measured import set_aside
from plan_editor.drawing.names import NAME, Named, name_of
from plan_editor.drawing.numbers import numbers_at
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind

_LONGEST = 60.0
_SURELY_SHORT = 20


def wishes(groups: Iterable[Group], viewport: Viewport) -> tuple[Wish, ...]:
    """Return the label of each item that has one; ``own`` counts all items of the groups."""
    groups = tuple(groups)
    over = covers(groups, viewport)
    found: list[Wish] = []
    before = 0
    for group in groups:
        told = [_short(label_of(group.kind, item)) for item in group.items]
        labels = {before + n: text for n, text in enumerate(told) if text}
        if labels:
            found.extend(_of_group(group, before, labels, viewport, over))
        before += len(group.items)
    return tuple(found)


def _short(text: str) -> str:
    return shortened(text, NAME, _LONGEST) if len(text) > _SURELY_SHORT else text


def label_of(kind: Kind, item: Item[Any]) -> str:
    """Return what is written beside an item: its figure, its number, or what its kind says."""
    if kind.figure and item.shape is not None:
        figured: str = getattr(item.details, kind.figure)(item.shape.length)
        return figured
    told = getattr(item.details, kind.label) if kind.label else ""
    return item.number or ("" if told is None else str(told))


def _of_group(
    group: Group, before: int, labels: dict[int, str], viewport: Viewport, over: Covers
) -> list[Wish]:
    """Return the labels of a group, given by the numbers of its items, from ``before`` on."""
    kind = group.kind
    items = [group.items[own - before] for own in labels]
    shapes = set_aside(kind, items, viewport.shapes([i.shape for i in items]), viewport)
    if all(i.form is Form.RECTANGLE for i in items):
        return numbers_at(shapes, list(labels.values()), list(labels), kind.name)
    outlined = Form.LINE in kind.forms and not (group.look.fill or group.look.hatch)
    return [
        name_of(
            Named(
                text=text,
                shape=shape,
                own=own,
                half_mm=kind.width_m(item.details) * viewport.mm_per_metre / 2,
                outlined=outlined,
            ),
            over,
        )
        for (own, text), item, shape in zip(labels.items(), items, shapes, strict=True)
    ]
