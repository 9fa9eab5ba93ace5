"""A line drawn across what is chosen, or the outline of a piece of it, corner by corner."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.figures import Place, figures_of_area, figures_of_line
from plan_editor.drafting.squared import NORTH, squared
from plan_editor.drafting.tool import Act, Answer, Offer, Pointer
from plan_editor.drafting.workable import Fits, fitting, picked, pointed_at
from plan_editor.edits.chosen import called_on
from plan_editor.edits.shapes import ground_of
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

AT_ONCE = Offer(name="thing", title="By a thing that is there", key="G")


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """What a tool makes of the corners that are drawn.

    Args:
        fits: what can be chosen for it.
        choose, first, end: prompts: nothing is chosen; before the first corner; after enough.
        closed: whether the corners are those of an outline.
        edit: of what is chosen, what it is called, and the corners.
        by: of what is chosen, what it is called, and a thing clicked; None where none can be.
    """

    fits: Fits
    choose: str
    first: str
    end: str
    closed: bool
    edit: Callable[[tuple[ItemId, ...], str, tuple[Place, ...]], Edit]
    by: Callable[[tuple[ItemId, ...], str, ItemId], Edit] | None = None

    @property
    def fewest(self) -> int:
        """How many corners it takes."""
        return 3 if self.closed else 2


@dataclass(frozen=True, slots=True)
class Ready:
    """No corner is there yet."""

    across: Across

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Choose something where nothing that fits is chosen; otherwise begin."""
        ids = fitting(pointer.chosen, plan, self.across.fits)
        if pointer.act is Act.PRESS and not ids:
            chosen = picked(pointer, plan, self.across.fits)
            return replace(self.waiting(chosen=bool(chosen.ids)), chosen=chosen)
        if pointer.act is Act.PRESS:
            here = pointer.east, pointer.north
            return Drawing(across=self.across, ids=ids, corners=(here,)).showing(here)
        if pointer.act is Act.TAKE and pointer.offer == AT_ONCE.name and ids:
            return self._by_thing(ids)
        return self.waiting(chosen=bool(ids))

    def waiting(self, *, chosen: bool) -> Answer:
        """Return what it looks like before the first corner."""
        may = self.across.by is not None
        return Answer(
            tool=self,
            prompt=self.across.first if chosen else self.across.choose,
            offers=(replace(AT_ONCE, possible=chosen),) if may else (),
        )

    def _by_thing(self, ids: tuple[ItemId, ...]) -> Answer:
        if self.across.by is None:
            return self.waiting(chosen=True)
        return ByThing(across=self.across, ids=ids).showing()


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Some corners are there."""

    across: Across
    ids: tuple[ItemId, ...]
    corners: tuple[Place, ...]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Add a corner at a press; make the edit at the end, or go back."""
        here = self._meant(pointer)
        match pointer.act:
            case Act.PRESS if self._closes(pointer):
                return self._done(plan, here)
            case Act.PRESS:
                return self._with(here).showing(here)
            case Act.FINISH:
                return self._done(plan, here)
            case Act.BACK if len(self.corners) > 1:
                return replace(self, corners=self.corners[:-1]).showing(here)
            case Act.BACK | Act.CANCEL:
                left = fitting(self.ids, plan, self.across.fits)
                return Ready(self.across).waiting(chosen=bool(left))
            case _:
                return self.showing(here)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        last, far = self.corners[-1], apart(self.corners[-1], here)
        corners = (*self.corners, here) if far else self.corners
        whole = figures_of_area(corners) if self.across.closed else figures_of_line(corners)[2:]
        enough = len(self.corners) >= self.across.fewest
        return Answer(
            tool=self,
            prompt=self.across.end if enough else "Click the next corner, or type how far",
            preview=(*_shapes(corners, closed=self.across.closed), Point(self.corners[0])),
            figures=(*figures_of_line((last, here)), *whole),
            origin=last,
            toward=here if far else None,
        )

    def _meant(self, pointer: Pointer) -> Place:
        here = pointer.east, pointer.north
        if pointer.typed or not pointer.straight:
            return here
        return squared(self.corners[-1], here, self._way())

    def _way(self) -> Place:
        if len(self.corners) < 2:
            return NORTH
        (e0, n0), (e1, n1) = self.corners[-2:]
        long = ((e1 - e0) ** 2 + (n1 - n0) ** 2) ** 0.5
        return (e1 - e0) / long, (n1 - n0) / long

    def _with(self, here: Place) -> "Drawing":
        return (
            replace(self, corners=(*self.corners, here))
            if apart(self.corners[-1], here)
            else self
        )

    def _closes(self, pointer: Pointer) -> bool:
        """Return whether a press lies on the first corner of an outline."""
        here = pointer.east, pointer.north
        enough = self.across.closed and len(self.corners) >= self.across.fewest
        return enough and not apart(self.corners[0], here, pointer.reach)

    def _done(self, plan: Plan, here: Place) -> Answer:
        ids = fitting(self.ids, plan, self.across.fits)
        if not ids:
            return Ready(self.across).waiting(chosen=False)
        if len(self.corners) < self.across.fewest:
            said = f"It needs at least {self.across.fewest} corners: click the next"
            return replace(self.showing(here), prompt=said)
        edit = self.across.edit(ids, called_on(plan, ids), self.corners)
        waiting = Ready(self.across).waiting(chosen=True)
        return replace(waiting, edit=edit)


@dataclass(frozen=True, slots=True, kw_only=True)
class ByThing:
    """What is there already does it: it is clicked."""

    across: Across
    ids: tuple[ItemId, ...]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Make the edit by what is clicked."""
        ids = fitting(self.ids, plan, self.across.fits)
        ends = pointer.act in {Act.CANCEL, Act.BACK, Act.TAKE}
        if ends or not ids or self.across.by is None:
            return Ready(self.across).waiting(chosen=bool(ids))
        found = pointed_at(
            pointer, plan, lambda i: ground_of(i) is not None and i.id not in ids
        )
        if pointer.act is not Act.PRESS or not found:
            grounds = (ground_of(plan.items[i]) for i in found)
            return self.showing(*(g for g in grounds if g is not None))
        edit = self.across.by(ids, called_on(plan, ids), found[0])
        waiting = Ready(self.across).waiting(chosen=True)
        return replace(waiting, edit=edit)

    def showing(self, *under: BaseGeometry) -> Answer:
        """Return what it looks like, with what is under the pointer."""
        return Answer(
            tool=self,
            prompt="Click an area, or a line that has a width; its ground is cut out",
            preview=under,
            offers=(replace(AT_ONCE, on=True),),
        )


def _shapes(corners: tuple[Place, ...], *, closed: bool) -> tuple[BaseGeometry, ...]:
    if len(corners) < 2:
        return ()
    if closed and len(corners) > 2 and (area := Polygon(corners)).is_valid:
        return (area,)
    return (LineString(corners),)
