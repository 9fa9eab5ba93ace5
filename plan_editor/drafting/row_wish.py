"""What a row of graves is to be: size, count or pitch, side, numbers; typed or as is usual."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, radians
from typing import Any

from plan_editor.drafting.basis import traced_on
from plan_editor.drafting.tool import Blank, Offer
from plan_editor.drafting.typed import typed_count
from plan_editor.edits.numbering import NumberRule, count_of, next_letter, rule_from
from plan_editor.geometry.lengths import as_metres, metres
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import (
    Place,
    along_line,
    at_pitch,
    axis_between,
    count_that_fits,
)
from plan_editor.ground.row_habits import Habit, habit, prefix_at
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.kind import Form, Kind, kinds
from plan_editor.plan.plan import Plan

MOST = 500
"""A row has no more graves than this: more are a slip of the fingers."""

OTHER_SIDE, OTHER_END = "other side", "other end"

BY = "×"

LONGEST_M = 20.0
"""Nothing in a row is longer or broader than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWish:
    """How a row is to be laid out; what is None is as usual on the plan.

    Args:
        kind: of what it is.
        size: width along the row and length across it, in metres.
        count: how many; it rules where it was typed last.
        pitch: from one to the next, in metres; it rules where it was typed last.
        turned_over: on the other side than is usual.
        from_end: numbers run from the end to the start.
        first: the first number; empty for none, None for the next that is free.
        usual: what is usual on the plan, and on which revision of it, with how many of a kind.
        next_free: the first number of a row that begins where this one does.
    """

    kind: Kind
    size: tuple[float, float] | None = None
    count: int | None = None
    pitch: float | None = None
    turned_over: bool = False
    from_end: bool = False
    first: str | None = None
    usual: tuple[Habit, tuple[int, int]] | None = None
    next_free: str = ""

    def on(self, plan: Plan) -> "RowWish":
        """Return it with what is usual on a plan; worked out anew where that has changed."""
        state = plan.revision, plan.count(self.kind)
        if self.usual is not None and self.usual[1] == state:
            return self
        return replace(self, usual=(habit(plan, self.kind), state))

    def at(self, plan: Plan, start: Place, taken: Iterable[str] = ()) -> "RowWish":
        """Return it for a row that begins at a place.

        Args:
            plan: on which it begins.
            start: where.
            taken: numbers that are to come onto the plan before.
        """
        return replace(self.on(plan), next_free=next_free(plan, self.kind, start, taken))

    @property
    def habit(self) -> Habit:
        """What is usual."""
        return habit(Plan(), self.kind) if self.usual is None else self.usual[0]

    def rectangles(self, start: Place, end: Place) -> tuple[Rectangle, ...]:
        """Return where the graves would lie, in order from start to end.

        Raises:
            ValueError: the ends are the same.
        """
        usual = self.habit
        size = self.size or usual.size
        axis = axis_between(start, end)
        # the side on which the feet lie as most on the plan have them
        to_right = cos(radians(axis.bearing_deg + 90.0 - usual.facing_deg)) >= 0.0
        right = to_right is not self.turned_over
        if self.pitch is not None:
            count = self._fitting(start, end, size[0], self.pitch)
            return at_pitch(axis, size, count, self.pitch, right=right)
        count = self.count or self._fitting(start, end, size[0], usual.pitch_m)
        return along_line(start, end, size, count, right=right)

    def _fitting(self, start: Place, end: Place, width: float, pitch: float) -> int:
        length = hypot(end[0] - start[0], end[1] - start[1])
        return min(MOST, count_that_fits(length, width, pitch))

    def numbers(self, count: int) -> tuple[str, ...]:
        """Return the numbers of a row in order from start to end; empty where it has none."""
        first = self.first_number
        rule = rule_from(first)
        if rule is None:
            return (first, *("",) * (count - 1))
        found = rule.numbers(count)
        return found[::-1] if self.from_end else found

    @property
    def first_number(self) -> str:
        """The first number: as typed, or the next that is free."""
        return self.next_free if self.first is None else self.first

    def items(self, plan: Plan, start: Place, end: Place) -> tuple[Item[Any], ...]:
        """Return the graves of the row as they would come onto the plan.

        Raises:
            ValueError: the ends are the same.
        """
        places = self.rectangles(start, end)
        numbers = self.numbers(len(places))
        return new_ones(plan, self.kind, places, numbers)

    def after(self) -> "RowWish":
        """Return the wish for the next row: the same, numbered on by itself."""
        return replace(self, first=None, count=None)

    def offers(self) -> tuple[Offer, ...]:
        """Return what else can be wished."""
        return (
            Offer(name=OTHER_SIDE, title="Other side", key="O", on=self.turned_over),
            Offer(name=OTHER_END, title="From the end", key="N", on=self.from_end),
        )

    def taking(self, offer: str) -> "RowWish":
        """Return the wish with an offer taken up."""
        match offer:
            case "other side":
                return replace(self, turned_over=not self.turned_over)
            case "other end":
                return replace(self, from_end=not self.from_end)
            case _:
                return self

    def blanks(self, places: Sequence[Rectangle] = ()) -> tuple[Blank, ...]:
        """Return what can be typed, with what holds now; of what it is until it is begun.

        Args:
            places: the row as it would lie, so far as it is begun.
        """
        usual = self.habit
        width, length = self.size or usual.size
        pitch = self.pitch or pitch_of(places) or usual.pitch_m
        named = tuple(k.title for k in row_kinds())
        of = Blank(name="kind", title="Of", text=self.kind.title, choices=named)
        return (
            *(() if places else (of,)),
            Blank(name="count", title="Count", text=str(self.count or len(places) or "")),
            Blank(name="pitch", title="Pitch", text=as_metres(pitch), example="1.35 or 4' 6\""),
            Blank(
                name="size",
                title="Size",
                text=f"{width:.2f} {BY} {length:.2f}",
                example="4' by 9'",
            ),
            Blank(name="first", title="First", text=self.first_number, example="C 1"),
        )

    def filled(self, typed: Mapping[str, str], shown: Mapping[str, str]) -> "RowWish":
        """Return the wish with what was typed; what still reads as it was shown is left.

        Args:
            typed: names of blanks, each with its text.
            shown: the same as they were before.

        Raises:
            ValueError: something cannot be read; the text says what and why.
        """
        new = {n: t.strip() for n, t in typed.items() if t.strip() != shown.get(n, "").strip()}
        wish = self
        if "kind" in new:
            named = (k for k in row_kinds() if k.title == new["kind"])
            wish = RowWish(kind=next(named, self.kind))
        if "size" in new:
            wish = replace(wish, size=_size(new["size"]) if new["size"] else None)
        if "pitch" in new:
            wish = replace(
                wish, pitch=_side(new["pitch"]) if new["pitch"] else None, count=None
            )
        if "count" in new:
            wish = replace(
                wish, count=_count(new["count"]) if new["count"] else None, pitch=None
            )
        if "first" in new:
            wish = replace(wish, first=new["first"])
        return wish


