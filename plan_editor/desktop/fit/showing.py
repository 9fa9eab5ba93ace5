"""What the ground shows while a base plan is fitted: the paper alone, or the ground over it."""

from dataclasses import replace
from typing import Any

from plan_editor.commands.control import Trial
from plan_editor.commands.residuals import arrows, near, on_paper
from plan_editor.desktop.desk import Ground
from plan_editor.edits.base_plans import paper_of
from plan_editor.geometry.bending import Extent, outline
from plan_editor.geometry.mappings import Mapping
from plan_editor.ground.base_plans import Laid
from plan_editor.ground.provisional import on_base_plan, provisionally
from plan_editor.plan.item import Item


class Showing:
    """Shows a base plan as it would lie, and sketches the points over it."""

    def __init__(self, ground: Ground) -> None:
        self._ground = ground
        self._laid: Laid | None = None
        self._opacity = 1.0
        self._paper = True
        self._extent: Extent | None = None

    def begin(self, item: Item[Any], laid: Laid | None) -> None:
        """Take up a base plan, as it lies or, where it is not placed, across the view."""
        self._laid = laid or provisionally(item, self._ground.in_view())
        self._extent = paper_of(item).extent if laid is None else None
        self._opacity = item.details.opacity

    def fit(self, trial: Trial) -> None:
        """Lay it as some points would have it."""
        if self._laid is not None and trial.fit is not None:
            self._laid = replace(self._laid, mapping=trial.fit.mapping)
            self._follow(trial.fit.mapping)

    def paper(self, trial: Trial, chosen: int | None) -> None:
        """Show the base plan alone, so that it can be clicked on."""
        self._paper = True
        if self._laid is not None:
            self._ground.show_unplaced(replace(self._laid, opacity=1.0))
        self._ground.show_things(False)
        self.sketch(trial, chosen)

    def field(self, trial: Trial, chosen: int | None) -> None:
        """Show what is on the plan, over the base plan where that has a fit."""
        self._paper = False
        under = None if trial.fit is None else self._laid
        if under is not None:
            under = replace(under, opacity=self._opacity)
        self._ground.show_unplaced(under)
        self._ground.show_things(True)
        self.sketch(trial, chosen)

    def again(self, trial: Trial, chosen: int | None) -> None:
        """Show the same with other points."""
        (self.paper if self._paper else self.field)(trial, chosen)

    def sketch(self, trial: Trial, chosen: int | None) -> None:
        """Sketch the points: with arrows once there is a fit."""
        if trial.fit is None and self._paper and self._laid is not None:
            self._ground.show_sketch(on_paper(trial.points, self._laid.mapping))
        else:
            self._ground.show_sketch(arrows(trial, chosen))

    def end(self) -> None:
        """Show everything as it was."""
        self._laid = None
        self._ground.show_unplaced(None)
        self._ground.show_things(True)
        self._ground.show_sketch(None)

    def on_paper(self, east: float, north: float) -> tuple[float, float] | None:
        """Return the place on the base plan of one on the ground, as it lies on the screen now.

        That is not yet as it was last fitted while that is still being prepared.
        """
        seen = None if self._laid is None else self._ground.lying(self._laid.item)
        return None if seen is None else on_base_plan(seen, east, north)

    def point_at(self, trial: Trial, east: float, north: float, reach: float) -> int | None:
        """Return which point was clicked, by its sign on the ground; or None."""
        if trial.fit is not None or self._laid is None:
            return near(trial.points, east, north, reach)
        dots = on_paper(trial.points, self._laid.mapping).dots
        apart = [((d.east - east) ** 2 + (d.north - north) ** 2) ** 0.5 for d in dots]
        return next((n for n, metres in enumerate(apart) if metres <= reach), None)

    def _follow(self, mapping: Mapping) -> None:
        """Look where it went: until its first fit it lay just anywhere."""
        if self._extent is not None:
            edge = outline(mapping, self._extent)
            (west, south), (east, north) = edge.min(axis=0).tolist(), edge.max(axis=0).tolist()
            self._ground.look_at((west, south, east, north))
            self._extent = None
