"""What the panels of a window are given: the session, the palette, background work, a voice."""

from dataclasses import dataclass
from typing import Protocol

from plan_editor.commands.command import Ask
from plan_editor.desktop.background import Background
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.house import House
from plan_editor.desktop.laying import Laying
from plan_editor.desktop.making import Making
from plan_editor.drawing.sketch import Sketch
from plan_editor.errors import PlanEditorError
from plan_editor.ground.base_plans import Laid
from plan_editor.ground.clearance import Zone
from plan_editor.plan.item import ItemId
from plan_editor.plan.signal import Signal
from plan_editor.session import Session


class Ground(Protocol):
    """What a panel can have shown over the ground, and where the window looks."""

    def show_zones(self, zones: tuple[Zone, ...]) -> None:
        """Show these zones to keep off, while the job of safety is done."""
        ...

    def show_unplaced(self, laid: Laid | None) -> None:
        """Show one base plan alone, so that it can be clicked on; None shows all again."""
        ...

    def show_things(self, shown: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        """Show what is on the plan, or only the base plans, so that nothing else is caught."""
        ...

    def show_sketch(self, sketch: Sketch | None) -> None:
        """Show a sketch over the ground in place of the last; None shows none."""
        ...

    def lying(self, item: ItemId) -> Laid | None:
        """Return how a base plan lies on the screen now; None where it is not seen."""
        ...

    def look_at(self, box: tuple[float, float, float, float]) -> None:
        """Show a box of ground: least east and north, greatest east and north."""
        ...

    def in_view(self) -> tuple[float, float, float, float]:
        """Return what the window shows: least east and north, greatest east and north."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What a panel works with.

    Args:
        session: the open plan.
        house: the application, which remembers what this user likes.
        ask: questions and sentences.
        background: long work beside the window.
        making: sheets and drawings, made beside the window.
        laying: files laid under the ground, read beside the window.
        ground: what the panel can show over the ground.
        palette: the colours when the panel is made.
        dressed: tells other colours.
        roomy: tells that the panel has a long form open (or no longer), and the card gives way.
    """

    session: Session
    house: House
    ask: Ask
    background: Background
    palette: Palette
    dressed: Signal[Palette]
    roomy: Signal[bool]
    ground: Ground
    making: Making
    laying: Laying

    def say_why(self, error: PlanEditorError) -> None:
        """Say why something could not be done."""
        self.ask.tell(str(error))
