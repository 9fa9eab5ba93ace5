"""A row that is on the plan already, held by one of its ends: stretched, or carried on."""

from dataclasses import dataclass, replace
from math import hypot
from typing import Any

from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.figures import Place, length
from plan_editor.drafting.row_wish import MOST, new_ones, span
from plan_editor.drafting.tool import Act, Answer, Blank, Chosen, Offer, Pointer
from plan_editor.drafting.typed import typed_count
from plan_editor.edits.chosen import called_on
from plan_editor.edits.numbering import going_on
from plan_editor.edits.rows import LayOutRow, StretchRow
from plan_editor.geometry.outlines import Rectangle, outlines
from plan_editor.geometry.ranks import head_of, stretched, with_head_at
from plan_editor.ground.row_habits import numbers_of
from plan_editor.ground.rows import Row, row_through
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

STRETCH = "Draw the end to where it belongs on the old plan; all of it goes along"
CARRY_ON = "Draw the end out: further ones follow at the row's pitch"
MORE = "more"


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """An end of a row is in hand.

    Args:
        waiting: what follows when it is let go.
        ids: the graves of the row.
        at_end: it is the end and not the start.
        start: where the pointer took it.
        more: further graves are added, instead of stretching the row.
        drawn: it was moved so far as to mean more than a click.
    """

    waiting: Answer
    ids: tuple[ItemId, ...]
    at_end: bool
    start: Place
    more: bool = False
    drawn: bool = False

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show how the row would lie; letting go after a way, or a click, puts it there."""
        row = _row(plan, self.ids)
        if row is None or pointer.act in {Act.CANCEL, Act.BACK}:
            return self.waiting
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.TAKE:
                more = self.more is not (pointer.offer == MORE)
                return replace(self, more=more).showing(plan, row, here)
            case Act.FILL:
                return self._filled(pointer, plan, row, here)
            case Act.MOVE:
                drawn = self.drawn or apart(self.start, here, pointer.reach)
                return replace(self, drawn=drawn).showing(plan, row, here)
            case Act.RELEASE if not self.drawn:
                return self.showing(plan, row, here)
            case _:
                return self._put(plan, row, here, pointer)

    def showing(self, plan: Plan, row: Row, here: Place) -> Answer:
        """Return what it looks like with the end at a place."""
        shapes: tuple[BaseGeometry, ...]
        if self.more:
            new = further(plan, row, self._wanted(row, here), at_end=self.at_end)
            shapes = tuple(i.shape for i in new if i.shape is not None)
            told: tuple[str, ...] = (
                f"{len(new)} more",
                span(tuple(i.number for i in new)),
            )
        else:
            shapes, told = self._stretched(plan, row, here)
        return Answer(
            tool=self,
            prompt=CARRY_ON if self.more else STRETCH,
            preview=(*shapes, Point(row.start), Point(row.end)),
            figures=tuple(filter(None, told)),
            origin=row.start if self.at_end else row.end,
            toward=row.end if self.at_end else row.start,
            offers=(Offer(name=MORE, title="Carry on", key="G", on=self.more),),
            blanks=(Blank(name="further", title="Further ones", example="3"),),
            chosen=Chosen(ids=row.ids) if not self.drawn else None,
        )

    def _ends(self, row: Row, here: Place) -> tuple[Place, Place]:
        return (row.start, here) if self.at_end else (here, row.end)

    def _stretched(
        self, plan: Plan, row: Row, here: Place
    ) -> tuple[tuple[BaseGeometry, ...], tuple[str, ...]]:
        start, end = self._ends(row, here) if self.drawn else (row.start, row.end)
        try:
            places = stretched(_rectangles(plan, row), row.axis, row.length_m, start, end)
        except ValueError:
            return (), ()  # the ends lie too close; what is refused is said once it is let go
        way = hypot(end[0] - start[0], end[1] - start[1])
        shapes = (*outlines(places), LineString([start, end]))
        return shapes, (f"{called_on(plan, row.ids)} on {length(way)}",)

    def _wanted(self, row: Row, here: Place) -> int:
        """Return how many further graves reach to a place."""
        along = row.axis.within(here)[0]
        beyond = along - row.length_m if self.at_end else -along
        return min(MOST, max(0, round(beyond / row.pitch_m))) if row.pitch_m > 0.05 else 0

    def _put(self, plan: Plan, row: Row, here: Place, pointer: Pointer) -> Answer:
        if self.more:
            wanted = self._wanted(row, here)
            return self._carried_on(plan, row, wanted) if wanted else self.waiting
        if pointer.act is Act.FINISH or not (pointer.typed or apart(self.start, here)):
            return self.waiting
        start, end = self._ends(row, here)
        edit: Edit = StretchRow(
            ids=row.ids, start=start, end=end, called=called_on(plan, row.ids)
        )
        return replace(self.waiting, edit=edit, chosen=Chosen(ids=row.ids))

    def _filled(self, pointer: Pointer, plan: Plan, row: Row, here: Place) -> Answer:
        count = typed_count(dict(pointer.filled).get("further", ""), MOST)
        if count is None:
            wrong = f"Type a whole number from 1 to {MOST}: so many further ones"
            return replace(self.showing(plan, row, here), prompt=wrong)
        return self._carried_on(plan, row, count)

    def _carried_on(self, plan: Plan, row: Row, count: int) -> Answer:
        new = further(plan, row, count, at_end=self.at_end)
        return replace(self.waiting, edit=LayOutRow(new))


def further(plan: Plan, row: Row, count: int, *, at_end: bool) -> tuple[Item[Any], ...]:
    """Return graves with which a row goes on past one of its ends, the nearest first.

    They are as large and turned as the last one there, at the row's pitch, and are numbered on
    by the rule of the row; where the other end would count below 1, they have no number.
    """
    last = plan.items[row.ids[-1 if at_end else 0]]
    there = _rectangles(plan, row)[-1 if at_end else 0]
    head = row.heads_along[-1 if at_end else 0]
    step = row.pitch_m if at_end else -row.pitch_m
    aside = row.axis.within(head_of(there))[1]
    places = tuple(
        with_head_at(
            there,
            row.axis.at(head + step * (n + 1), aside),
            there.bearing_deg,
        )
        for n in range(count)
    )
    return new_ones(plan, last.kind, places, _numbers(plan, row, count, at_end=at_end))


def _numbers(plan: Plan, row: Row, count: int, *, at_end: bool) -> tuple[str, ...]:
    numbers = numbers_of(plan, row)
    rule = going_on(numbers if at_end else numbers[::-1])
    if rule is None or rule.first + (count - 1) * rule.step < 1:
        return ("",) * count
    return rule.numbers(count)


def end_near(rows: tuple[Row, ...], here: Place, reach: float) -> tuple[Row, bool] | None:
    """Return the row that has an end near a place, and whether it is its end; or None."""
    ends = [(row, at_end) for row in rows for at_end in (False, True)]
    near = [(r, e) for r, e in ends if not apart(r.end if e else r.start, here, reach)]
    return near[0] if near else None


def _row(plan: Plan, ids: tuple[ItemId, ...]) -> Row | None:
    there = [plan.items[i] for i in ids if i in plan.items]
    return row_through(there) if len(there) == len(ids) else None


def _rectangles(plan: Plan, row: Row) -> list[Rectangle]:
    return [r for i in row.ids if (r := plan.items[i].rectangle) is not None]
