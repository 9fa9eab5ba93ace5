"""What a window can be told to do, by commands and panels alike."""

from pathlib import Path
from typing import Protocol

from plan_editor.commands.command import Part, View


class Hands(Protocol):
    """A window, as those see it that have something for it to do."""

    def say(self, words: str) -> None:
        """Say a sentence over the ground."""
        ...

    def view(self, view: View) -> None:
        """Show another piece of the ground."""
        ...

    def pointed_at(self) -> tuple[float, float] | None:
        """Return where the pointer is on the ground, or was last; None before it was."""
        ...

    def in_view(self) -> tuple[float, float, float, float]:
        """Return what is seen of the ground: least east and north, greatest east and north."""
        ...

    def show_chosen(self) -> None:
        """Bring what is chosen into sight, at the scale as it is."""
        ...

    def open_menu(self) -> None:
        """Open the menu of what can be done where the pointer is."""
        ...

    def go(self, job: str) -> None:
        """Turn to another job."""
        ...

    def unfold(self, section: str) -> None:
        """Open a section, by its name, and take the keys there."""
        ...

    def reach(self, part: Part) -> None:
        """Take the keys to a part of the window."""
        ...

    def lay(self, path: Path) -> None:
        """Lay a file under the ground."""
        ...

    def print_sheet(self, name: str) -> None:
        """Show a sheet, ready to be printed."""
        ...

    def print_keys(self) -> None:
        """Print every key there is."""
        ...

    def write_drawing(self, format_name: str) -> None:
        """Write the plan in another program's format."""
        ...

    def save(self) -> None:
        """Save the plan."""
        ...

    def save_as(self, path: Path) -> None:
        """Save under another name and work on there."""
        ...

    def save_copy(self, path: Path) -> None:
        """Write a copy."""
        ...
