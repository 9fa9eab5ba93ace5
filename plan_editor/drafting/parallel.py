"""A line at a distance from another, or from a side of something."""

from dataclasses import dataclass, replace

import shapely
from shapely import LineString, Point, Polygon

from plan_editor.drafting.adding import Wanted
from plan_editor.drafting.figures import Place, length
from plan_editor.drafting.tool import Act, Answer, Blank, Offer, Pointer
from plan_editor.drafting.touched import Touched, touched
from plan_editor.geometry import lengths
from plan_editor.geometry.tolerance import SAME
from plan_editor.plan.item import Basis, Method
from plan_editor.plan.plan import Plan

FARTHEST_M = 1_000.0
"""A line farther away than this is a slip of the keys."""

SHARPEST = 5.0
"""A corner reaches out to so many times the distance; a sharper one is cut off."""

DISTANCE = Blank(name="distance", title="Distance", example="1.20 or 4'")


@dataclass(frozen=True, slots=True, kw_only=True)
class ParallelTo:
    """A line or a side was clicked; the distance from it is wanted, to one side or the other.

    Args:
        waiting: what follows when it is drawn or given up.
        wanted: what is drawn.
        edge: the line, ring or side.
        whole: all of it is followed, not only the side that was clicked.
        basis: how the place of what it belongs to is known, and what that is called.
    """

    waiting: Answer
    wanted: Wanted
    edge: Touched
    whole: bool
    basis: Basis

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Draw it at a press, or at the typed distance on the side of the pointer."""
        here = pointer.east, pointer.north
        match pointer.act:
            case Act.PRESS:
                return self._drawn(self._away(here), here, plan)
            case Act.FILL:
                return self._filled(dict(pointer.filled), here, plan)
            case Act.CANCEL | Act.BACK:
                return self.waiting
            case Act.TAKE:
                return replace(self, whole=not self.whole).showing(here)
            case _:
                return self.showing(here)

    def showing(self, here: Place, prompt: str = "") -> Answer:
        """Return what it looks like with the pointer at a place."""
        away = self._away(here)
        line = self._line(away, here) if SAME < away <= FARTHEST_M else None
        return Answer(
            tool=self,
            prompt=prompt or "Click how far away it runs, or type the distance",
            preview=(self._base(), *((line,) if line is not None else ())),
            figures=(f"{length(away)} away", *_run(line)),
            offers=(Offer(name="whole", title=self._all_of_it(), key="A", on=self.whole),),
            blanks=(DISTANCE,),
        )

    def _all_of_it(self) -> str:
        return "All round" if self.edge.line.closed else "The whole line"

    def _filled(self, typed: dict[str, str], here: Place, plan: Plan) -> Answer:
        try:
            away = lengths.metres(typed.get(DISTANCE.name, ""))
        except ValueError as unread:
            return self.showing(here, f"Nothing was drawn. {unread}")
        return self._drawn(away, here, plan)

    def _drawn(self, away: float, here: Place, plan: Plan) -> Answer:
        if not SAME < away <= FARTHEST_M:
            said = f"Nothing was drawn. Give a distance of up to {FARTHEST_M:.0f} m"
            return self.showing(here, said)
        line = self._line(away, here)
        if line is None:
            said = (
                f"Nothing is left of it {away:.2f} m away on that side. Give another distance"
            )
            return self.showing(here, said)
        basis = replace(self.basis, source=f"{away:.2f} m from {self.basis.source}")
        return replace(self.wanted, basis=basis).done(
            plan, line, after=self.waiting, otherwise=self.showing(here)
        )

    def _base(self) -> LineString:
        corners = self.edge.line.corners
        if not self.whole:
            return LineString(self.edge.side)
        return LineString((*corners, corners[0]) if self.edge.line.closed else corners)

    def _away(self, here: Place) -> float:
        return float(self._base().distance(Point(here)))

    def _line(self, away: float, here: Place) -> LineString | None:
        """Return the line so far away on the side of a place; None where nothing is left."""
        if self.whole and self.edge.line.closed:
            return _round(Polygon(self.edge.line.corners), away, here)
        both = [_beside(self._base(), side * away) for side in (1, -1)]
        left = [line for line in both if line is not None]
        return min(left, key=lambda line: line.distance(Point(here)), default=None)


def parallel_to(
    pointer: Pointer, plan: Plan, *, waiting: Answer, wanted: Wanted
) -> Answer | None:
    """Return what follows from a press on a line or a side; None where there is none."""
    here = pointer.east, pointer.north
    found = touched(plan, pointer.hits, here, pointer.reach)
    if not found:
        return None
    edge = found[0]
    item = plan.items[edge.item]
    return ParallelTo(
        waiting=waiting,
        wanted=wanted,
        edge=edge,
        whole=not edge.line.closed,
        basis=Basis(method=Method.COMPUTED, source=item.called(), sd_m=item.basis.sd_m),
    ).showing(here)


def _beside(line: LineString, away: float) -> LineString | None:
    """Return a line beside another, its corners mitred; of several parts the longest."""
    made = shapely.offset_curve(line, away, join_style="mitre", mitre_limit=SHARPEST)
    parts = [p for p in shapely.get_parts(made) if p.length > SAME]
    return max(parts, key=lambda p: p.length, default=None)


def _round(area: Polygon, away: float, here: Place) -> LineString | None:
    """Return a line round an area, outside or inside as a place lies; None of a broken one."""
    if not area.is_valid:
        return None
    inside = area.contains(Point(here))
    made = shapely.buffer(
        area, -away if inside else away, join_style="mitre", mitre_limit=SHARPEST
    )
    parts = [p for p in shapely.get_parts(made) if not p.is_empty]
    largest = max(parts, key=lambda p: p.area, default=None)
    return None if largest is None else LineString(largest.exterior.coords)


def _run(line: LineString | None) -> tuple[str, ...]:
    return () if line is None else (f"it runs {length(line.length)}",)
