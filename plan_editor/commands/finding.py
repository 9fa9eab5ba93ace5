"""Find by name or number what is on the plan, and commands by their titles."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from plan_editor.commands.command import Command, Menu, menus
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import kinds
from plan_editor.session import Session

MOST = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One line of what was found: an item to go to, or a command to run.

    Neither where it is a command that cannot be run now, which the line says.
    """

    text: str
    item: ItemId | None = None
    command: Command | None = None


def find(session: Session, text: str) -> tuple[Found, ...]:
    """Return what is called so: exact numbers first, then commands, then names that hold it.

    Commands that cannot be run now come last, so that whoever looks for one knows that it is
    there.

    Cost: at most one pass over the numbers and names of the plan.
    """
    wanted = text.strip()
    if not wanted:
        return ()
    found = [*_numbered(session, wanted), *_commands(session, wanted)]
    seen = {f.item for f in found}
    for item in _named(session, spoken(wanted)):
        if len(found) >= MOST:
            break
        if item.id not in seen:
            seen.add(item.id)
            found.append(Found(text=item.called(), item=item.id))
    return tuple((*found, *_greyed(session, wanted))[:MOST])


def _numbered(session: Session, wanted: str) -> Iterator[Found]:
    items = session.document.plan.items
    for found in session.document.index.numbered(wanted):
        yield Found(text=items[found].called(), item=found)


def _commands(session: Session, wanted: str) -> Iterator[Found]:
    for within, command in _called(wanted):
        if command.enabled(session):
            yield Found(text=_told(within, command), command=command)


def _greyed(session: Session, wanted: str) -> Iterator[Found]:
    for within, command in _called(wanted):
        if not command.enabled(session):
            yield Found(text=f"{_told(within, command)}   – not possible now")


def _called(wanted: str) -> Iterator[tuple[Menu, Command]]:
    """Return the commands in whose title and menu all these words stand, in any order."""
    words = wanted.casefold().split()
    for menu in menus():
        for within, command in menu.all_commands():
            told = f"{within.title} {command.title}".casefold()
            if all(word in told for word in words):
                yield within, command


def _told(within: Menu, command: Command) -> str:
    keys = f"   {command.keys}" if command.keys else ""
    return f"{within.title}: {command.title}{keys}"


def _named(session: Session, wanted: str) -> Iterator[Item[Any]]:
    items = session.document.plan.items
    yield from (items[i] for i in session.document.index.holding(wanted))
    for kind in kinds():
        title = spoken(kind.title)
        if wanted.startswith(title):
            rest = wanted.removeprefix(title)
            holding = (items[i] for i in session.document.index.holding(rest))
            yield from (item for item in holding if item.kind == kind)
        if kind.label:
            for item in session.document.plan.of(kind):
                if wanted in spoken(str(getattr(item.details, kind.label))):
                    yield item
