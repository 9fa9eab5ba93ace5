"""Cut a line back to where it meets another thing, or carry it on until it does."""

from dataclasses import dataclass, replace
from math import hypot
from typing import Any

import shapely
from shapely import LineString, Point

from plan_editor.drafting.figures import length
from plan_editor.drafting.tool import Act, Answer, Chosen, Pointer, Setting, ToolButton
from plan_editor.drafting.touched import touched
from plan_editor.drafting.workable import Fits, fitting, flat
from plan_editor.edits.chosen import called_on
from plan_editor.edits.shapes import ToLine
from plan_editor.geometry.line_ends import brought_to
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

LINE = "Click a line near the end that is to be cut back or carried on"
TO = "Click the line, or the edge of the area, that it is to end on"


@dataclass(frozen=True, slots=True)
class Ready:
    """Nothing is begun."""

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Take hold of the nearer end of a line that is clicked."""
        found = _edges_at(pointer, plan, _is_line)
        if not found or pointer.act not in {Act.PRESS, Act.MOVE}:
            return Answer(tool=self, prompt=LINE)
        corners = shapely.get_coordinates(plan.items[found[0]].shape).tolist()
        first, last = (
            hypot(e - pointer.east, n - pointer.north) for e, n in (corners[0], corners[-1])
        )
        held = Held(id=found[0], at_start=first < last)
        if pointer.act is Act.MOVE:
            return Answer(tool=self, prompt=LINE, preview=held.handle(plan))
        return replace(held.showing(plan), chosen=Chosen(ids=found))


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """An end of a line is held."""

    id: ItemId
    at_start: bool

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show where it would end; a press on what it is to end on does it."""
        ends = pointer.act in {Act.CANCEL, Act.BACK}
        if ends or self.id not in plan.items or not _is_line(plan.items[self.id]):
            return Answer(tool=Ready(), prompt=LINE)
        found = _edges_at(pointer, plan, lambda i: flat(i) and i.id != self.id)
        if not found:
            return self.showing(plan)
        if pointer.act is Act.PRESS:
            edit = ToLine(
                id=self.id,
                at_start=self.at_start,
                to=found[0],
                near=(pointer.east, pointer.north),
                called=called_on(plan, (self.id,)),
            )
            return Answer(tool=Ready(), prompt=LINE, edit=edit, chosen=Chosen(ids=(self.id,)))
        return self.showing(plan, self._brought(plan, found[0], pointer))

    def showing(self, plan: Plan, after: LineString | None = None) -> Answer:
        """Return what it looks like with the line as it would be."""
        return Answer(
            tool=self,
            prompt=TO,
            preview=(*self.handle(plan), *(() if after is None else (after,))),
            figures=() if after is None else (f"in all {length(after.length)}",),
        )

    def handle(self, plan: Plan) -> tuple[Point, ...]:
        """Return the end that is meant."""
        corners = shapely.get_coordinates(plan.items[self.id].shape).tolist()
        return (Point(corners[0 if self.at_start else -1]),)

    def _brought(self, plan: Plan, to: ItemId, pointer: Pointer) -> LineString | None:
        line, other = (s for i in (self.id, to) if (s := plan.items[i].shape) is not None)
        near = pointer.east, pointer.north
        return brought_to(line, other, at_start=self.at_start, near=near)


def _edges_at(pointer: Pointer, plan: Plan, fits: Fits) -> tuple[ItemId, ...]:
    """Return what fits and has the edge nearest to the pointer, within reach, or none."""
    ids = fitting(pointer.hits, plan, fits)
    here = pointer.east, pointer.north
    return tuple(t.item for t in touched(plan, ids, here, pointer.reach))[:1]


def _is_line(item: Item[Any]) -> bool:
    return flat(item) and item.form is Form.LINE


def _start(setting: Setting) -> Answer:
    del setting
    return Answer(tool=Ready(), prompt=LINE)


TOOL = ToolButton(
    name="to_a_line",
    title="To a line",
    icon="to_a_line",
    key="E",
    order=47,
    jobs=frozenset({"survey", "trace", "space"}),
    start=_start,
)
