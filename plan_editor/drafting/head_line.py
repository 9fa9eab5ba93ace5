"""Draw a rectangle: along its head line, then down to its foot; or a long side first.

The side that is clicked first turns the rectangle: over a scan, where each click is a little
off, a long one is traced truer.
"""

from dataclasses import dataclass
from enum import Enum
from math import hypot

from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import Wanted, apart
from plan_editor.drafting.figures import Place, figures_of_line, length
from plan_editor.drafting.squared import NORTH, squared
from plan_editor.drafting.tool import Act, Answer, Pointer
from plan_editor.geometry.bearings import as_degrees
from plan_editor.geometry.outlines import Rectangle, on_head_line
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.plan import Plan


class First(Enum):
    """Which side of a rectangle is drawn first."""

    HEAD = "head line"
    LONG = "long side"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadFrom:
    """A rectangle has one end of its head line, or the head end of a long side.

    Args:
        waiting: what follows when it is drawn or given up.
        wanted: what is drawn.
        start: that end.
        way: the direction that it keeps to, or square to it, as long as that is wished.
        first: which side that is.
    """

    waiting: Answer
    wanted: Wanted
    start: Place
    way: Place = NORTH
    first: First = First.HEAD

    @property
    def usual(self) -> tuple[float, float] | None:
        """The usual length of this side, and of the other; None where there is none."""
        usual = self.wanted.kind.usual_m
        return usual[::-1] if usual and self.first is First.LONG else usual

    @property
    def called(self) -> str:
        """What to call this side."""
        return self.first.value if self.first is First.LONG else self.wanted.first_side

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Fix the other end at a press; Enter takes the usual width on the way shown."""
        del plan  # it is looked at when the rectangle is drawn
        here = pointer.east, pointer.north
        if pointer.straight and not pointer.typed:
            here = squared(self.start, here, self.way)
        match pointer.act:
            case Act.PRESS | Act.FINISH:
                return self._to(self._usual(here) if pointer.act is Act.FINISH else here)
            case Act.CANCEL | Act.BACK:
                return self.waiting
            case _:
                return self.showing(here)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        usual = self.usual
        enter = f"; Enter makes it {length(usual[0])}" if usual else ""
        end = "foot end" if self.first is First.LONG else "other end"
        return Answer(
            tool=self,
            prompt=f"Click the {end} of the {self.called}{enter}",
            preview=(
                *((LineString([self.start, here]),) if apart(self.start, here) else ()),
                Point(self.start),
            ),
            figures=figures_of_line((self.start, here)),
            origin=self.start,
            toward=here if apart(self.start, here) else None,
        )

    def _usual(self, here: Place) -> Place:
        usual = self.usual
        if usual is None or not apart(self.start, here):
            return here
        share = usual[0] / hypot(here[0] - self.start[0], here[1] - self.start[1])
        return (
            self.start[0] + (here[0] - self.start[0]) * share,
            self.start[1] + (here[1] - self.start[1]) * share,
        )

    def _to(self, end: Place) -> Answer:
        if not apart(self.start, end):
            return self.showing(end)
        return HeadLine(first=self, end=end).showing(None)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadLine:
    """A rectangle has its first side; how far it reaches is wanted, to one side or the other.

    Args:
        first: the state that it comes from.
        end: the other end of its first side.
    """

    first: HeadFrom
    end: Place

    @property
    def start(self) -> Place:
        """The end of the first side that was there first."""
        return self.first.start

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show the rectangle; a press draws it, Enter as far as is usual."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.PRESS:
                return self._done(plan, self.at(here, pointer.reach, typed=pointer.typed))
            case Act.CANCEL:
                return self.first.waiting
            case Act.BACK:
                return self.first.showing(here)
            case Act.FINISH:
                return self._done(plan, self._usual(here))
            case _:
                return self.showing(self.at(here, pointer.reach, typed=False))

    def at(self, here: Place, reach: float, *, typed: bool) -> Rectangle | None:
        """Return the rectangle that reaches as far as a place, or None where it has no length.

        Near the usual length from a head line it takes that. A place that was typed tells how
        far by its distance from the end of the first side, whatever the bearing.
        """
        down = self._down(here)
        far = hypot(here[0] - self.end[0], here[1] - self.end[1]) if typed else abs(down)
        usual = self.first.usual if self.first.first is First.HEAD else None
        if not typed and usual and abs(far - usual[1]) <= reach:
            far = usual[1]
        return self._rectangle(far, down) if far > SAME else None

    def showing(self, rectangle: Rectangle | None) -> Answer:
        """Return what it looks like as that rectangle."""
        usual = self.first.usual
        enter = f"; Enter makes it {length(usual[1])}" if usual else ""
        if rectangle is None:
            preview: tuple[BaseGeometry, ...] = (LineString([self.start, self.end]),)
            figures = figures_of_line((self.start, self.end))
        else:
            preview = (rectangle.outline(),)
            figures = sizes(rectangle)
        return Answer(
            tool=self,
            prompt=f"Click how far it reaches from its {self.first.called}, or type"
            f" its {'width' if self.first.first is First.LONG else 'length'}{enter}",
            preview=(*preview, Point(self.start), Point(self.end)),
            figures=figures,
            origin=self.end,
        )

    def _usual(self, here: Place) -> Rectangle | None:
        usual = self.first.usual
        if usual is None:
            return self.at(here, 0.0, typed=False)
        return self._rectangle(usual[1], self._down(here))

    def _down(self, here: Place) -> float:
        """Return how far a place lies to the right of the first side, as seen along it."""
        de, dn = self.end[0] - self.start[0], self.end[1] - self.start[1]
        e, n = here[0] - self.start[0], here[1] - self.start[1]
        return (e * dn - n * de) / hypot(de, dn)

    def _rectangle(self, far: float, down: float) -> Rectangle:
        if self.first.first is First.LONG:
            return self._beside(far, down)
        # a rectangle reaches to the right of its head line: to the left, the ends change places
        ends = (self.start, self.end) if down > -SAME else (self.end, self.start)
        return on_head_line(*ends, far)

    def _beside(self, far: float, down: float) -> Rectangle:
        """Return the rectangle so far beside its long side, which ends at the foot."""
        de, dn = self.end[0] - self.start[0], self.end[1] - self.start[1]
        long = hypot(de, dn)
        aside = far / long if down > -SAME else -far / long
        other = self.start[0] + dn * aside, self.start[1] - de * aside
        ends = (other, self.start) if down > -SAME else (self.start, other)
        return on_head_line(*ends, long)

    def _done(self, plan: Plan, rectangle: Rectangle | None) -> Answer:
        if rectangle is None:
            return self.showing(None)
        return self.first.wanted.done(
            plan, rectangle, after=self.first.waiting, otherwise=self.showing(rectangle)
        )


def sizes(rectangle: Rectangle) -> tuple[str, ...]:
    """Return the figures of a rectangle: both sides, and which way its foot lies."""
    return (
        f"head {length(rectangle.width)}",
        f"length {length(rectangle.length)}",
        f"feet to {as_degrees(rectangle.facing_deg)}",
    )
