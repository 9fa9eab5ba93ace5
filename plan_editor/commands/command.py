"""What a command is, what may be asked of the user, and the list of menus."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from plan_editor.declared import declared
from plan_editor.session import Session


class Ask(Protocol):
    """Questions that a command may put. Dialogs in the window; a list of answers in tests. None means *never mind*."""

    def file_to_open(self, title: str, suffixes: tuple[str, ...]) -> Path | None:
        """Return a file that is there."""
        ...

    def file_to_write(self, title: str, suffix: str, suggested: str) -> Path | None:
        """Return a file to be written; whether an old one may be replaced was asked."""
        ...

    def yes(self, question: str, *, yes: str, no: str) -> bool:
        """Return whether the user agreed; the answers are worded."""
        ...

    def text(self, question: str, given: str) -> str | None:
        """Return a line of text."""
        ...

    def tell(self, message: str) -> None:
        """Say something that needs no answer."""
        ...


def _always(session: Session) -> bool:
    del session
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """What a menu or a key asks for.

    Args:
        name: for the command finder and tests.
        title: in the menu.
        keys: as Qt writes them: ``Ctrl+Z``.
        icon: name of a drawing in ``resources/icons``.
        run: does it; applies one edit, or none.
        enabled: whether it can be done now.
    """

    name: str
    title: str
    keys: str = ""
    icon: str = ""
    run: Callable[[Session, Ask], None]
    enabled: Callable[[Session], bool] = _always


@dataclass(frozen=True, slots=True, kw_only=True)
class Menu:
    """One menu: its commands in order, None for a line between them."""

    title: str
    order: int
    commands: tuple[Command | None, ...]


def menus() -> tuple[Menu, ...]:
    """Return every menu there is, in order."""
    found = declared("plan_editor.commands.menus", "MENU", Menu)
    return tuple(sorted(found, key=lambda m: m.order))
