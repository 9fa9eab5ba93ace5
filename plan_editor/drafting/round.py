"""Circles: by middle and radius, or by three places on them."""

from dataclasses import dataclass, replace
from math import hypot, pi

from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.drafting.adding import Wanted, apart
from plan_editor.drafting.figures import Place, length
from plan_editor.drafting.tool import Act, Answer, Pointer
from plan_editor.geometry.arcs import Circle, circle_through
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

LARGEST_M = 1_000.0
"""A circle with a larger radius is a slip of the hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CircleTo:
    """A circle has its middle; its radius is wanted.

    Args:
        waiting: what follows when it is drawn or given up.
        wanted: what is drawn.
        middle: its middle.
    """

    waiting: Answer
    wanted: Wanted
    middle: Place

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Draw it at a press on its edge."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.PRESS if apart(self.middle, here):
                circle = Circle(self.middle, _far(self.middle, here))
                return drawn_round(self, plan, circle, here, otherwise=self.showing(here))
            case Act.CANCEL | Act.BACK:
                return self.waiting
            case _:
                return self.showing(here)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        circle = Circle(self.middle, _far(self.middle, here))
        far = apart(self.middle, here) and circle.radius <= LARGEST_M
        return Answer(
            tool=self,
            prompt="Click a place on its edge, or type its radius",
            preview=(*(_shown(circle, here) if far else ()), Point(self.middle)),
            figures=_figures(circle) if far else (),
            origin=self.middle,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class CirclePoints:
    """A circle has one or two places on it; three are wanted."""

    waiting: Answer
    wanted: Wanted
    places: tuple[Place, ...]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Fix another place at a press; the third draws it."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.PRESS if all(apart(p, here) for p in self.places):
                return self._with(here, plan)
            case Act.CANCEL:
                return self.waiting
            case Act.BACK:
                fewer = replace(self, places=self.places[:-1])
                return fewer.showing(here) if fewer.places else self.waiting
            case _:
                return self.showing(here)

    def showing(self, here: Place, prompt: str = "") -> Answer:
        """Return what it looks like with the pointer at a place."""
        circle = _through((*self.places, here))
        which = "last" if len(self.places) == 2 else "next"
        return Answer(
            tool=self,
            prompt=prompt or f"Click the {which} place on its edge",
            preview=(*(_shown(circle, here) if circle else ()), *map(Point, self.places)),
            figures=_figures(circle) if circle else (),
            origin=self.places[-1],
        )

    def _with(self, here: Place, plan: Plan) -> Answer:
        places = (*self.places, here)
        if len(places) < 3:
            return replace(self, places=places).showing(here)
        circle = _through(places)
        if circle is None:
            line = "The three places lie in a line: click one that does not"
            return self.showing(here, line)
        return drawn_round(self, plan, circle, self.places[0], otherwise=self.showing(here))


def drawn_round(
    state: CircleTo | CirclePoints,
    plan: Plan,
    circle: Circle,
    first: Place,
    *,
    otherwise: Answer,
) -> Answer:
    """Return the answer that draws a circle: an area, or a point that is so large."""
    wanted = state.wanted
    if circle.radius > LARGEST_M:
        said = f"A radius of more than {LARGEST_M:.0f} m is not drawn. Click nearer"
        return replace(otherwise, prompt=said)
    if wanted.form is Form.POINT:
        size = ((wanted.kind.width, round(2 * circle.radius, 3)),)
        wanted = replace(wanted, details=size)
        return wanted.done(plan, Point(circle.middle), after=state.waiting, otherwise=otherwise)
    ring = Polygon(circle.corners(first))
    return wanted.done(plan, ring, after=state.waiting, otherwise=otherwise)


def _through(places: tuple[Place, ...]) -> Circle | None:
    circle = circle_through(*places) if len(places) == 3 else None
    return circle if circle is not None and circle.radius <= LARGEST_M else None


def _far(middle: Place, here: Place) -> float:
    return hypot(here[0] - middle[0], here[1] - middle[1])


def _shown(circle: Circle, here: Place) -> tuple[BaseGeometry, ...]:
    return Polygon(circle.corners(here)), LineString([circle.middle, here])


def _figures(circle: Circle) -> tuple[str, ...]:
    return (
        f"radius {length(circle.radius)}",
        f"across {length(2 * circle.radius)}",
        f"{pi * circle.radius**2:.1f} m²",
    )
