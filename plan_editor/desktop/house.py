"""What a window asks of the application round it."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from PySide6.QtWidgets import QWidget

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.preferences import Preferences
from plan_editor.storage.plan_file import PlanFile


class House(Protocol):
    """The application: its windows, its colours, what it remembers."""

    @property
    def palette(self) -> Palette:
        """The colours that are on."""
        ...

    @property
    def preferences(self) -> Preferences:
        """What this user likes."""
        ...

    def remember(self, preferences: Preferences) -> None:
        """Keep what this user likes."""
        ...

    def open_plan(self, path: Path) -> None:
        """Show a plan in a window of its own; say so where it cannot be opened."""
        ...

    def show(self, file: PlanFile) -> object:
        """Show a plan that is open in a window of its own."""
        ...

    def ask_open(self, window: QWidget) -> None:
        """Ask which plan to open, and show it."""
        ...

    def open_sample(self) -> None:
        """Show a copy of the sample."""
        ...

    def new_plan(self) -> None:
        """Ask for a name and a grid, and show the new plan."""
        ...

    def dress(self, colours: str) -> None:
        """Put on another palette: ``light``, ``dark``, ``contrast`` or ``system``."""
        ...

    def closed(self, window: object) -> None:
        """Hear that a window was closed; the last one ends the application."""
        ...

    def goes_well(self, work: Callable[[], bool]) -> bool:
        """Do something that must not raise; return its answer, or False where it did."""
        ...

    def quit(self) -> None:
        """Close every window."""
        ...
