"""An arc as the next piece of an outline: a place on it, then its end."""

from dataclasses import dataclass

from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import apart
from plan_editor.drafting.figures import Place, figures_of_line, length
from plan_editor.drafting.outline import Outline, Piece
from plan_editor.drafting.tool import Act, Answer, Offer, Pointer
from plan_editor.geometry.arcs import arc_through
from plan_editor.plan.plan import Plan

STRAIGHT = Offer(name="arc", title="Arc", key="A", on=True)
"""Taken up again, it leads back to straight sides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcFrom:
    """An arc begins at the last corner of an outline; a place on it is wanted."""

    outline: Outline

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Fix a place on the arc at a press; Enter finishes the outline without it."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.PRESS if apart(self.outline.corners[-1], here):
                return ArcTo(first=self, through=here).showing(here)
            case Act.CANCEL:
                return self.outline.waiting
            case Act.BACK | Act.TAKE:
                return self.outline.showing(here)
            case Act.FINISH:
                return self.outline.take(pointer, plan)
            case _:
                return self.showing(here)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        start = self.outline.corners[-1]
        return Answer(
            tool=self,
            prompt="Click a place on the arc, somewhere in its middle",
            preview=(*drawn(self.outline.corners), *_line((start, here)), Point(start)),
            figures=figures_of_line((start, here)),
            origin=start,
            offers=(STRAIGHT,),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcTo:
    """An arc has a place on it; its end is wanted."""

    first: ArcFrom
    through: Place

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Fix its end at a press."""
        del plan  # it is looked at when the outline is finished
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.PRESS if self._far(here):
                return self.first.outline.with_piece(self.piece(here)).showing(here)
            case Act.CANCEL:
                return self.first.outline.waiting
            case Act.BACK:
                return self.first.showing(here)
            case Act.TAKE:
                return self.first.outline.showing(here)
            case _:
                return self.showing(here)

    def piece(self, end: Place) -> Piece:
        """Return the arc to an end; a straight side where the three places lie in a line."""
        arc = arc_through(self.first.outline.corners[-1], self.through, end)
        if arc is None:
            return Piece(places=(end,))
        return Piece(places=arc.places(), way=arc.way)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        corners = self.first.outline.corners
        piece = self.piece(here) if self._far(here) else Piece(places=(self.through,))
        return Answer(
            tool=self,
            prompt="Click where the arc ends",
            preview=(
                *drawn((*corners, *piece.places)),
                Point(corners[-1]),
                Point(self.through),
            ),
            figures=self._figures(here),
            origin=self.through,
            offers=(STRAIGHT,),
        )

    def _figures(self, here: Place) -> tuple[str, ...]:
        arc = arc_through(self.first.outline.corners[-1], self.through, here)
        if arc is None:
            return figures_of_line((self.first.outline.corners[-1], here))
        return f"radius {length(arc.circle.radius)}", f"along it {length(arc.length)}"

    def _far(self, here: Place) -> bool:
        return apart(self.first.outline.corners[-1], here) and apart(self.through, here)


def drawn(corners: tuple[Place, ...]) -> tuple[BaseGeometry, ...]:
    """Return corners as a line, or as nothing where there is only one."""
    return (LineString(corners),) if len(corners) > 1 else ()


def _line(corners: tuple[Place, Place]) -> tuple[BaseGeometry, ...]:
    return (LineString(corners),) if apart(*corners) else ()
