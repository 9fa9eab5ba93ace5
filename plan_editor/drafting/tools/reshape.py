"""Move the corners of what is chosen, put corners in, take them out; resize rectangles."""

from dataclasses import dataclass, replace
from math import hypot

from shapely import MultiPoint, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.corners import (
    Corner,
    Place,
    corner_moved,
    corners,
    middles,
    rings,
    side_moved,
    with_added,
    with_moved,
    without,
)
from plan_editor.drafting.figures import figures_of_line, length
from plan_editor.drafting.head_line import sizes
from plan_editor.drafting.sides import shift_to, side_shifted
from plan_editor.drafting.tool import (
    Act,
    Answer,
    Chosen,
    Offer,
    Pointer,
    Setting,
    ToolButton,
)
from plan_editor.edits.chosen import called
from plan_editor.edits.places import Reshape
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

CHOOSE = "Click one thing to see its corners"
TAKE = "Draw a corner to its place, or the middle of a side to make a corner there"
SIDES = "Draw a corner or the middle of a side to where it belongs; the bearing stays"
SHIFT = "Let go or click where the whole side belongs, or type how far it is shifted"
PUT = "Let go or click where it belongs, or type it; Backspace takes the corner out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """The one item that is reshaped, as it lies."""

    id: ItemId
    shape: BaseGeometry
    rectangle: Rectangle | None
    called: str


@dataclass(frozen=True, slots=True)
class Idle:
    """Nothing is in hand."""

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show the corners of what alone is chosen; a press takes hold of one."""
        item = _one(pointer.chosen, plan)
        if pointer.act is not Act.PRESS:
            return _showing(item)
        grip = None if item is None else _grip(item, pointer)
        if grip is not None:
            return grip.take(pointer, plan)
        found = _one(pointer.hits[:1], plan)
        return _showing(found, Chosen(ids=() if found is None else (found.id,)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Gripped:
    """A corner, or the middle of a side, is in hand; the plan is not changed yet.

    Args:
        id: the item.
        corner: which corner; or which one would come in at the middle of a side.
        new: it is the middle of a side.
        start: where it was.
        drawn: it was moved so far as to mean more than a click.
        whole: the whole side is shifted, as if the key were held.
    """

    id: ItemId
    corner: Corner
    new: bool
    start: Place
    drawn: bool = False
    whole: bool = False

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show what it would look like; a release or another click puts it there."""
        item = _one((self.id,), plan)
        if item is None or not self._fits(item) or pointer.act is Act.CANCEL:
            return _showing(item)
        here = pointer.east, pointer.north
        if pointer.act is Act.BACK:
            return self._out(item)
        if pointer.act is Act.TAKE:
            side = self._has_side(item) and self.whole != (pointer.offer == "side")
            return replace(self, whole=side)._showing(item, here)  # noqa: SLF001  # own kind
        meant = replace(self, whole=self._shifts(item, pointer))
        if self._ends(pointer):
            return meant._put(item, here, typed=pointer.typed)  # noqa: SLF001  # own kind
        if pointer.act is Act.FINISH:
            return _showing(item)
        moved = self.drawn or apart(self.start, here, pointer.reach)
        shown = meant._showing(item, here)  # noqa: SLF001  # own kind
        drawn = moved and pointer.act is Act.MOVE
        return replace(shown, tool=replace(self, drawn=drawn))

    def _has_side(self, item: Placed) -> bool:
        """Return whether it is the middle of a side that is not shifted anyway."""
        return self.new and item.rectangle is None

    def _shifts(self, item: Placed, pointer: Pointer) -> bool:
        held = pointer.straight and not pointer.typed
        return self._has_side(item) and self.whole != held

    def _ends(self, pointer: Pointer) -> bool:
        """Return whether it is put down: released after a way, or clicked elsewhere."""
        if pointer.act is Act.RELEASE:
            return self.drawn
        far = apart(self.start, (pointer.east, pointer.north), pointer.reach)
        return pointer.act is not Act.MOVE and (far or pointer.typed)

    def _fits(self, item: Placed) -> bool:
        """Return whether the item still has such a corner: the plan may have changed."""
        places = middles(item.shape) if self.new else corners(item.shape)
        return (self.corner, self.start) in tuple(places)

    def _showing(self, item: Placed, here: Place) -> Answer:
        place = self._at(item, here, typed=False)
        shape = place.outline() if isinstance(place, Rectangle) else place
        side = Offer(name="side", title="Shift the whole side", key="S", on=self.whole)
        answer = Answer(
            tool=self,
            prompt=SHIFT if self.whole else PUT,
            preview=(shape, Point(here)),
            figures=_figures(place, item.shape, self.corner, here),
            origin=self._origin(item),
            offers=(side,) if self._has_side(item) else (),
        )
        return self._shifting(answer, item, here) if self.whole else answer

    def _shifting(self, answer: Answer, item: Placed, here: Place) -> Answer:
        """Return the answer with what belongs to a side that is shifted."""
        by, (e, n) = shift_to(item.shape, self.corner, here)
        return replace(
            answer,
            figures=(f"shifted {length(abs(by))}", *answer.figures[-1:]),
            origin=self.start,
            toward=(self.start[0] + by * e, self.start[1] + by * n),
        )

    def _put(self, item: Placed, here: Place, *, typed: bool) -> Answer:
        place = self._at(item, here, typed=typed)
        edit = Reshape(id=item.id, place=place, called=item.called)
        return Answer(
            tool=Idle(), prompt=_prompt(item), edit=edit, chosen=Chosen(ids=(item.id,))
        )

    def _out(self, item: Placed) -> Answer:
        shorter = None if self.new or item.rectangle else without(item.shape, self.corner)
        if shorter is None:
            return _showing(item)
        edit = Reshape(id=item.id, place=shorter, called=item.called)
        return Answer(
            tool=Idle(), prompt=_prompt(item), edit=edit, chosen=Chosen(ids=(item.id,))
        )

    def _at(self, item: Placed, here: Place, *, typed: bool) -> BaseGeometry | Rectangle:
        """Return its place with what is in hand at the pointer."""
        if self.whole:
            return side_shifted(item.shape, self.corner, here)
        if item.rectangle is None:
            put = with_added if self.new else with_moved
            return put(item.shape, self.corner, here)
        if not self.new:
            return corner_moved(item.rectangle, self.corner.place, here)
        if typed:
            here = self._straight(item, here)
        return side_moved(item.rectangle, self.corner.place - 1, here)

    def _straight(self, item: Placed, here: Place) -> Place:
        """Return where a side belongs that a typed place puts so far from the opposite one."""
        east, north = self._origin(item) or self.start
        far = hypot(here[0] - east, here[1] - north)
        share = far / hypot(self.start[0] - east, self.start[1] - north)
        return east + (self.start[0] - east) * share, north + (self.start[1] - north) * share

    def _origin(self, item: Placed) -> Place | None:
        """Return from where a typed length counts: the opposite corner or side, or the last."""
        if item.rectangle is None:
            before = rings(item.shape)[self.corner.ring].before(self.corner.place)
            return self.start if before is None else before
        found = tuple(middles(item.shape) if self.new else corners(item.shape))
        shift = 1 if self.new else 0
        return found[(self.corner.place - shift + 2) % 4][1]


def _showing(item: Placed | None, chosen: Chosen | None = None) -> Answer:
    if item is None:
        return Answer(tool=Idle(), prompt=CHOOSE, chosen=chosen)
    handles: tuple[BaseGeometry, ...] = tuple(Point(p) for _, p in corners(item.shape))
    between = [p for _, p in middles(item.shape)]
    return Answer(
        tool=Idle(),
        prompt=_prompt(item),
        preview=(*handles, *((MultiPoint(between),) if between else ())),
        figures=() if item.rectangle is None else sizes(item.rectangle),
        chosen=chosen,
    )


def _prompt(item: Placed) -> str:
    return TAKE if item.rectangle is None else SIDES


def _figures(
    place: BaseGeometry | Rectangle, before: BaseGeometry, corner: Corner, here: Place
) -> tuple[str, ...]:
    if isinstance(place, Rectangle):
        return sizes(place)
    last = rings(before)[corner.ring].before(corner.place)
    side = () if last is None else figures_of_line((last, here))
    match place.geom_type:
        case "Point":
            return ()
        case "LineString":
            return (*side, f"in all {length(place.length)}")
        case _:
            return (*side, f"{place.area:.1f} m²" if place.is_valid else "it crosses itself")


def _one(ids: tuple[ItemId, ...], plan: Plan) -> Placed | None:
    """Return the one item that can be reshaped, or None where there is none or several."""
    found = [plan.items[i] for i in ids if i in plan.items]
    if len(found) != 1 or found[0].shape is None or found[0].kind.pinned:
        return None
    (item,) = found
    return Placed(
        id=item.id, shape=found[0].shape, rectangle=item.rectangle, called=called([item])
    )


def _grip(item: Placed, pointer: Pointer) -> Gripped | None:
    """Return the corner in reach, or else the middle of a side."""
    here = pointer.east, pointer.north
    found = [(c, p, False) for c, p in corners(item.shape)]
    found += [(c, p, True) for c, p in middles(item.shape)]
    near = [f for f in found if not apart(f[1], here, pointer.reach)]
    if not near:
        return None
    corner, place, new = min(
        near, key=lambda f: (f[2], hypot(f[1][0] - here[0], f[1][1] - here[1]))
    )
    return Gripped(id=item.id, corner=corner, new=new, start=place)


def _start(setting: Setting) -> Answer:
    return _showing(_one(setting.chosen, setting.plan))


TOOL = ToolButton(
    name="reshape",
    title="Reshape",
    icon="reshape",
    key="R",
    order=40,
    jobs=frozenset({"survey", "trace", "space"}),
    start=_start,
)
