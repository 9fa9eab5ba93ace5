"""Choose things: by a click, by a box; and move what is chosen."""

from dataclasses import dataclass
from math import hypot

import shapely

from plan_editor.drafting.figures import figures_of_way
from plan_editor.drafting.tool import Act, Answer, Chosen, Pointer, Setting, ToolButton
from plan_editor.edits.chosen import called_on
from plan_editor.edits.places import Move
from plan_editor.geometry.moving import moved
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

PROMPT = "Click something to choose it, or draw a box round several"

JOBS = frozenset({"survey", "trace", "records", "safety", "space", "sheets"})


@dataclass(frozen=True, slots=True)
class Idle:
    """Nothing is begun."""

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Say what lies under the pointer; a press takes hold of it, or begins a box."""
        if pointer.act is not Act.PRESS:
            return _hovering(pointer, plan)
        held = Held(
            east=pointer.east,
            north=pointer.north,
            hits=_still_there(pointer.hits, plan),
            chosen=_still_there(pointer.chosen, plan),
            add=pointer.add,
        )
        return held.take(pointer, plan)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """The button is down; not moved so far as to mean more than a click.

    Only what is chosen already is moved: elsewhere a box is drawn, so that nothing on the plan
    is shifted by a slip of the hand.
    """

    east: float
    north: float
    hits: tuple[ItemId, ...]
    chosen: tuple[ItemId, ...]
    add: bool

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Begin to move or to draw a box; a release without that is a click."""
        match pointer.act:
            case Act.RELEASE:
                return Answer(tool=Idle(), prompt=PROMPT, chosen=self._clicked())
            case Act.MOVE if self._far(pointer):
                return self._drawn().take(pointer, plan)
            case Act.CANCEL | Act.BACK | Act.FINISH:
                return Answer(tool=Idle(), prompt=PROMPT)
            case _:  # a hand that trembles
                return Answer(tool=self, prompt=PROMPT)

    def _far(self, pointer: Pointer) -> bool:
        return hypot(pointer.east - self.east, pointer.north - self.north) > pointer.reach

    def _drawn(self) -> "Moving | Boxing":
        if not self.add and any(i in self.chosen for i in self.hits):
            return Moving(east=self.east, north=self.north, ids=self.chosen)
        return Boxing(east=self.east, north=self.north, add=self.add)

    def _clicked(self) -> Chosen:
        if not self.hits:
            return Chosen(ids=(), add=self.add)
        if self.add:
            return _added(self.hits[0], self.chosen)
        # a click on what alone is chosen takes what lies beneath it
        if len(self.chosen) == 1 and self.chosen[0] in self.hits:
            place = self.hits.index(self.chosen[0]) + 1
            return Chosen(ids=(self.hits[place % len(self.hits)],))
        return Chosen(ids=self.hits[:1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Boxing:
    """A box is being drawn."""

    east: float
    north: float
    add: bool

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show the box; a release chooses what lies in it."""
        if pointer.act in {Act.CANCEL, Act.BACK}:
            return Answer(tool=Idle(), prompt=PROMPT)
        box = (
            min(self.east, pointer.east),
            min(self.north, pointer.north),
            max(self.east, pointer.east),
            max(self.north, pointer.north),
        )
        if pointer.act in {Act.RELEASE, Act.FINISH}:
            return Answer(tool=Idle(), prompt=PROMPT, chosen=Chosen(box=box, add=self.add))
        outline = shapely.LineString(shapely.box(*box).exterior.coords)
        return Answer(
            tool=self,
            prompt="Let go to choose everything that lies in the box",
            preview=(outline,),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Moving:
    """What is chosen is drawn along with the pointer; the plan is not changed yet."""

    east: float
    north: float
    ids: tuple[ItemId, ...]

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Show where it would lie; a release puts it there."""
        ids = _still_there(self.ids, plan)
        if pointer.act in {Act.CANCEL, Act.BACK} or not ids:
            return Answer(tool=Idle(), prompt=PROMPT)
        east, north = pointer.east - self.east, pointer.north - self.north
        if pointer.act in {Act.RELEASE, Act.FINISH, Act.PRESS}:
            edit = Move(ids=ids, east=east, north=north, called=called_on(plan, ids))
            return Answer(tool=Idle(), prompt=PROMPT, edit=edit, chosen=Chosen(ids=ids))
        shapes = [s for i in ids if (s := plan.items[i].shape) is not None]
        return Answer(
            tool=self,
            prompt=f"Let go to put down {called_on(plan, ids)}",
            preview=tuple(moved(shapes, east, north)),
            figures=figures_of_way(east, north),
            origin=(self.east, self.north),
        )


def _hovering(pointer: Pointer, plan: Plan) -> Answer:
    under = _still_there(pointer.hits, plan)
    if not under:
        return Answer(tool=Idle(), prompt=PROMPT)
    more = f", and {len(under) - 1} beneath" if len(under) > 1 else ""
    return Answer(tool=Idle(), prompt=f"{plan.items[under[0]].called()}{more}")


def _added(clicked: ItemId, chosen: tuple[ItemId, ...]) -> Chosen:
    """Return what is chosen with one more, or with one less where it was chosen already."""
    if clicked in chosen:
        return Chosen(ids=tuple(i for i in chosen if i != clicked))
    return Chosen(ids=(*chosen, clicked))


def _still_there(ids: tuple[ItemId, ...], plan: Plan) -> tuple[ItemId, ...]:
    return tuple(i for i in ids if i in plan.items)


def _start(setting: Setting) -> Answer:
    del setting  # the pointer tells what is chosen
    return Answer(tool=Idle(), prompt=PROMPT)


TOOL = ToolButton(
    name="select",
    title="Select",
    icon="select",
    key="V",
    order=10,
    jobs=JOBS,
    start=_start,
    edits=False,
)
