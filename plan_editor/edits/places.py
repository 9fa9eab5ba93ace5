"""The edits that change where things are: move, turn, reshape.

Each carries ``called``, what its title calls the things that it changes (``chosen.called_on``);
without it the title counts them.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from shapely.geometry.base import BaseGeometry

from plan_editor.edits.chosen import chosen, things
from plan_editor.errors import EditRefused
from plan_editor.geometry.bearings import normal
from plan_editor.geometry.moving import moved, turned
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.tolerance import rounded
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, all_on
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Move items by metres east and north, taken to the whole millimetre."""

    ids: tuple[ItemId, ...]
    east: float
    north: float
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Move {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items at their new places.

        Raises:
            EditRefused: one of them is not on the plan, or has no place that could be moved.
        """
        loose, held = _placed(plan, self.ids)
        shapes = moved([s for _, s in loose], self.east, self.north)
        rectangles = [r.moved(rounded(self.east), rounded(self.north)) for _, r in held]
        after = [replace(i, shape=s) for (i, _), s in zip(loose, shapes, strict=True)]
        after += all_on([i for i, _ in held], rectangles)
        return _changes([i for i, _ in (*loose, *held)], after)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """Turn items clockwise about a point, by degrees."""

    ids: tuple[ItemId, ...]
    degrees: float
    about: tuple[float, float]
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Turn {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items as they lie afterwards.

        Raises:
            EditRefused: one of them is not on the plan, or has no place that could be turned.
        """
        loose, held = _placed(plan, self.ids)
        shapes = turned([s for _, s in loose], self.degrees, self.about)
        rectangles = [r.turned(self.degrees, self.about) for _, r in held]
        after = [_at(i, s) for (i, _), s in zip(loose, shapes, strict=True)]
        after += all_on([i for i, _ in held], rectangles)
        faced = [facing_turned(item, self.degrees) for item in after]
        return _changes([i for i, _ in (*loose, *held)], faced)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reshape:
    """Give an item another shape, or a rectangle; None takes its place away."""

    id: ItemId
    place: BaseGeometry | Rectangle | None
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Reshape {self.called or '1 thing'}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the item before and after.

        Raises:
            EditRefused: it is not on the plan, or the shape is not one that can be kept.
        """
        (item,) = chosen(plan, (self.id,))
        _refuse_pinned(item)
        if self.place is None:
            return (Change(item, replace(item, shape=None, rectangle=None)),)
        return (Change(item, _at(item, self.place)),)


def facing_turned(item: Item[Any], degrees: float) -> Item[Any]:
    """Return an item with its front, where that is recorded, turned clockwise."""
    facing = item.kind.facing_deg(item.details)
    if facing is None:
        return item
    turned_to = {item.kind.facing: normal(round(facing + degrees, _BEARING_DIGITS))}
    return replace(item, details=replace(item.details, **turned_to))


_BEARING_DIGITS = 9

Loose = list[tuple[Item[Any], BaseGeometry]]
Held = list[tuple[Item[Any], Rectangle]]


def _placed(plan: Plan, ids: Sequence[ItemId]) -> tuple[Loose, Held]:
    loose: Loose = []
    held: Held = []
    for item in chosen(plan, ids):
        _refuse_pinned(item)
        if item.rectangle is not None:
            held.append((item, item.rectangle))
        elif item.shape is not None:
            loose.append((item, item.shape))
        else:
            raise EditRefused(f"{item.called()} has no place on the plan. Nothing was changed.")
    return loose, held


def _refuse_pinned(item: Item[Any]) -> None:
    if item.kind.pinned:
        raise EditRefused(
            f"{item.called()} lies where it was placed. Nothing was changed. Place it again"
            " instead."
        )


def _at(item: Item[Any], place: BaseGeometry | Rectangle) -> Item[Any]:
    if isinstance(place, Rectangle):
        return item.on(place)
    try:
        return item.at(place)
    except ValueError as fault:
        raise EditRefused(
            f"{item.called()} cannot lie like that: {fault}. Nothing was changed."
        ) from fault


def _changes(before: Sequence[Item[Any]], after: Sequence[Item[Any]]) -> tuple[Change, ...]:
    return tuple(Change(b, a) for b, a in zip(before, after, strict=True))
