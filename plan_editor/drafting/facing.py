"""Which way something at a point faces."""

from dataclasses import dataclass, replace
from typing import Any

from shapely import LineString, Point

from plan_editor.drafting.adding import Wanted, apart
from plan_editor.drafting.figures import Place
from plan_editor.drafting.squared import NORTH, squared
from plan_editor.drafting.tool import Act, Answer, Pointer
from plan_editor.geometry.bearings import as_degrees, bearing
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Facing:
    """A point is placed; which way it faces is wanted.

    Args:
        waiting: what follows when it is drawn or given up.
        wanted: what is drawn.
        at: its place.
    """

    waiting: Answer
    wanted: Wanted
    at: Place

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Draw it at a press, facing there; Enter draws it and leaves that open."""
        here = pointer.east, pointer.north
        if pointer.straight and not pointer.typed:
            here = squared(self.at, here, NORTH)
        match pointer.act:
            case Act.PRESS if apart(self.at, here):
                return self._done(plan, here, ((self.wanted.kind.facing, self._to(here)),))
            case Act.FINISH:
                return self._done(plan, here, ())
            case Act.CANCEL | Act.BACK:
                return self.waiting
            case _:
                return self.showing(here)

    def showing(self, here: Place) -> Answer:
        """Return what it looks like with the pointer at a place."""
        far = apart(self.at, here)
        return Answer(
            tool=self,
            prompt="Click where it faces, or type a bearing; Enter leaves that open",
            preview=(*((LineString([self.at, here]),) if far else ()), Point(self.at)),
            figures=(f"faces {as_degrees(self._to(here))}",) if far else (),
            origin=self.at,
            toward=here if far else None,
        )

    def _to(self, here: Place) -> float:
        return round(bearing(here[0] - self.at[0], here[1] - self.at[1]), 1) % 360.0

    def _done(self, plan: Plan, here: Place, details: tuple[tuple[str, Any], ...]) -> Answer:
        wanted = replace(self.wanted, details=details)
        return wanted.done(
            plan, Point(self.at), after=self.waiting, otherwise=self.showing(here)
        )
