"""Turn what is chosen: about a place, from one place to another, or by a typed angle."""

from dataclasses import dataclass, replace

from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.figures import Place
from plan_editor.drafting.tool import (
    Act,
    Answer,
    Blank,
    Chosen,
    Offer,
    Pointer,
    Setting,
    ToolButton,
)
from plan_editor.drafting.workable import fitting, middle_of, movable, picked
from plan_editor.edits.chosen import called_on
from plan_editor.edits.places import Turn
from plan_editor.errors import EditRefused
from plan_editor.geometry.bearings import as_degrees, bearing, read
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

CHOOSE = "Click what is to be turned"
PIVOT = "Click the place to turn about, or type an angle: about the middle of what is chosen"
EACH = "Type an angle, or click a place to measure it at: each turns about its own middle"
FROM = "Click a place that is to be turned, or type an angle"
TO = "Click where that place belongs"
UNREAD = "That is no angle. Type degrees clockwise, like 15, -7.5 or 12°30'"


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """What is known so far: about which place, and from which one.

    Args:
        each: each thing turns about its own middle; the places only measure the angle.
    """

    each: bool = False
    pivot: Place | None = None
    start: Place | None = None

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Choose something where nothing is chosen; otherwise take the next place."""
        ids = fitting(pointer.chosen, plan, movable)
        match pointer.act:
            case Act.CANCEL | Act.BACK | Act.TAKE:
                return self._otherwise(pointer).showing(None, plan, ids)
            case Act.FILL if ids:
                return self._typed(pointer, plan, ids)
            case Act.PRESS if not ids:
                chosen = picked(pointer, plan, movable)
                return replace(self.showing(None, plan, chosen.ids), chosen=chosen)
            case Act.PRESS:
                return self._pressed(pointer, plan, ids)
            case _:
                return self.showing(self._meant(pointer), plan, ids)

    def showing(self, here: Place | None, plan: Plan, ids: tuple[ItemId, ...]) -> Answer:
        """Return what it looks like with the pointer at a place, or nowhere."""
        answer = Answer(
            tool=self, prompt=self._prompt(ids), offers=self._offers(), blanks=_blanks(ids)
        )
        if self.pivot is None:
            return answer
        answer = replace(answer, preview=(Point(self.pivot),), origin=self.pivot)
        if self.start is None or here is None or not apart(here, self.pivot):
            return answer
        degrees = self._angle(self.start, here)
        sides = LineString([self.start, self.pivot, here])
        return replace(
            answer,
            preview=(*_turned(self._edit(degrees, plan, ids), plan), sides, Point(self.pivot)),
            figures=(f"turned {_signed(degrees)}",),
        )

    def _prompt(self, ids: tuple[ItemId, ...]) -> str:
        if self.pivot is not None:
            return FROM if self.start is None else TO
        if not ids:
            return CHOOSE
        return EACH if self.each else PIVOT

    def _offers(self) -> tuple[Offer, ...]:
        return (Offer(name="each", title="Each about its own middle", key="O", on=self.each),)

    def _otherwise(self, pointer: Pointer) -> "Turning":
        """Return the state after a step back, or with the offer taken up or given up."""
        if pointer.act is Act.TAKE:
            return replace(self, each=self.each != (pointer.offer == "each"))
        kept = self.pivot if self.start and pointer.act is Act.BACK else None
        return replace(self, pivot=kept, start=None)

    def _pressed(self, pointer: Pointer, plan: Plan, ids: tuple[ItemId, ...]) -> Answer:
        here = self._meant(pointer)
        if self.pivot is None:
            return replace(self, pivot=here).showing(here, plan, ids)
        if not apart(here, self.pivot):
            return self.showing(None, plan, ids)
        if self.start is None:
            return replace(self, start=here).showing(None, plan, ids)
        return self._done(self._angle(self.start, here), plan, ids)

    def _typed(self, pointer: Pointer, plan: Plan, ids: tuple[ItemId, ...]) -> Answer:
        degrees = _read(dict(pointer.filled).get("angle", ""))
        if degrees is None:
            return replace(self.showing(None, plan, ids), prompt=UNREAD)
        return self._done(degrees, plan, ids)

    def _done(self, degrees: float, plan: Plan, ids: tuple[ItemId, ...]) -> Answer:
        ready = Turning(each=self.each).showing(None, plan, ids)
        return replace(ready, edit=self._edit(degrees, plan, ids), chosen=Chosen(ids=ids))

    def _edit(self, degrees: float, plan: Plan, ids: tuple[ItemId, ...]) -> Turn:
        about = None if self.each else self.pivot or middle_of(ids, plan)
        return Turn(ids=ids, degrees=degrees, about=about, called=called_on(plan, ids))

    def _meant(self, pointer: Pointer) -> Place:
        """Return where the pointer is, or a quarter of a circle on from where it began."""
        here = pointer.east, pointer.north
        if not pointer.straight or pointer.typed or self.pivot is None or self.start is None:
            return here
        quarters = round(self._angle(self.start, here) / 90.0) % 4 if here != self.pivot else 0
        east, north = self.start[0] - self.pivot[0], self.start[1] - self.pivot[1]
        for _ in range(quarters):
            east, north = north, -east
        return self.pivot[0] + east, self.pivot[1] + north

    def _angle(self, start: Place, here: Place) -> float:
        """Return the turn from one place to another about the pivot, clockwise."""
        e, n = self.pivot or start
        return bearing(here[0] - e, here[1] - n) - bearing(start[0] - e, start[1] - n)


def _turned(edit: Turn, plan: Plan) -> tuple[BaseGeometry, ...]:
    try:
        after = [c.after for c in edit.changes(plan)]
    except EditRefused:
        return ()
    return tuple(i.shape for i in after if i is not None and i.shape is not None)


def _signed(degrees: float) -> str:
    left = (degrees + 180.0) % 360.0 - 180.0
    return as_degrees(left) if left >= 0.0 else f"{as_degrees(-left)} to the left"


def _blanks(ids: tuple[ItemId, ...]) -> tuple[Blank, ...]:
    return (Blank(name="angle", title="Angle", example="15, or -7.5"),) if ids else ()


def _read(text: str) -> float | None:
    plain = text.strip().replace("−", "-")
    try:
        degrees = read(plain.removeprefix("-"))
    except ValueError:
        return None
    return -degrees if plain.startswith("-") else degrees


def _start(setting: Setting) -> Answer:
    ready = Turning()
    return Answer(
        tool=ready,
        prompt=PIVOT if setting.chosen else CHOOSE,
        offers=(Offer(name="each", title="Each about its own middle", key="O"),),
        blanks=_blanks(setting.chosen),
    )


TOOL = ToolButton(
    name="turn",
    title="Turn",
    icon="turn",
    key="U",
    order=33,
    jobs=frozenset({"survey", "trace", "records", "space"}),
    start=_start,
)
