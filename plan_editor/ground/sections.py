"""In which churchyard and in which section of the ground something lies, and what is in each.

A thing belongs where the largest share of it lies: of its area, of its length, or the point
itself. Of several pieces that hold the same share the smallest counts, which is a part of the
others. So everything is counted once, and a section's own figures leave out those of its parts.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.kinds import ashes_plot, boundary, grave, memorial, section, vault
from plan_editor.kinds.grave import State
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.plan import Plan

NESTED = 0.98
"""A piece of which so much lies in another is a part of it."""

LEAST_SHARE = 0.01
"""Of two neighbours that share less than this of the smaller, neither is over the other."""

NEARLY = 0.001
"""Shares that differ by less are the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A churchyard or a section of the ground, and what lies in it.

    Args:
        item: its boundary or its section.
        name: what it is called; empty where nobody said.
        area_m2: of all of it, its parts included.
        graves: how many there are in each state; without those of its parts, as all counts.
        vaults, ashes_plots, memorials: how many.
        part_of: the smallest piece of which it is a part, or None.
        overlaps: the pieces that it shares ground with though neither is a part of the other.
    """

    item: ItemId
    name: str
    area_m2: float
    graves: tuple[tuple[State, int], ...]
    vaults: int
    ashes_plots: int
    memorials: int
    part_of: ItemId | None
    overlaps: tuple[ItemId, ...]

    @property
    def all_graves(self) -> int:
        """How many graves there are, in any state."""
        return sum(count for _, count in self.graves)


def sections(plan: Plan) -> tuple[Piece, ...]:
    """Return the sections of the ground with what lies in each, in the order of their names."""
    return _pieces(plan, section.KIND)


def churchyards(plan: Plan) -> tuple[Piece, ...]:
    """Return the boundaries that are areas, with what lies in each, in the order of names."""
    return _pieces(plan, boundary.KIND)


def is_piece(item: Item[Any]) -> bool:
    """Return whether an item is a section of the ground, or a boundary that is an area."""
    return item.kind in (section.KIND, boundary.KIND) and item.form is Form.AREA


def section_of(plan: Plan, item: ItemId) -> ItemId | None:
    """Return the section of the ground in which something lies; None of what lies in none."""
    return _place_of(plan, item, section.KIND)


def churchyard_of(plan: Plan, item: ItemId) -> ItemId | None:
    """Return the boundary within which something lies; None of what lies in none."""
    return _place_of(plan, item, boundary.KIND)


def lying_in(plan: Plan, piece: ItemId) -> frozenset[ItemId]:
    """Return everything that lies in a section or a churchyard, that of its parts too.

    Pieces of the same kind are not counted, but for itself; what has no place lies nowhere.
    """
    there = plan.items[piece]
    holders = _areas(plan, there.kind)
    within = {piece, *(h.id for h in holders if _is_part(h, there))}
    others = [i for i in plan.items.values() if i.shape is not None and i.kind != there.kind]
    found = belonging(others, holders)
    names = [None if n < 0 else holders[n].id for n in found.tolist()]
    return frozenset(
        (piece, *(i.id for i, n in zip(others, names, strict=True) if n in within))
    )


def belonging(items: Sequence[Item[Any]], holders: Sequence[Item[Any]]) -> NDArray[np.intp]:
    """Return for each of n items the place of the holder to which it belongs; -1 for none.

    Args:
        items: with a shape each.
        holders: areas.
    """
    found = np.full(len(items), -1, dtype=np.intp)
    if not items or not holders:
        return found
    shapes = np.array([i.shape for i in items], dtype=object)
    grounds = np.array([h.shape for h in holders], dtype=object)
    held, holder = shapely.STRtree(grounds).query(shapes, "intersects")
    share = _shares(shapes[held], grounds[holder])
    size = shapely.area(grounds)[holder]
    # the largest share first, of equal ones the smallest holder
    order = np.lexsort((size, -np.round(share / NEARLY), held))
    held, holder, share = held[order], holder[order], share[order]
    first = np.ones(len(held), dtype=bool)
    first[1:] = held[1:] != held[:-1]
    first &= share > 0.0
    found[held[first]] = holder[first]
    return found


def _shares(shapes: NDArray[np.object_], grounds: NDArray[np.object_]) -> NDArray[np.float64]:
    """Return what share of each shape lies in the ground beside it, from 0 to 1."""
    share = np.asarray(shapely.covers(grounds, shapes), dtype=np.float64)
    over = np.flatnonzero(share == 0.0)
    part = shapely.intersection(shapes[over], grounds[over])
    # of an area the share is of its area, of a line of its length
    flat = shapely.get_dimensions(shapes[over]) == 1
    whole = np.where(flat, shapely.length(shapes[over]), shapely.area(shapes[over]))
    held = np.where(flat, shapely.length(part), shapely.area(part))
    share[over] = np.divide(held, whole, out=np.zeros(len(over)), where=whole > 0.0)
    return share


def _place_of(plan: Plan, item: ItemId, kind: Kind) -> ItemId | None:
    there, holders = plan.items[item], _areas(plan, kind)
    if there.kind == kind:
        return _part_of(there, holders) if there in holders else None
    found = -1 if there.shape is None else int(belonging((there,), holders)[0])
    return None if found < 0 else holders[found].id


def _pieces(plan: Plan, kind: Kind) -> tuple[Piece, ...]:
    holders = _areas(plan, kind)
    counted = {
        k.name: _counted([i for i in plan.of(k) if i.shape is not None], holders)
        for k in (vault.KIND, ashes_plot.KIND, memorial.KIND)
    }
    graves = [g for g in plan.of(grave.KIND) if g.shape is not None]
    places = belonging(graves, holders).tolist()
    states = [(n, g.details.state) for n, g in zip(places, graves, strict=True)]
    found = (
        Piece(
            item=holder.id,
            name=_name(holder),
            area_m2=float(shapely.area(holder.shape)),
            graves=tuple((s, c) for s in State if (c := states.count((n, s)))),
            vaults=counted[vault.KIND.name][n],
            ashes_plots=counted[ashes_plot.KIND.name][n],
            memorials=counted[memorial.KIND.name][n],
            part_of=_part_of(holder, holders),
            overlaps=tuple(o.id for o in holders if _overlaps(holder, o)),
        )
        for n, holder in enumerate(holders)
    )
    return tuple(sorted(found, key=lambda p: (p.name.casefold(), p.item)))


def _counted(items: Sequence[Item[Any]], holders: Sequence[Item[Any]]) -> list[int]:
    places = belonging(items, holders).tolist()
    return [places.count(n) for n in range(len(holders))]


def _areas(plan: Plan, kind: Kind) -> list[Item[Any]]:
    return [i for i in plan.of(kind) if i.form is Form.AREA]


def _name(item: Item[Any]) -> str:
    return str(getattr(item.details, item.kind.label))


def _part_of(item: Item[Any], holders: Iterable[Item[Any]]) -> ItemId | None:
    whole = [h for h in holders if _is_part(item, h)]
    return min(whole, key=lambda h: float(shapely.area(h.shape))).id if whole else None


def _is_part(item: Item[Any], whole: Item[Any]) -> bool:
    small, large = _ground(item), _ground(whole)
    if item.id == whole.id or small.area >= large.area:
        return False
    return bool(small.intersection(large).area >= NESTED * small.area)


def _overlaps(one: Item[Any], other: Item[Any]) -> bool:
    if one.id == other.id or _is_part(one, other) or _is_part(other, one):
        return False
    least = min(_ground(one).area, _ground(other).area)
    return bool(_ground(one).intersection(_ground(other)).area > LEAST_SHARE * least)


def _ground(item: Item[Any]) -> BaseGeometry:
    assert item.shape is not None  # noqa: S101  # only areas are asked
    return item.shape
