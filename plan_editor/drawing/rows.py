"""Where rows of numbered things begin and end, written beyond their ends."""

import re
from collections import defaultdict
from collections.abc import Iterable
from typing import Any

import numpy as np
from shapely import get_coordinates
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.compose import Group
from plan_editor.drawing.ink import Points
from plan_editor.drawing.lettering import CAPITAL, width
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind

_NUMBER = re.compile(r"(.*?)[\s./-]*(\d+)\D?")
_FEWEST = 3
_STRAIGHT = 0.2
_GAPS = (0.8, 1.8, 2.8)

Numbered = tuple[int, Item[Any]]

Row = tuple[tuple[Item[Any], BaseGeometry], ...]
"""Numbered things from first to last, each with its shape on paper."""


def rows(groups: Iterable[Group], viewport: Viewport) -> tuple[Row, ...]:
    """Return the rows: rectangles of a kind whose numbers begin alike and which lie in a line.

    Such as ``C 1`` to ``C 24``. Things that are few, or lie scattered, make no row.
    """
    found: dict[tuple[str, str], list[Numbered]] = defaultdict(list)
    for group in groups:
        for item in group.items if _is_laid_out(group.kind) else ():
            told = _NUMBER.fullmatch(item.number)
            if told and told[1] and item.form is Form.RECTANGLE:
                found[group.kind.name, told[1]].append((int(told[2]), item))
    made = (_row(some, viewport) for some in found.values() if len(some) >= _FEWEST)
    return tuple(row for row in made if _in_a_line(row))


def _is_laid_out(kind: Kind) -> bool:
    # stones are numbered too, but stand where they stand
    return kind.numbered and not kind.look.solid


def row_wishes(row: Row, *, size: float, colour: str) -> tuple[Wish, Wish]:
    """Return the first and the last number of a row as labels beyond its ends."""
    return (
        _beyond(row[0], _middle(row[1][1]), size, colour),
        _beyond(row[-1], _middle(row[-2][1]), size, colour),
    )


def _row(numbered: list[Numbered], viewport: Viewport) -> Row:
    items = [item for _, item in sorted(numbered, key=lambda n: n[0])]
    return tuple(zip(items, viewport.shapes([i.shape for i in items]), strict=True))


def _in_a_line(row: Row) -> bool:
    middles = np.array([_middle(shape) for _, shape in row])
    along, across = np.linalg.svd(middles - middles.mean(axis=0), compute_uv=False)
    return bool(across <= _STRAIGHT * along)


def _middle(shape: BaseGeometry) -> Points:
    return np.array([shape.centroid.x, shape.centroid.y])


def _beyond(
    last: tuple[Item[Any], BaseGeometry], inner: Points, size: float, colour: str
) -> Wish:
    item, shape = last
    end = _middle(shape)
    way = (end - inner) / max(float(np.hypot(*(end - inner))), 1e-9)
    reach = float(((get_coordinates(shape) - end) @ way).max())
    half = np.array([width(item.number) * size, size * CAPITAL]) / 2
    away = reach + float(np.abs(way) @ half) + np.array(_GAPS)
    return Wish(
        text=item.number,
        places=end + way * away[:, None],
        target=(float(end[0]), float(end[1])),
        size=size,
        colour=colour,
        optional=True,
    )
