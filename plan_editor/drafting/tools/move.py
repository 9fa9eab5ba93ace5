"""Move what is chosen from one place to another, by two clicks or a typed length."""

from dataclasses import dataclass

from shapely import LineString

from plan_editor.drafting.figures import Place, figures_of_way
from plan_editor.drafting.tool import Act, Answer, Chosen, Pointer, Setting, ToolButton
from plan_editor.edits.chosen import called_on
from plan_editor.edits.places import Move
from plan_editor.geometry.moving import moved
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

CHOOSE = "Click what is to be moved"
FROM = "Click the place to move it by: a corner of it, best of all"
TO = "Click where that place belongs, or type how far and on what bearing"


@dataclass(frozen=True, slots=True)
class Ready:
    """Nothing is begun."""

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Choose something where nothing is chosen; otherwise take hold of it."""
        ids = _movable(pointer.chosen, plan)
        if pointer.act is not Act.PRESS:
            return Answer(tool=self, prompt=FROM if ids else CHOOSE)
        if not ids:
            found = _movable(pointer.hits[:1], plan)
            return Answer(tool=self, prompt=FROM if found else CHOOSE, chosen=Chosen(ids=found))
        start = pointer.east, pointer.north
        return Holding(ids=ids, start=start).showing(start, plan, ids)


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What is chosen is held by a place."""

    ids: tuple[ItemId, ...]
    start: Place

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show where it would lie; a press puts it there."""
        ids = _movable(self.ids, plan)
        if pointer.act in {Act.CANCEL, Act.BACK} or not ids:
            return Answer(tool=Ready(), prompt=FROM if ids else CHOOSE)
        if pointer.act in {Act.PRESS, Act.FINISH}:
            edit = Move(
                ids=ids,
                east=pointer.east - self.start[0],
                north=pointer.north - self.start[1],
                called=called_on(plan, ids),
            )
            return Answer(tool=Ready(), prompt=FROM, edit=edit, chosen=Chosen(ids=ids))
        return self.showing((pointer.east, pointer.north), plan, ids)

    def showing(self, here: Place, plan: Plan, ids: tuple[ItemId, ...]) -> Answer:
        """Return what it looks like with that place at the pointer."""
        east, north = here[0] - self.start[0], here[1] - self.start[1]
        shapes = [s for i in ids if (s := plan.items[i].shape) is not None]
        figures = figures_of_way(east, north)
        way = (LineString([self.start, here]),) if figures else ()
        return Answer(
            tool=self,
            prompt=TO,
            preview=(*moved(shapes, east, north), *way),
            figures=figures,
            origin=self.start,
        )


def _movable(ids: tuple[ItemId, ...], plan: Plan) -> tuple[ItemId, ...]:
    found = (plan.items[i] for i in ids if i in plan.items)
    return tuple(i.id for i in found if i.shape is not None and not i.kind.pinned)


def _start(setting: Setting) -> Answer:
    return Answer(tool=Ready(), prompt=FROM if setting.chosen else CHOOSE)


TOOL = ToolButton(
    name="move",
    title="Move",
    icon="move",
    key="T",
    order=30,
    jobs=frozenset({"survey", "trace", "records", "space"}),
    start=_start,
)
