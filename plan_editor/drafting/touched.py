"""What the pointer touches: whose edge, which side, which spot on it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot

from plan_editor.drafting.corners import Ring, rings
from plan_editor.drafting.figures import Place
from plan_editor.drafting.squared import NORTH
from plan_editor.geometry.edges import Spot, spot_on
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Touched:
    """A spot on the edge of something.

    Args:
        item: of what.
        ring: which line or ring of its shape, counted through all its parts.
        line: that line or ring.
        spot: where on it.
        away: how far the pointer is from there, in metres.
    """

    item: ItemId
    ring: int
    line: Ring
    spot: Spot
    away: float

    @property
    def side(self) -> tuple[Place, Place]:
        """Both ends of the side on which the spot lies, in the order of the corners."""
        corners = self.line.corners
        first = self.spot.corner
        if not self.line.closed and first == len(corners) - 1:
            first -= 1  # the far end of a line belongs to its last side
        return corners[first], corners[(first + 1) % len(corners)]

    @property
    def way(self) -> Place:
        """The direction of that side: east and north, 1 long."""
        (e0, n0), (e1, n1) = self.side
        long = hypot(e1 - e0, n1 - n0)
        return ((e1 - e0) / long, (n1 - n0) / long) if long > 0.0 else NORTH


def touched(
    plan: Plan, hits: Iterable[ItemId], place: Place, reach: float
) -> tuple[Touched, ...]:
    """Return the edges within reach of a place, of what lies under it, the nearest first.

    Args:
        plan: as it is; what is no longer on it is passed over.
        hits: what lies under the pointer.
        place: where it is.
        reach: in metres.
    """
    found = [
        _spot(item, number, line, place)
        for item in hits
        if item in plan.items and (shape := plan.items[item].shape) is not None
        for number, line in enumerate(rings(shape))
        if len(line.corners) > 1
    ]
    return tuple(sorted((t for t in found if t.away <= reach), key=lambda t: t.away))


def way_here(plan: Plan, hits: Sequence[ItemId], place: Place, reach: float) -> Place:
    """Return the direction of the side that a place lies on; grid north where on none."""
    found = touched(plan, hits, place, reach)
    return found[0].way if found else NORTH


def _spot(item: ItemId, number: int, line: Ring, place: Place) -> Touched:
    spot = spot_on(line.corners, closed=line.closed, near=place)
    away = hypot(spot.place[0] - place[0], spot.place[1] - place[1])
    return Touched(item=item, ring=number, line=line, spot=spot, away=away)
