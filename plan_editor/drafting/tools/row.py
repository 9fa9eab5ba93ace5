"""Lay out a row of graves: the two ends of its head line, and the rest follows.

The graves are as large and as close as those on the plan; count or pitch, size, side and
numbers can be typed. A click on an end of a row that is there takes that in hand instead.
"""

from dataclasses import dataclass, replace
from math import hypot

from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.figures import Place, figures_of_way, length
from plan_editor.drafting.row_ends import Held, end_near
from plan_editor.drafting.row_wish import RowWish, row_kinds, span
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting, ToolButton
from plan_editor.edits.rows import LayOutRow
from plan_editor.geometry.outlines import outlines
from plan_editor.ground.rows import rows
from plan_editor.kinds import grave
from plan_editor.plan.plan import Plan

BEGIN = "Click one end of the head line of a row, or an end of a row that is there"
ON = "Click the other end of the head line"
SET = "Shift its ends to fit; Enter or a click where the next row begins lays it out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """Nothing is begun."""

    wish: RowWish

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Begin a row at a press, or take hold of the end of one that is there."""
        match pointer.act:
            case Act.TAKE:
                return Ready(wish=self.wish.taking(pointer.offer)).showing(plan)
            case Act.FILL:
                return self._filled(pointer, plan)
            case Act.PRESS:
                return self._begun(pointer, plan)
            case Act.CANCEL:
                return replace(self.showing(plan), tool=self)  # nothing is begun: put down
            case _:
                return self.showing(plan)

    def showing(self, plan: Plan) -> Answer:
        """Return what can be done."""
        wish = self.wish.on(plan)
        return Answer(
            tool=Ready(wish=wish),
            prompt=BEGIN,
            figures=(wish.habit.told_by,),
            offers=wish.offers(),
            blanks=wish.blanks(),
        )

    def _begun(self, pointer: Pointer, plan: Plan) -> Answer:
        here = pointer.east, pointer.north
        held = end_near(rows(plan, self.wish.kind), here, pointer.reach)
        if held is None:
            return Begun(wish=self.wish.at(plan, here), start=here).showing(here)
        row, at_end = held
        hand = Held(waiting=self.showing(plan), ids=row.ids, at_end=at_end, start=here)
        return hand.showing(plan, row, here)

    def _filled(self, pointer: Pointer, plan: Plan) -> Answer:
        wish, why = _read(self.wish, pointer, self.showing(plan))
        shown = Ready(wish=wish).showing(plan)
        return replace(shown, prompt=why) if why else shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A row has one end."""

    wish: RowWish
    start: Place

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show the row; a press, or letting go after a way, fixes the other end."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.CANCEL | Act.BACK:
                return Ready(wish=self.wish).showing(plan)
            case Act.TAKE:
                return replace(self, wish=self.wish.taking(pointer.offer)).showing(here)
            case Act.FILL:
                wish, why = _read(self.wish, pointer, self.showing(here))
                shown = replace(self, wish=wish).showing(here)
                return replace(shown, prompt=why) if why else shown
            case Act.PRESS | Act.FINISH if apart(self.start, here):
                return self._fixed(here)
            case Act.RELEASE if apart(self.start, here, pointer.reach):
                return self._fixed(here)
            case _:
                return self.showing(here)

    def showing(self, here: Place) -> Answer:
        """Return what the row looks like with its other end at a place."""
        places = self.wish.rectangles(self.start, here) if apart(self.start, here) else ()
        return Answer(
            tool=self,
            prompt=ON,
            preview=_preview(self.wish, self.start, here),
            figures=(
                *_told(self.wish, len(places)),
                *figures_of_way(here[0] - self.start[0], here[1] - self.start[1]),
            ),
            origin=self.start,
            offers=self.wish.offers(),
            blanks=self.wish.blanks(places),
        )

    def _fixed(self, here: Place) -> Answer:
        return Standing(wish=self.wish, start=self.start, end=here).showing()


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A row has both its ends and can still be changed; it is not on the plan yet.

    Args:
        wish: how it is to be.
        start, end: of its head line.
        grip: the end that is in hand: False for the start, True for the end, None for neither.
    """

    wish: RowWish
    start: Place
    end: Place
    grip: bool | None = None

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Lay it out at Enter or at a click elsewhere; shift the end that is in hand."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.CANCEL:
                return Ready(wish=self.wish).showing(plan)
            case Act.BACK:
                return Begun(wish=self.wish, start=self.start).showing(here)
            case Act.FINISH:
                return self._laid_out(plan, Ready(wish=self.wish.after()).showing(plan))
            case Act.PRESS:
                return self._pressed(pointer, plan, here)
            case _:
                return self._changed(pointer, here)

    def _changed(self, pointer: Pointer, here: Place) -> Answer:
        match pointer.act:
            case Act.TAKE:
                return replace(self, wish=self.wish.taking(pointer.offer)).showing()
            case Act.FILL:
                wish, why = _read(self.wish, pointer, self.showing())
                shown = replace(self, wish=wish).showing()
                return replace(shown, prompt=why) if why else shown
            case Act.MOVE if self.grip is not None:
                return self._shifted(here).showing()
            case _:
                return replace(self, grip=None).showing()

    def showing(self) -> Answer:
        """Return what the row looks like."""
        places = self.wish.rectangles(self.start, self.end)
        away = hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])
        return Answer(
            tool=self,
            prompt=SET,
            preview=_preview(self.wish, self.start, self.end),
            figures=(*_told(self.wish, len(places)), f"on {length(away)}"),
            origin=self.start,
            toward=self.end,
            offers=self.wish.offers(),
            blanks=self.wish.blanks(places),
        )

    def _pressed(self, pointer: Pointer, plan: Plan, here: Place) -> Answer:
        if pointer.typed:
            return (replace(self, end=here) if apart(self.start, here) else self).showing()
        for grip, place in ((False, self.start), (True, self.end)):
            if not apart(place, here, pointer.reach):
                return replace(self, grip=grip).showing()
        taken = [i.number for i in self.wish.items(plan, self.start, self.end)]
        wish = self.wish.after().at(plan, here, taken)
        return self._laid_out(plan, Begun(wish=wish, start=here).showing(here))

    def _shifted(self, here: Place) -> "Standing":
        start, end = (self.start, here) if self.grip else (here, self.end)
        return replace(self, start=start, end=end) if apart(start, end) else self

    def _laid_out(self, plan: Plan, after: Answer) -> Answer:
        return replace(after, edit=LayOutRow(self.wish.items(plan, self.start, self.end)))


