"""The ground; along its top the tools, and a row for what the tool in hand asks and offers."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.command import View
from plan_editor.desktop.background import Background, Work
from plan_editor.desktop.base_plans import made_ready
from plan_editor.desktop.canvas.base_plan_item import Under
from plan_editor.desktop.canvas.key_pointer import KeyPointer
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.canvas.touch import Touch
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.desktop.canvas.zones_item import Shown
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.jobs import Job
from plan_editor.desktop.parts import column, rule
from plan_editor.desktop.tool_row import ToolRow
from plan_editor.desktop.trial_shelf import TrialShelf
from plan_editor.desktop.ways_row import WaysRow
from plan_editor.drawing.sketch import Sketch
from plan_editor.errors import PlanEditorError
from plan_editor.ground.base_plans import Laid, laid
from plan_editor.ground.clearance import Zone
from plan_editor.plan.change import Change
from plan_editor.plan.item import ItemId
from plan_editor.session import Session

STEP_OF_ZOOM = 1.5


class GroundArea(QWidget):
    """Tools above, the ground below, base plans brought in beside the window."""

    def __init__(
        self, session: Session, background: Background, palette: Palette, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._background = background
        self.tools = ToolRow(session, palette, self)
        self.canvas = Canvas(session, palette, self)
        self.canvas.setAccessibleName("The ground")
        self.touch = Touch(self.canvas)
        self.key_pointer = KeyPointer(self.canvas, palette)
        self.ways = WaysRow(session, self.canvas, self)
        self._job: Job | None = None
        self._zones: tuple[Zone, ...] = ()
        self._unplaced: Laid | None = None
        self._laid: tuple[Laid, ...] = ()
        self._under: tuple[Under, ...] = ()
        self._trial = TrialShelf()
        self._lay_out()
        until_gone(
            self,
            session.document.changed.connect(self._changed),
            session.chosen_changed.connect(self._tell_chosen),
            self._trial.end,
        )
        self._bring_base_plans()

    def show_job(self, job: Job) -> None:
        """Show what a job shows, with its tools."""
        self._job = job
        self.tools.show_job(job.name)
        self.show_things(True)
        self._draw_zones()

    def show_things(self, shown: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        """Show what is on the plan, or only the base plans."""
        self.canvas.show_kinds(None if shown else frozenset())

    def show_zones(self, zones: tuple[Zone, ...]) -> None:
        """Show these zones to keep off, while the job of safety is done."""
        self._zones = zones
        self._draw_zones()

    def show_unplaced(self, laid: Laid | None) -> None:
        """Show one base plan alone, so that it can be clicked on; None shows all again."""
        if laid != self._unplaced:
            self._unplaced = laid
            self._bring_base_plans()

    def show_sketch(self, sketch: Sketch | None) -> None:
        """Show a sketch over the ground in place of the last; None shows none."""
        self.canvas.set_sketch(sketch or Sketch())

    def lying(self, item: ItemId) -> Laid | None:
        """Return how a base plan lies on the screen now; None where it is not seen."""
        return next((u.laid for u in self._under if u.laid.item == item), None)

    def look_at(self, box: tuple[float, float, float, float]) -> None:
        """Show a box of ground: least east and north, greatest east and north."""
        self.canvas.look_at(box)

    def in_view(self) -> tuple[float, float, float, float]:
        """Return what is seen: least east and north, greatest east and north."""
        seen = self.canvas.mapToScene(self.canvas.viewport().rect()).boundingRect()
        return seen.left(), seen.top(), seen.right(), seen.bottom()

    def view(self, view: View) -> None:
        """Show another piece of the ground."""
        match view:
            case View.WHOLE:
                self.canvas.whole()
            case View.CHOSEN:
                self.canvas.go_to(self._session.chosen)
            case View.NEARER:
                self.canvas.zoom(STEP_OF_ZOOM)
            case View.FARTHER:
                self.canvas.zoom(1 / STEP_OF_ZOOM)
            case View.KEY_PLAN:
                self.canvas.show_key_plan(not self.canvas.key_plan_wanted)

    def dress(self, palette: Palette) -> None:
        """Take on other colours."""
        self.tools.dress(palette)
        self.canvas.set_palette(palette)
        self.key_pointer.dress(palette)

    def _lay_out(self) -> None:
        lines = column(self, space=0)
        lines.addWidget(self.tools)
        lines.addWidget(rule(self))
        lines.addWidget(self.ways)
        lines.addWidget(rule(self))
        lines.addWidget(self.canvas, 1)

    def _draw_zones(self) -> None:
        wanted = self._job is not None and self._job.zones
        self.canvas.set_zones(tuple(map(_shown, self._zones)) if wanted else ())

    def _tell_chosen(self, chosen: tuple[ItemId, ...]) -> None:
        """Say to those who listen to the screen what is chosen."""
        name = f"{len(chosen)} chosen" if chosen else "Nothing chosen"
        if len(chosen) == 1:
            name = self._session.document.plan.items[chosen[0]].called()
        self.canvas.setAccessibleDescription(name)

    def _changed(self, changes: tuple[Change, ...]) -> None:
        if any(c.id in {b.item for b in self._laid} or _lies_under(c) for c in changes):
            self._bring_base_plans()

    def _bring_base_plans(self) -> None:
        placed = tuple(b for b in laid(self._session.document.plan) if b.shown)
        self._laid = laid(self._session.document.plan)
        known, trial = self._under, None
        if self._unplaced is not None:
            placed, trial = (self._unplaced,), self._trial.folder()
        else:
            known = tuple(u for u in known if not self._trial.holds(u))
        self._background.in_thread(
            Work(
                about="base plans",
                title="Bringing in the base plans" if placed else "",
                function=made_ready,
                arguments=(placed, self._session.file, known, trial),
                done=self._lay_under,
                failed=self._say_why,
            )
        )

    def _lay_under(self, ready: tuple[Under, ...]) -> None:
        self._under = ready
        self.canvas.set_backdrops(ready)
        self._trial.keep(ready)

    def _say_why(self, error: PlanEditorError) -> None:
        self._session.refused.emit(str(error))


def _lies_under(change: Change) -> bool:
    item = change.after or change.before
    return item is not None and item.kind.pinned


def _shown(zone: Zone) -> Shown:
    numbers = [k.item.number for k in zone.kept_from if k.item.number]
    return Shown(shape=zone.shape, label=", ".join(numbers))
