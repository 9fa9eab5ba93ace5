"""Find by name or number what is on the plan, and commands by their titles."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from typing import Any

from plan_editor.commands.command import Command, Menu, menus
from plan_editor.commands.finding_states import coordinates_in, things_in_state
from plan_editor.commands.grave_sketch import middle_of
from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import kinds
from plan_editor.plan.plan import Plan
from plan_editor.records.looking_up import alike, line_of
from plan_editor.session import Session

MOST = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One line of what was found: items to go to, a command to run, or a place to look at.

    None of these where it is something that cannot be done now, which the line says.

    Args:
        text: the line.
        items: to be chosen and shown.
        command: to be run.
        place: east and north in metres about the plan's origin, to be shown; of items without
            a place of their own, where what they refer to lies.
    """

    text: str
    items: tuple[ItemId, ...] = ()
    command: Command | None = None
    place: tuple[float, float] | None = None


def find(session: Session, text: str) -> tuple[Found, ...]:
    """Return what is called so: coordinates first, exact numbers, commands, kinds, names.

    Commands that cannot be run now come last, so that whoever looks for one knows that it is
    there.

    Cost: at most one pass over the numbers and names of the plan.
    """
    wanted = text.strip()
    if not wanted:
        return ()
    found = [
        *_placed(session, wanted),
        *_numbered(session, wanted),
        *_commands(session, wanted),
        *_in_state(session, wanted),
    ]
    seen = {i for f in found for i in f.items if len(f.items) == 1}
    plan = session.document.plan
    for item in chain(_named(session, spoken(wanted)), _alike(plan, wanted)):
        if len(found) >= MOST:
            break
        if item.id not in seen:
            seen.add(item.id)
            place = None if item.shape is not None else middle_of(plan, item.id)
            found.append(Found(text=line_of(plan, item), items=(item.id,), place=place))
    return tuple((*found, *_greyed(session, wanted))[:MOST])


def _placed(session: Session, wanted: str) -> Iterator[Found]:
    there = coordinates_in(wanted)
    if there is None:
        return
    grid = session.document.plan.grid
    east, north = grid.to_plan(*there)
    called = f"E {there[0]:,.2f}  N {there[1]:,.2f}".replace(",", "\u202f")
    if max(abs(east), abs(north)) > FARTHEST:
        yield Found(text=f"{called}   – more than 100 km from the plan")
    else:
        yield Found(text=f"Go to {called}", place=(east, north))


def _in_state(session: Session, wanted: str) -> Iterator[Found]:
    for told, items in things_in_state(session.document.plan, wanted):
        yield Found(text=told, items=items)


def _numbered(session: Session, wanted: str) -> Iterator[Found]:
    items = session.document.plan.items
    for found in session.document.index.numbered(wanted):
        yield Found(text=items[found].called(), items=(found,))


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


def _alike(plan: Plan, wanted: str) -> Iterator[Item[Any]]:
    yield from (plan.items[i] for i in alike(plan, wanted, MOST))


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
