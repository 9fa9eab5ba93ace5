"""The edits that change where things are: move, turn, reshape.

Each carries ``called``, what its title calls the things that it changes (``chosen.called_on``);
without it the title counts them.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from shapely.geometry.base import BaseGeometry

from plan_editor.edits.chosen import chosen, things
from plan_editor.edits.laying import at, laid, refuse_pinned
from plan_editor.errors import EditRefused
from plan_editor.geometry.bearings import normal
from plan_editor.geometry.moving import moved, turned
from plan_editor.geometry.outlines import Rectangle, longest_side_deg
from plan_editor.geometry.tolerance import rounded
from plan_editor.kinds import note
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
    """Turn items clockwise by degrees, about a point, or each about its own middle."""

    ids: tuple[ItemId, ...]
    degrees: float
    about: tuple[float, float] | None
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
        if self.about is None:
            return turned_each(plan, [(i, self.degrees) for i in dict.fromkeys(self.ids)])
        loose, held = _placed(plan, self.ids)
        shapes = turned([s for _, s in loose], self.degrees, self.about)
        rectangles = [r.turned(self.degrees, self.about) for _, r in held]
        after = [at(i, s) for (i, _), s in zip(loose, shapes, strict=True)]
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
        refuse_pinned(item)
        if self.place is None:
            return (Change(item, replace(item, shape=None, rectangle=None)),)
        return (Change(item, laid(plan, item, self.place)),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Align:
    """Turn each of some things about its own middle until it lies along a bearing or square.

    Rectangles go by their head line, points by their front, others by their longest side; each
    turns by 45 degrees at most, so that nobody's head comes to lie where his feet were.
    """

    ids: tuple[ItemId, ...]
    bearing_deg: float
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Align {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items as they lie afterwards.

        Raises:
            EditRefused: one of them is not on the plan, has no place that could be turned, or
                is a point without a front.
        """
        items = chosen(plan, self.ids)
        turns = [(item.id, _quarter(self.bearing_deg - _lying_deg(item))) for item in items]
        return turned_each(plan, turns)


def turned_each(plan: Plan, turns: Sequence[tuple[ItemId, float]]) -> tuple[Change, ...]:
    """Return items turned each about its own middle, by so many degrees clockwise.

    Raises:
        EditRefused: one of them is not on the plan, or has no place that could be turned.
    """
    by = dict(turns)
    loose, held = _placed(plan, tuple(by))
    after = [at(i, turned([s], by[i.id], middle(s))[0]) for i, s in loose]
    rectangles = [r.turned(by[i.id], r.centre) for i, r in held]
    after += all_on([i for i, _ in held], rectangles)
    faced = [facing_turned(item, by[item.id]) for item in after]
    return _changes([i for i, _ in (*loose, *held)], faced)


def middle(shape: BaseGeometry) -> tuple[float, float]:
    """Return the centre of gravity of a shape, in whole millimetres."""
    centre = shape.centroid
    return rounded(centre.x), rounded(centre.y)


def _lying_deg(item: Item[Any]) -> float:
    """Return the bearing by which an item is turned to another."""
    if item.rectangle is not None:
        return item.rectangle.bearing_deg
    if (front := _front(item)) is not None:
        return front[1]
    along = None if item.shape is None else longest_side_deg(item.shape)
    if along is None:
        raise EditRefused(
            f"{item.called()} lies in no direction. Nothing was changed. Leave it out, or"
            " record where it faces."
        )
    return along


def _quarter(degrees: float) -> float:
    """Return the least turn that leads to a direction or square to it."""
    return (degrees + 45.0) % 90.0 - 45.0


def facing_turned(item: Item[Any], degrees: float) -> Item[Any]:
    """Return an item with its front, or the way its words run, turned clockwise."""
    front = _front(item)
    if front is None:
        return item
    name, faces = front
    turned_to = {name: normal(round(faces + degrees, _BEARING_DIGITS))}
    return replace(item, details=replace(item.details, **turned_to))


def _front(item: Item[Any]) -> tuple[str, float] | None:
    """Return the detail that says which way an item faces, and its bearing."""
    if item.kind == note.KIND:
        return "bearing_deg", item.details.bearing_deg
    facing = item.kind.facing_deg(item.details)
    return None if facing is None else (item.kind.facing, facing)


_BEARING_DIGITS = 9

Loose = list[tuple[Item[Any], BaseGeometry]]
Held = list[tuple[Item[Any], Rectangle]]


def _placed(plan: Plan, ids: Sequence[ItemId]) -> tuple[Loose, Held]:
    loose: Loose = []
    held: Held = []
    for item in chosen(plan, ids):
        refuse_pinned(item)
        if item.rectangle is not None:
            held.append((item, item.rectangle))
        elif item.shape is not None:
            loose.append((item, item.shape))
        else:
            raise EditRefused(f"{item.called()} has no place on the plan. Nothing was changed.")
    return loose, held


def _changes(before: Sequence[Item[Any]], after: Sequence[Item[Any]]) -> tuple[Change, ...]:
    return tuple(Change(b, a) for b, a in zip(before, after, strict=True))
