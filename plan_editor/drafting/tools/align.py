"""Align what is chosen with a side of something else: each turns about its own middle."""

from dataclasses import dataclass

from shapely import LineString

from plan_editor.drafting.figures import figures_of_way
from plan_editor.drafting.tool import Act, Answer, Chosen, Pointer, Setting, ToolButton
from plan_editor.drafting.touched import touched
from plan_editor.drafting.workable import fitting, movable, picked
from plan_editor.edits.chosen import called_on
from plan_editor.edits.places import Align
from plan_editor.geometry.bearings import bearing
from plan_editor.plan.plan import Plan

CHOOSE = "Click what is to be aligned; hold Shift in Select to choose several"
SIDE = "Click the side that it is to lie along, or square to"


@dataclass(frozen=True, slots=True)
class Ready:
    """There is nothing to be begun: one click does it."""

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Choose something where nothing is chosen; otherwise align it with a side."""
        ids = fitting(pointer.chosen, plan, movable)
        if not ids:
            chosen = picked(pointer, plan, movable) if pointer.act is Act.PRESS else None
            some = chosen is not None and bool(chosen.ids)
            return Answer(tool=self, prompt=SIDE if some else CHOOSE, chosen=chosen)
        if pointer.act not in {Act.PRESS, Act.MOVE}:
            return Answer(tool=self, prompt=SIDE)
        others = [i for i in pointer.hits if i not in ids]
        here = pointer.east, pointer.north
        found = touched(plan, others, here, pointer.reach)
        if not found:
            return Answer(tool=self, prompt=SIDE)
        (e0, n0), (e1, n1) = side = found[0].side
        if pointer.act is Act.MOVE:
            figures = figures_of_way(e1 - e0, n1 - n0)
            return Answer(tool=self, prompt=SIDE, preview=(LineString(side),), figures=figures)
        way = bearing(*found[0].way)
        edit = Align(ids=ids, bearing_deg=way, called=called_on(plan, ids))
        return Answer(tool=self, prompt=SIDE, edit=edit, chosen=Chosen(ids=ids))


def _start(setting: Setting) -> Answer:
    return Answer(tool=Ready(), prompt=SIDE if setting.chosen else CHOOSE)


TOOL = ToolButton(
    name="align",
    title="Align",
    icon="align",
    key="I",
    order=48,
    jobs=frozenset({"survey", "trace", "space"}),
    start=_start,
)
