"""The edit that moves the whole plan to another grid, by marks whose places are known there."""

from dataclasses import dataclass, field, replace

from shapely import Point

from plan_editor.edits.frame_items import moved_items
from plan_editor.edits.framing import KnownMark, Scale, framed
from plan_editor.plan.change import Change
from plan_editor.plan.item import Basis
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.grid import LOCAL, Grid


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveToGrid:
    """Move the whole plan to another grid.

    All places are turned, scaled and shifted; base plans with them, so that what lay under a
    thing still does; bearings from grid north are turned. A rectangle keeps its sides, which
    are metres on the ground: its middle is moved, and it is turned. Crowns keep their spread
    to the points of the compass. The marks are put where they are known to lie.

    Args:
        crs: ``local`` or ``EPSG:n``.
        marks: two or more; from three on they show whether they are right.
        scale: what a metre becomes.
        basis: how the places of the marks are known; each has its own standard deviation.
    """

    crs: str
    marks: tuple[KnownMark, ...]
    scale: Scale = Scale.HELD
    basis: Basis = field(default_factory=Basis)

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        to = "another local grid" if self.crs == LOCAL else self.crs
        return f"Move the plan to {to} by {len(self.marks)} marks"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return everything as it lies afterwards.

        Raises:
            EditRefused: the marks do not carry the plan there, or something would lie more than
                100 km from the new origin.
        """
        framing = framed(plan, self.crs, self.marks, self.scale)
        after = {item.id: item for item in moved_items(plan, framing.fit.way)}
        for mark, known in zip(self.marks, framing.marks, strict=True):
            there = after[mark.mark].at(Point(known.to_east, known.to_north))
            basis = replace(self.basis, sd_m=mark.sd_m)
            after[mark.mark] = replace(there, basis=basis)
        return tuple(Change(plan.items[i], item) for i, item in after.items())

    def grid_after(self, plan: Plan) -> Grid:
        """Return the grid in which the plan will lie.

        Raises:
            EditRefused: the marks do not carry the plan there.
        """
        return framed(plan, self.crs, self.marks, self.scale).grid