def pitch_of(places: Sequence[Rectangle]) -> float:
    """Return how far it is from the first of a row to the next; 0 where there is no other."""
    if len(places) < 2:
        return 0.0
    one, other = places[:2]
    return hypot(other.east - one.east, other.north - one.north)


def row_kinds() -> tuple[Kind, ...]:
    """Return the kinds that stand in rows: numbered rectangles on the ground, no stones."""
    flat = (k for k in kinds() if k.form is Form.RECTANGLE and not k.look.solid)
    return tuple(k for k in flat if k.numbered)


def next_free(plan: Plan, kind: Kind, start: Place, taken: Iterable[str] = ()) -> str:
    """Return the first number of a new row: the next of its section, or of the next letter."""
    numbers = (*(i.number for i in plan.of(kind)), *taken)
    rules = [r for n in numbers if (r := rule_from(n)) is not None]
    prefix = prefix_at(plan, start)
    if not prefix:
        letter = next_letter(r.prefix.strip() for r in rules)
        return NumberRule(prefix=f"{letter} ").number(0)
    mine = [r for r in rules if r.prefix.strip() == prefix]
    if not mine:
        return NumberRule(prefix=f"{prefix} ").number(0)
    last = max(mine, key=lambda r: r.first)
    return replace(last, first=last.first + 1).number(0)


def new_ones(
    plan: Plan, kind: Kind, places: tuple[Rectangle, ...], numbers: tuple[str, ...]
) -> tuple[Item[Any], ...]:
    """Return new things on rectangles, traced on what lies under them."""
    untyped: Any = kind  # a kind found in a list does not tell the type of its details
    made = (new_item(untyped, p, number=n) for p, n in zip(places, numbers, strict=True))
    return tuple(
        replace(i, basis=traced_on(plan, i.shape)) if i.shape is not None else i for i in made
    )


def span(numbers: tuple[str, ...]) -> str:
    """Return the numbers of a row in words: ``C 1 to C 14``."""
    told = [n for n in numbers if n]
    if len(told) < 2:
        return "".join(told)
    first, last = (told[-1], told[0]) if _falls(told) else (told[0], told[-1])
    return f"{first} to {last}"


def _falls(numbers: list[str]) -> bool:
    first, last = count_of(numbers[0]), count_of(numbers[-1])
    return first is not None and last is not None and first > last


def _size(text: str) -> tuple[float, float]:
    """Return a width and a length: ``1.2 x 2.4``, ``4' by 9'``."""
    sides = [t for t in re.split(rf"\s*(?:{BY}|x|by)\s*", text.casefold()) if t]
    if len(sides) != 2:
        raise ValueError(f"“{text}” is no size. Type width by length, such as 1.22 by 2.74.")
    return _side(sides[0]), _side(sides[1])


def _side(text: str) -> float:
    length = metres(text)
    if not 0.05 <= length <= LONGEST_M:
        raise ValueError(f"“{text}” is no size here. Type from 5 cm to {LONGEST_M:g} m.")
    return length


def _count(text: str) -> int:
    count = typed_count(text, MOST)
    if count is None:
        raise ValueError(f"“{text}” is no count. Type a whole number from 1 to {MOST}.")
    return count
