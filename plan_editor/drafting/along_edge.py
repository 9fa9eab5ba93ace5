"""The next piece of an outline runs along the edge of something that is drawn already."""

from dataclasses import dataclass, replace

import shapely
from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.arcing import drawn
from plan_editor.drafting.figures import Place, length, run
from plan_editor.drafting.outline import Outline, Piece
from plan_editor.drafting.tool import Act, Answer, Offer, Pointer
from plan_editor.drafting.touched import Touched, touched
from plan_editor.geometry.edges import spot_on, ways_between
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

OFF = Offer(name="along", title="Along an edge", key="L", on=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class AlongFrom:
    """Where the outline joins an edge is wanted.

    Args:
        outline: what is drawn; it may have no corner yet.
        before: what follows one step back.
    """

    outline: Outline
    before: Answer

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Join the edge at a press on it; Enter finishes the outline without it."""
        match pointer.act:
            case Act.PRESS:
                found = touched(plan, pointer.hits, _place(pointer), pointer.reach)
                return self._joined(found) if found else self.showing(NOTHING)
            case Act.CANCEL:
                return self.outline.waiting
            case Act.BACK | Act.TAKE:
                return self.before
            case Act.FINISH:
                return self.outline.take(pointer, plan)
            case _:
                return self.showing()

    def showing(self, prompt: str = "") -> Answer:
        """Return what it looks like."""
        return Answer(
            tool=self,
            prompt=prompt or "Click where it joins the edge of something: a corner, or a side",
            preview=(*drawn(self.outline.corners), *map(Point, self.outline.corners)),
            offers=(OFF,),
        )

    def _joined(self, found: tuple[Touched, ...]) -> Answer:
        edges = tuple(dict.fromkeys((t.item, t.ring) for t in found))
        return AlongTo(first=self, start=found[0].spot.place, edges=edges).showing(None)


NOTHING = "There is no edge there. Click on a corner or a side of something"


@dataclass(frozen=True, slots=True, kw_only=True)
class AlongTo:
    """Where it leaves the edge is wanted.

    Args:
        first: the state that it comes from.
        start: where it joined.
        edges: those that were touched there: of which item, which ring of its shape.
        other: it goes the longer way round.
        face: of a line with a width, it runs along the left face (1), the right one (-1), or
            along its middle (0).
    """

    first: AlongFrom
    start: Place
    edges: tuple[tuple[ItemId, int], ...]
    other: bool = False
    face: int = 0

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Take over every corner up to a press on the same edge."""
        match pointer.act:
            case Act.PRESS:
                return self._left(pointer, plan)
            case Act.CANCEL:
                return self.first.outline.waiting
            case Act.BACK:
                return self.first.showing()
            case Act.TAKE if pointer.offer == OFF.name:
                return self.first.before
            case Act.TAKE:
                return self._turned(pointer.offer)._shown(pointer, plan)  # noqa: SLF001
            case _:
                return self._shown(pointer, plan)

    def showing(
        self, way: tuple[Place, ...] | None, prompt: str = "", *, broad: bool = False
    ) -> Answer:
        """Return what it looks like, going along a way.

        Args:
            way: corner by corner; None where it goes nowhere yet.
            prompt: said in place of the usual.
            broad: whether it goes along a line that has a width.
        """
        face = Offer(name="face", title="Along its face", key="F", on=self.face != 0)
        corners = (*self.first.outline.corners, *(way or (self.start,)))
        return Answer(
            tool=self,
            prompt=prompt or "Click where it leaves the same edge; every corner is taken over",
            preview=(*_drawn(corners), Point(self.start), *map(Point, (way or ())[-1:])),
            figures=(f"along it {length(run(way))}",) if way else (),
            offers=(
                OFF,
                Offer(name="other", title="The other way round", key="O", on=self.other),
                *((face,) if broad else ()),
            ),
        )

    def _turned(self, offer: str) -> "AlongTo":
        """Return it the other way round, or along the next face: left, right, none."""
        if offer == "face":
            return replace(self, face={0: 1, 1: -1, -1: 0}[self.face])
        return replace(self, other=not self.other)

    def _shown(self, pointer: Pointer, plan: Plan) -> Answer:
        # wherever the pointer is: the edge is followed to the place nearest to it
        ids = tuple(i for i, _ in self.edges)
        found = self._on_edge(touched(plan, ids, _place(pointer), float("inf")))
        if found is None:
            return self.showing(None)
        return self.showing(self._way(found, plan), broad=_width(found, plan) > 0.0)

    def _left(self, pointer: Pointer, plan: Plan) -> Answer:
        hits = tuple(i for i, _ in self.edges)
        found = self._on_edge(touched(plan, hits, _place(pointer), pointer.reach))
        if found is None:
            return self.showing(None, "That is not on the same edge. Click where it leaves it")
        way = self._way(found, plan)
        if way is None:
            return self.showing(None)
        last = way[-1]
        return self.first.outline.with_piece(Piece(places=way)).showing(last)

    def _on_edge(self, found: tuple[Touched, ...]) -> Touched | None:
        same = (t for t in found if (t.item, t.ring) in self.edges)
        return next(same, None)

    def _way(self, to: Touched, plan: Plan) -> tuple[Place, ...] | None:
        """Return the way from where it joined; None where that is the same place."""
        corners, closed = to.line.corners, to.line.closed
        start = spot_on(corners, closed=closed, near=self.start)
        if start.place == to.spot.place:
            return None
        ways = ways_between(corners, closed=closed, start=start, end=to.spot)
        way = ways[-1] if self.other else ways[0]
        return _beside(way, self.face * _width(to, plan) / 2)


def _width(along: Touched, plan: Plan) -> float:
    """Return how wide the line is that is followed; 0.0 of an area."""
    item = plan.items[along.item]
    return 0.0 if along.line.closed else item.kind.width_m(item.details)


def _beside(way: tuple[Place, ...], left: float) -> tuple[Place, ...]:
    """Return a way so far to the left of another; itself where nothing is left of that."""
    if left == 0.0:
        return way
    line = shapely.offset_curve(LineString(way), left, join_style="mitre")
    if line.is_empty or line.geom_type != "LineString":
        return way
    return tuple((e, n) for e, n in line.coords)


def _place(pointer: Pointer) -> Place:
    return pointer.east, pointer.north


def _drawn(corners: tuple[Place, ...]) -> tuple[BaseGeometry, ...]:
    return (LineString(corners),) if len(set(corners)) > 1 else ()
