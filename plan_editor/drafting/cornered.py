"""A line or an area while it is drawn: corner by corner, with arcs, along edges."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import Wanted, apart
from plan_editor.drafting.along_edge import AlongFrom
from plan_editor.drafting.arcing import ArcFrom
from plan_editor.drafting.figures import Place, figures_of_area, figures_of_line
from plan_editor.drafting.outline import Piece
from plan_editor.drafting.squared import NORTH, squared
from plan_editor.drafting.tapes import begun_tapes, taped
from plan_editor.drafting.tool import Act, Answer, Offer, Pointer
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Cornered:
    """A line or an area has some corners.

    Args:
        waiting: what follows when it is drawn or given up.
        wanted: what is drawn.
        pieces: so far; none before the first run along an edge.
        way: the direction that the first side keeps to, or square to it.
        square: it keeps to right angles, as if the key were held.
    """

    waiting: Answer
    wanted: Wanted
    pieces: tuple[Piece, ...] = ()
    way: Place = NORTH
    square: bool = False

    @property
    def corners(self) -> tuple[Place, ...]:
        """Every corner so far."""
        return tuple(place for piece in self.pieces for place in piece.places)

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Add a corner at a press; close on the first one; finish, or go back."""
        if not self.pieces:
            return self.waiting
        here = self._meant(pointer)
        match pointer.act:
            case Act.PRESS:
                return self._pressed(pointer, plan, here)
            case Act.CANCEL | Act.BACK:
                left = self.pieces[:-1] if pointer.act is Act.BACK else ()
                return replace(self, pieces=left).showing(here)
            case Act.FINISH:
                return self._finished(plan, here)
            case Act.TAKE:
                return self._taken(pointer, plan, here)
            case _:
                return self.showing(here)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        if not self.pieces:
            return self.waiting
        last, far = self.corners[-1], apart(self.corners[-1], here)
        corners = (*self.corners, here) if far else self.corners
        line = figures_of_line((last, here))
        whole = figures_of_area(corners) if self._is_area else figures_of_line(corners)[2:]
        return Answer(
            tool=self,
            prompt=self._prompt(),
            preview=(*self._shapes(corners), *self._handles()),
            figures=(*line, *whole),
            origin=last,
            toward=here if far else None,
            offers=self._offers(),
        )

    def with_piece(self, piece: Piece) -> "Cornered":
        """Return it with one more piece; a place where it stands already does not count."""
        places = piece.places
        if self.pieces and not apart(self.corners[-1], places[0]):
            places = places[1:]
        if not places:
            return self
        return replace(self, pieces=(*self.pieces, replace(piece, places=places)))

    @property
    def _is_area(self) -> bool:
        return self.wanted.form is Form.AREA

    def _meant(self, pointer: Pointer) -> Place:
        here = pointer.east, pointer.north
        if pointer.typed or pointer.straight == self.square:
            return here
        return squared(self.corners[-1], here, self._arriving())

    def _arriving(self) -> Place:
        """Return the direction of the last side: east and north, 1 long."""
        if (way := self.pieces[-1].way) is not None:
            return way
        if len(self.corners) < 2:
            return self.way
        (e0, n0), (e1, n1) = self.corners[-2:]
        long = ((e1 - e0) ** 2 + (n1 - n0) ** 2) ** 0.5
        return (e1 - e0) / long, (n1 - n0) / long

    def _prompt(self) -> str:
        if len(self.corners) < (3 if self._is_area else 2):
            return "Click the next corner, or type how far and on what bearing"
        if self._is_area:
            return "Click the next corner; the first one, a double click or Enter closes it"
        return "Click the next corner; a double click or Enter ends it"

    def _offers(self) -> tuple[Offer, ...]:
        return (
            Offer(name="arc", title="Arc", key="A"),
            Offer(name="along", title="Along an edge", key="L"),
            Offer(name="tapes", title="Two tapes", key="Y"),
            Offer(name="square", title="Right angles", key="S", on=self.square),
        )

    def _handles(self) -> Iterable[Point]:
        """Return where the pieces meet: an arc is one, however many sides stand for it."""
        yield Point(self.corners[0])
        for piece in self.pieces:
            yield Point(piece.places[-1])

    def _shapes(self, corners: tuple[Place, ...]) -> tuple[BaseGeometry, ...]:
        if len(corners) < 2:
            return ()
        if self._is_area and len(corners) > 2 and (area := Polygon(corners)).is_valid:
            return (area,)
        return (LineString(corners),)

    def _pressed(self, pointer: Pointer, plan: Plan, here: Place) -> Answer:
        reach = SAME if pointer.typed else pointer.reach
        if self._closes((pointer.east, pointer.north), reach):
            closed = self if self._is_area else self._to(self.corners[0])
            return closed._finished(plan, here)  # noqa: SLF001  # of its own kind
        if not apart(self.corners[-1], here):
            return self.showing(here)
        return self.with_piece(Piece(places=(here,), basis=pointer.basis)).showing(here)

    def _closes(self, here: Place, reach: float) -> bool:
        """Return whether a press at a place closes the ring."""
        return len(self.corners) >= 3 and not apart(self.corners[0], here, reach)

    def _to(self, corner: Place) -> "Cornered":
        return self.with_piece(Piece(places=(corner,)))

    def _taken(self, pointer: Pointer, plan: Plan, here: Place) -> Answer:
        match pointer.offer:
            case "arc":
                return ArcFrom(outline=self).showing(here)
            case "along":
                return AlongFrom(outline=self, before=self.showing(here)).showing()
            case "tapes":
                return begun_tapes(self.showing(here), (pointer.east, pointer.north), plan)
            case "square":
                return replace(self, square=not self.square).take(
                    replace(pointer, act=Act.MOVE), plan
                )
            case _:
                return self.showing(here)

    def _finished(self, plan: Plan, here: Place) -> Answer:
        corners = self._ring() if self._is_area else self.corners
        fewest = 3 if self._is_area else 2
        if len(corners) < fewest:
            return replace(
                self.showing(here), prompt=f"It needs at least {fewest} corners: click the next"
            )
        wanted = replace(self.wanted, basis=taped(piece.basis for piece in self.pieces))
        shape = Polygon(corners) if self._is_area else LineString(corners)
        return wanted.done(plan, shape, after=self.waiting, otherwise=self.showing(here))

    def _ring(self) -> tuple[Place, ...]:
        """Return the corners without a last one that lies on the first."""
        corners = self.corners
        back = len(corners) > 1 and not apart(corners[0], corners[-1])
        return corners[:-1] if back else corners
