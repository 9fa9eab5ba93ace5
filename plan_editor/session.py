"""One open plan: document, what is chosen, the tool in hand."""

from collections.abc import Iterable
from dataclasses import replace

import shapely

from plan_editor.drafting.tool import Act, Answer, Chosen, Pointer, Setting, ToolButton
from plan_editor.drawing.showing import Showing
from plan_editor.edits.locks import heed_locks
from plan_editor.errors import PlanEditorError
from plan_editor.ground.proposals import Proposal
from plan_editor.plan.change import Change
from plan_editor.plan.document import Document, Entry
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.signal import Signal
from plan_editor.storage.plan_file import PlanFile


class Session:
    """What one window works on, without the window.

    Signals: ``document.changed`` after an edit; ``chosen_changed`` with what is chosen now;
    ``answered`` with the tool's last answer; ``refused`` with a sentence where an edit that no
    tool asked for was refused; ``saved`` after the file was written; ``held_changed`` with why
    the plan can neither be saved nor closed now, or empty; ``locked_changed`` with
    the names of the kinds of which nothing is chosen by the pointer, or changed;
    ``proposed`` after proposals came, or one was left out.
    """

    def __init__(
        self, document: Document, *, first: ToolButton, file: PlanFile | None = None
    ) -> None:
        self.document = document
        self.file = file
        self.refused: Signal[str] = Signal()
        self.saved: Signal[None] = Signal()
        self.held = ""
        self.held_changed: Signal[str] = Signal()
        self.chosen: tuple[ItemId, ...] = ()
        self.chosen_changed: Signal[tuple[ItemId, ...]] = Signal()
        self.locked: frozenset[str] = frozenset()
        self.showing = Showing()
        self.showing_changed: Signal[Showing] = Signal()
        self.locked_changed: Signal[frozenset[str]] = Signal()
        self.answered: Signal[Answer] = Signal()
        self.button = first
        self.proposals: tuple[Proposal, ...] = ()
        self.left_out: frozenset[Proposal] = frozenset()
        self.proposed: Signal[None] = Signal()
        self._first = first
        self._kind: Kind | None = None
        self._form: Form | None = None
        self.answer = first.start(Setting())
        self._grid = document.plan.grid
        document.changed.connect(self._follow)

    @property
    def is_open(self) -> bool:
        """Whether there is a plan; a window that shows none has a session all the same."""
        return self.file is not None

    @property
    def may_edit(self) -> bool:
        """Whether there is a plan, and it was not opened only to be read."""
        return self.file is not None and not self.file.read_only

    @property
    def may_write(self) -> bool:
        """Whether there is a plan, and its file may be written now, here or elsewhere."""
        return self.is_open and not self.held

    def hold(self, why: str) -> None:
        """Let nobody save or close the plan for now, and say why; empty: they may again."""
        self.held = why
        self.held_changed.emit(why)

    @property
    def aims(self) -> bool:
        """Whether a tool is in hand for which it matters exactly where the pointer is."""
        return self.button != self._first

    @property
    def kind(self) -> Kind | None:
        """What is being drawn, or None."""
        return self._kind

    def take_up(
        self, button: ToolButton, kind: Kind | None = None, form: Form | None = None
    ) -> None:
        """Take another tool in hand; what the last one had begun is dropped.

        Args:
            button: the tool.
            kind: what it draws, if it draws.
            form: its shape, where the kind has more than one; None for the usual one.
        """
        self.button = button
        self._kind = kind
        self._form = form
        setting = Setting(
            chosen=self.chosen,
            kind=kind,
            form=form,
            plan=self.document.plan,
            proposals=self.proposals,
            left_out=self.left_out,
        )
        self._say(button.start(setting))

    def point(self, pointer: Pointer) -> None:
        """Hand the pointer to the tool; make its edit, choose what it chose.

        An edit that is refused leaves the tool where it was, with the reason as its prompt.
        Cancel in a tool that has nothing begun puts it down.
        """
        before = self.answer.tool
        answer = before.take(replace(pointer, chosen=self.chosen), self.document.plan)
        if answer.edit is not None:
            try:
                entry = self._made(answer.edit)
            except PlanEditorError as refused:
                stands = replace(self.answer, edit=None, chosen=None)
                self._say(replace(stands, tool=before, prompt=str(refused)))
                return
            if entry is not None and answer.chosen is None:
                self.choose(c.id for c in entry.changes if c.after is not None)
        if answer.chosen is not None:
            self._choose_as(answer.chosen, pointer.shown)
        if answer.left_out is not None and answer.left_out != self.left_out:
            self.left_out = answer.left_out
            self.proposed.emit(None)
        if pointer.act is Act.CANCEL and answer.tool == before:
            self.take_up(self._first)
            return
        self._say(answer)

    def apply(self, edit: Edit) -> None:
        """Make an edit that no tool asked for.

        Raises:
            PlanEditorError: it was refused or could not be kept; nothing was changed.
        """
        self._made(edit)

    def try_apply(self, edit: Edit) -> bool:
        """Make an edit that no tool asked for; return whether it was made.

        Where it was refused, or could not be kept, ``refused`` tells the sentence.
        """
        try:
            self._made(edit)
        except PlanEditorError as error:
            self.refused.emit(str(error))
            return False
        return True

    def cancel(self) -> None:
        """Drop what the tool in hand has begun; it stays in hand."""
        self.take_up(self.button, self._kind, self._form)

    def put_down(self) -> None:
        """Take up the tool that is in hand when there is no other."""
        self.take_up(self._first)

    def choose(self, ids: Iterable[ItemId]) -> None:
        """Choose these and nothing else; what is not on the plan is passed over."""
        items = self.document.plan.items
        chosen = tuple(dict.fromkeys(i for i in ids if i in items))
        if chosen != self.chosen:
            self.chosen = chosen
            self.chosen_changed.emit(chosen)

    def show(self, showing: Showing) -> None:
        """Show of the plan what is told and nothing else; what is chosen stays so."""
        if showing != self.showing:
            self.showing = showing
            self.showing_changed.emit(showing)

    def propose(self, found: Iterable[Proposal]) -> None:
        """Keep what was found in a scan, to be gone through."""
        self.proposals = tuple(found)
        self.proposed.emit(None)

    def lock(self, names: Iterable[str]) -> None:
        """Lock the kinds of these names and no others; what is chosen of them is let go."""
        locked = frozenset(names)
        if locked != self.locked:
            self.locked = locked
            items = self.document.plan.items
            self.choose(i for i in self.chosen if items[i].kind.name not in locked)
            self.locked_changed.emit(locked)

    def hits(self, east: float, north: float, reach: float) -> tuple[ItemId, ...]:
        """Return what lies within reach of a place, in metres: topmost, then nearest first.

        Things of a locked kind are passed over.
        """
        items = self.document.plan.items
        near = [items[i] for i in self.document.index.boxes.near(east, north, reach)]
        shapes = [i.shape for i in near]
        far = shapely.distance(shapes, shapely.Point(east, north)) if near else ()
        found = [
            (-item.kind.order, float(d), item.id)
            for item, d in zip(near, far, strict=True)
            if d <= max(reach, item.kind.width_m(item.details) / 2)
            and item.kind.name not in self.locked
            and self.showing.shows(item)
        ]
        return tuple(item for _, _, item in sorted(found))

    def _choose_as(self, chosen: Chosen, shown: frozenset[str] | None) -> None:
        ids = chosen.ids if chosen.box is None else self._within(chosen.box, shown)
        self.choose((*self.chosen, *ids) if chosen.add else ids)

    def _within(
        self, box: tuple[float, float, float, float], shown: frozenset[str] | None
    ) -> tuple[ItemId, ...]:
        """Return what can be seen and moved by hand and lies in a box, all of it.

        A box among graves lies on a boundary, a section and a meadow too: they are not meant.
        """
        items = self.document.plan.items
        found = [items[i] for i in self.document.index.boxes.within(box)]
        inside = shapely.covers(shapely.box(*box), [i.shape for i in found])
        return tuple(
            item.id
            for item, yes in zip(found, inside, strict=True)
            if yes
            and not item.kind.pinned
            and item.kind.name not in self.locked
            and (shown is None or item.kind.name in shown)
            and self.showing.shows(item)
        )

    def _made(self, edit: Edit) -> Entry | None:
        heed_locks(edit, self.document.plan, self.locked)
        return self.document.apply(edit)

    def _say(self, answer: Answer) -> None:
        self.answer = answer
        self.answered.emit(answer)

    def _follow(self, changes: tuple[Change, ...]) -> None:
        gone = {c.id for c in changes if c.after is None}
        if gone & set(self.chosen):
            self.choose(i for i in self.chosen if i not in gone)
        if self.document.plan.grid != self._grid:
            # what a tool has begun was begun in a grid that the plan lies in no longer
            self._grid = self.document.plan.grid
            self.put_down()
