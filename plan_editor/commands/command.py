"""What a command is, what it may ask of the user and of the window, and the list of menus."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import Protocol

from plan_editor.declared import declared
from plan_editor.session import Session


class View(Enum):
    """What the ground can be asked to show."""

    WHOLE = "everything"
    CHOSEN = "what is chosen"
    NEARER = "a smaller piece, larger"
    FARTHER = "a larger piece, smaller"
    KEY_PLAN = "the key plan, or no longer"


class Part(Enum):
    """A part of the window that the keys can be taken to."""

    GROUND = "ground"
    CARD = "card"
    PANEL = "panel"
    FIND = "find"
    SHOWN = "what is shown"


class Ask(Protocol):
    """What a command may ask: questions of the user, and of the window to show something.

    Dialogs and cards in the window; a list of answers in tests. None means *never mind*.
    """

    def file_to_open(self, title: str, suffixes: tuple[str, ...]) -> Path | None:
        """Return a file that is there."""
        ...

    def file_to_write(self, title: str, suffix: str, suggested: str) -> Path | None:
        """Return a file to be written; whether an old one may be replaced was asked."""
        ...

    def folder(self, title: str) -> Path | None:
        """Return a folder that is there."""
        ...

    def which(self, question: str, answers: tuple[str, ...]) -> int | None:
        """Return the number of the answer that the user chose; the answers are worded."""
        ...

    def one_of(self, question: str, choices: tuple[str, ...]) -> int | None:
        """Return the number of the one that the user chose from a list, of any length."""
        ...

    def clipboard(self) -> str:
        """Return the text on the clipboard of the system; empty where there is none."""
        ...

    def put_on_clipboard(self, text: str) -> None:
        """Put a text on the clipboard of the system."""
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
        """Open the menu of what can be done where the pointer is on the ground."""
        ...

    def number(self, question: str, least: int, most: int) -> int | None:
        """Return a whole number from the least to the most."""
        ...

    def tell(self, message: str) -> None:
        """Say something that needs no answer."""
        ...

    def open_plan(self, path: Path) -> None:
        """Show a plan in a window of its own; say so where it cannot be opened."""
        ...

    def new_plan(self) -> None:
        """Ask for a name and a grid, and show the new plan."""
        ...

    def close(self) -> None:
        """Close the window; unsaved work is asked about."""
        ...

    def quit(self) -> None:
        """Close every window."""
        ...

    def save(self) -> None:
        """Save the plan; where somebody else saved meanwhile, ask."""
        ...

    def save_as(self, path: Path) -> None:
        """Save under another name and work on there."""
        ...

    def save_copy(self, path: Path) -> None:
        """Write a copy and go on working on the plan itself."""
        ...

    def print_sheet(self, name: str) -> None:
        """Show a sheet, ready to be printed."""
        ...

    def print_keys(self) -> None:
        """Print every key there is, beside the window."""
        ...

    def write_drawing(self, format_name: str) -> None:
        """Write the plan in another program's format, beside the window."""
        ...

    def view(self, view: View) -> None:
        """Show another piece of the ground."""
        ...

    def go(self, job: str) -> None:
        """Turn to another job, by its name."""
        ...

    def unfold(self, section: str) -> None:
        """Open a section, by its name, and take the keys there."""
        ...

    def reach(self, part: Part) -> None:
        """Take the keys to a part of the window."""
        ...

    def dress(self, colours: str) -> None:
        """Put on another palette: ``light``, ``dark``, ``contrast`` or ``system``."""
        ...

    def lay(self, path: Path) -> None:
        """Lay a file under the ground; reading it goes on beside the window."""
        ...

    def read_page(self, name: str) -> None:
        """Show a page of text: ``keys``, ``cautions`` or ``about``."""
        ...


def _always(session: Session) -> bool:
    del session
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """What a menu or a key asks for.

    Args:
        name: for the command finder and tests.
        title: in the menu; ``title_now`` where it tells more: ``Undo Move 3``.
        keys: as Qt writes them: ``Ctrl+Z``.
        icon: name of a drawing in ``resources/icons``.
        run: does it; applies one edit, or none.
        enabled: whether it can be done now.
        title_now: its title at the moment; None where that never changes.
        beside: its place in the menu that opens at the pointer on the ground, counted in tens
            with a line between the tens; 0 for none.
    """

    name: str
    title: str
    keys: str = ""
    icon: str = ""
    run: Callable[[Session, Ask], None]
    enabled: Callable[[Session], bool] = _always
    title_now: Callable[[Session], str] | None = None
    beside: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Menu:
    """One menu: its commands in order, None for a line between them, a menu for one within."""

    title: str
    order: int = 50
    commands: "tuple[Command | Menu | None, ...]"

    def all_commands(self) -> "Iterator[tuple[Menu, Command]]":
        """Return every command, those of menus within too, each with the menu it stands in."""
        for entry in self.commands:
            if isinstance(entry, Menu):
                yield from entry.all_commands()
            elif entry is not None:
                yield self, entry


def beside_pointer() -> tuple[Command, ...]:
    """Return the commands of the menu that opens at the pointer, in their order."""
    every = (c for menu in menus() for _, c in menu.all_commands())
    return tuple(sorted((c for c in every if c.beside), key=lambda c: c.beside))


def menus() -> tuple[Menu, ...]:
    """Return every menu there is, in order."""
    found = declared("plan_editor.commands.menus", "MENU", Menu)
    return tuple(sorted(found, key=lambda m: m.order))
