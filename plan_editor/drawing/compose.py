"""A plan in a viewport as ink, kind after kind, by what each kind declares and nothing else."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.ink import Clipped, Ink, Points
from plan_editor.drawing.lines import line_ink
from plan_editor.drawing.measured import measured_ink, set_aside
from plan_editor.drawing.points import point_ink, roots_ink
from plan_editor.drawing.removal import crossed_through
from plan_editor.drawing.tones import proposed
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.item import Item, Status
from plan_editor.plan.kind import Form, Kind, LookWhen
from plan_editor.plan.look import Look

Shapes = NDArray[np.object_]

Dress = Callable[[Kind, Look], Look | None]
"""Say how a look is drawn on this sheet; None leaves it out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Items that are drawn alike.

    Args:
        kind: their kind.
        when: the special look that fits them, or None.
        status: whether they are there.
        items: those with a shape.
    """

    kind: Kind
    when: LookWhen | None
    status: Status
    items: tuple[Item[Any], ...]

    @property
    def look(self) -> Look:
        """How their kind says they are drawn."""
        return self.kind.look if self.when is None else self.when.look

    @property
    def legend(self) -> str:
        """Their line in the key."""
        return self.kind.legend if self.when is None else self.when.legend


def as_declared(kind: Kind, look: Look) -> Look | None:
    """Return the look as the kind declares it."""
    del kind
    return look


def grouped(items: Iterable[Item[Any]]) -> tuple[Group, ...]:
    """Return items with a shape, grouped by what they look like, in the order of drawing."""
    found: dict[tuple[str, int, Status], list[Item[Any]]] = {}
    kinds: dict[str, Kind] = {}
    for item in items:
        if item.shape is not None:
            kinds[item.kind.name] = item.kind
            look = _look_number(item.kind, item.details)
            found.setdefault((item.kind.name, look, item.status), []).append(item)
    order = sorted(
        found, key=lambda k: (kinds[k[0]].order, k[0], k[1], list(Status).index(k[2]))
    )
    return tuple(
        Group(
            kind=kinds[name],
            when=kinds[name].looks[look] if look < len(kinds[name].looks) else None,
            status=status,
            items=tuple(found[name, look, status]),
        )
        for name, look, status in order
    )


def compose(
    groups: Iterable[Group], viewport: Viewport, dress: Dress = as_declared
) -> tuple[Ink, ...]:
    """Return the ink of groups of items, cut off at the viewport's frame."""
    ink = tuple(piece for group in groups for piece in group_ink(group, viewport, dress))
    return (Clipped(box=viewport.frame, ink=ink),) if ink else ()


def protected(groups: Iterable[Group], viewport: Viewport) -> tuple[Ink, ...]:
    """Return the circles within which the ground is left alone, cut off at the frame."""
    ink = tuple(
        piece for g in groups if g.kind.roots for piece in roots_ink(g.kind, g.items, viewport)
    )
    return (Clipped(box=viewport.frame, ink=ink),) if ink else ()


def group_ink(group: Group, viewport: Viewport, dress: Dress) -> tuple[Ink, ...]:
    """Return the ink of one group of items, not cut off."""
    dressed = dress(group.kind, group.look)
    if dressed is None:
        return ()
    look = proposed(dressed) if group.status is Status.PROPOSED else dressed
    shapes = viewport.shapes([i.shape for i in group.items])
    ink = (
        *_areas(group, look, shapes),
        *_lines(group, look, shapes, viewport),
        *_points(group, look, shapes, viewport),
    )
    if group.status is Status.TO_BE_REMOVED:
        return (*ink, *crossed_through(shapes))
    return ink


def _look_number(kind: Kind, details: object) -> int:
    when = kind.when(details) if kind.looks else None
    return len(kind.looks) if when is None else kind.looks.index(when)


def _areas(group: Group, look: Look, shapes: Shapes) -> tuple[Ink, ...]:
    chosen = shapely.get_dimensions(shapes) == 2
    if not chosen.any():
        return ()
    rectangles = [i.form is Form.RECTANGLE for i in group.items]
    return area_ink(shapes[chosen], look, shapes[chosen & rectangles])


def _lines(group: Group, look: Look, shapes: Shapes, viewport: Viewport) -> tuple[Ink, ...]:
    chosen = shapely.get_dimensions(shapes) == 1
    if not chosen.any():
        return ()
    widths = _widths(group, viewport)[chosen]
    items = [item for item, is_line in zip(group.items, chosen, strict=True) if is_line]
    lines = set_aside(group.kind, items, shapes[chosen], viewport)
    ends = measured_ink(shapes[chosen], lines, look) if group.kind.figure else ()
    return (*line_ink(lines, look, widths), *ends)


def _points(group: Group, look: Look, shapes: Shapes, viewport: Viewport) -> tuple[Ink, ...]:
    chosen = shapely.get_dimensions(shapes) == 0
    if not chosen.any():
        return ()
    items = [item for item, is_point in zip(group.items, chosen, strict=True) if is_point]
    return point_ink(group.kind, items, look, viewport)


def _widths(group: Group, viewport: Viewport) -> Points:
    metres = [group.kind.width_m(i.details) for i in group.items]
    return np.array(metres, dtype=float) * viewport.mm_per_metre