def _read(wish: RowWish, pointer: Pointer, shown: Answer) -> tuple[RowWish, str]:
    """Return the wish with what was typed into the blanks, and what is wrong with it."""
    before = {b.name: b.text for b in shown.blanks}
    try:
        return wish.filled(dict(pointer.filled), before), ""
    except ValueError as fault:
        return wish, str(fault)


def _preview(wish: RowWish, start: Place, end: Place) -> tuple[BaseGeometry, ...]:
    if not apart(start, end):
        return (Point(start),)
    shapes = outlines(wish.rectangles(start, end))
    return (*shapes, LineString([start, end]), Point(start), Point(end))


def _told(wish: RowWish, count: int) -> tuple[str, ...]:
    if not count:
        return ()
    noun = (wish.kind.title if count == 1 else wish.kind.plural).lower()
    numbers = span(wish.numbers(count))
    return (f"{count} {noun}{f', {numbers}' if numbers else ''}",)


def _start(setting: Setting) -> Answer:
    wanted = (k for k in row_kinds() if k == setting.kind)
    return Ready(wish=RowWish(kind=next(wanted, grave.KIND))).showing(setting.plan)


TOOL = ToolButton(
    name="row",
    title="Row",
    icon="row",
    key="W",
    order=25,
    jobs=frozenset({"trace", "space"}),
    start=_start,
)
