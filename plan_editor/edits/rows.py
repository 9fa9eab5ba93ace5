"""The edits of rows of graves: lay out, stretch, even out, put in line, turn, number anew."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.edits.basic import Add
from plan_editor.edits.chosen import called, chosen
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import (
    Axis,
    Place,
    evened,
    head_of,
    in_line,
    stretched,
    with_head_at,
)
from plan_editor.ground.rows import Row, row_through
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, all_on
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class LayOutRow:
    """Add the graves of a row, or further ones to it."""

    items: tuple[Item[Any], ...]

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        numbers = [i.number for i in self.items if i.number]
        span = f", {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else ""
        return f"Lay out {called(self.items)} in a row{span}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items as they come.

        Raises:
            EditRefused: one of them is on the plan already.
        """
        return Add(self.items).changes(plan)


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchRow:
    """Lay a row anew between two places: sizes stay, and each one's share of the way."""

    ids: tuple[ItemId, ...]
    start: Place
    end: Place
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Lay a row of {self.called or len(self.ids)} to other ends"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the graves as they stand then.

        Raises:
            EditRefused: one is not on the plan or no rectangle, they are fewer than two, or
                the ends lie too close for them.
        """
        row, items, places = _as_row(plan, self.ids)
        try:
            after = stretched(places, row.axis, row.length_m, self.start, self.end)
        except ValueError as fault:
            raise EditRefused(
                "A row needs two ends that lie apart by more than one of it is wide."
                " Nothing was changed. Click an end farther away."
            ) from fault
        return _on(items, after)


@dataclass(frozen=True, slots=True, kw_only=True)
class EvenOut:
    """Space the graves of a row evenly between the first and the last."""

    ids: tuple[ItemId, ...]
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Space {self.called or len(self.ids)} evenly"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the graves as they stand then.

        Raises:
            EditRefused: one is not on the plan or no rectangle, or they are fewer than two.
        """
        row, items, places = _as_row(plan, self.ids)
        return _on(items, evened(places, row.axis))


@dataclass(frozen=True, slots=True, kw_only=True)
class PutInLine:
    """Bring the heads of things onto a line, each turned to its bearing."""

    ids: tuple[ItemId, ...]
    line: Axis
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Put {self.called or len(self.ids)} in line"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the things as they stand then.

        Raises:
            EditRefused: one is not on the plan, or is no rectangle.
        """
        items, places = _rectangles(plan, self.ids)
        return _on(items, [in_line(r, self.line, _near(r, self.line)) for r in places])


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnToRow:
    """Turn each of some things about the middle of its head to the bearing of a row."""

    ids: tuple[ItemId, ...]
    bearing_deg: float
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Turn {self.called or len(self.ids)} to the row"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the things as they stand then.

        Raises:
            EditRefused: one is not on the plan, or is no rectangle.
        """
        items, places = _rectangles(plan, self.ids)
        line = Axis(start=(0.0, 0.0), bearing_deg=self.bearing_deg)
        return _on(items, [with_head_at(r, head_of(r), _near(r, line)) for r in places])


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberAnew:
    """Give several things other numbers at once, so that they may exchange theirs."""

    numbers: tuple[tuple[ItemId, str], ...]
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        last = f", {self.numbers[0][1]} to {self.numbers[-1][1]}" if self.numbers else ""
        return f"Number {self.called or len(self.numbers)} anew{last}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the things before and after.

        Raises:
            EditRefused: one of them is not on the plan.
        """
        items = chosen(plan, [i for i, _ in self.numbers])
        given = dict(self.numbers)
        return tuple(Change(i, replace(i, number=given[i.id])) for i in items)


def _near(rectangle: Rectangle, line: Axis) -> float:
    """Return the bearing of a line, one way or the other, whichever a head line is nearer to.

    So nobody's head comes to lie where his feet were.
    """
    apart = (rectangle.bearing_deg - line.bearing_deg + 180.0) % 360.0 - 180.0
    return line.bearing_deg if abs(apart) <= 90.0 else line.bearing_deg + 180.0


def _rectangles(
    plan: Plan, ids: Sequence[ItemId]
) -> tuple[tuple[Item[Any], ...], list[Rectangle]]:
    items = chosen(plan, ids)
    places = [i.rectangle for i in items if i.rectangle is not None]
    if len(places) < len(items):
        other = next(i for i in items if i.rectangle is None)
        raise EditRefused(
            f"{other.called()} is not drawn as a rectangle, so it stands in no row. Nothing was"
            " changed. Leave it out."
        )
    return items, places


def _as_row(
    plan: Plan, ids: Sequence[ItemId]
) -> tuple[Row, tuple[Item[Any], ...], list[Rectangle]]:
    """Return things as one row, in its order."""
    items, _ = _rectangles(plan, ids)
    row = row_through(items)
    if row is None:
        raise EditRefused("A row has two at least. Nothing was changed. Choose more of it.")
    ordered = tuple(plan.items[i] for i in row.ids)
    return row, ordered, [i.rectangle for i in ordered if i.rectangle is not None]


def _on(items: Sequence[Item[Any]], places: Sequence[Rectangle]) -> tuple[Change, ...]:
    after = all_on(items, places)
    return tuple(Change(b, a) for b, a in zip(items, after, strict=True))
