"""The log of a plan as a list for people: who, when, what, and whether it was taken back."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from plan_editor.commands.difference_words import line, name_of
from plan_editor.drawing.dates import in_words
from plan_editor.edits.forgetting import TITLE as FORGOTTEN
from plan_editor.edits.reverting import TakeBack
from plan_editor.errors import CannotUse
from plan_editor.plan.change import Change
from plan_editor.plan.comparing import moved
from plan_editor.plan.differences import differences
from plan_editor.plan.document import Entry
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.storage.log import (
    Line,
    last_changes,
    read_entries_of,
    read_entry,
    read_history,
)

NOBODY = "somebody who gave no name"
TAKEN_BACK_ALREADY = "That has been taken back already. Nothing was changed."
MOST_THINGS = 40
"""So many things of one entry are told in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """The log of a plan, up to some entry.

    Args:
        lines: oldest first.
        taken_back: the numbers of those that are taken back now.
        words: of each line what it can be found by.
    """

    lines: tuple[Line, ...] = ()
    taken_back: frozenset[int] = frozenset()
    words: tuple[str, ...] = ()

    def line(self, number: int) -> Line | None:
        """Return the line of a number, or None."""
        place = bisect_left(self.lines, number, key=lambda one: one.number)
        found = self.lines[place : place + 1]
        return found[0] if found and found[0].number == number else None

    def told(self, one: Line) -> str:
        """Return what a line says was done."""
        undone = None if one.takes_back is None else self.line(one.takes_back)
        if undone is not None and one.title == undone.title:
            return f"Taken back: {one.title}"
        return one.title


def longer(path: Path, log: Log) -> Log:
    """Return a log with the entries that were written since.

    Raises:
        FileProblem: the file cannot be read.
    """
    last = log.lines[-1].number if log.lines else 0
    new = read_history(path, last)
    lines = (*log.lines, *new)
    return Log(
        lines=lines,
        taken_back=frozenset(_taken_back(lines)),
        words=(*log.words, *map(_words, new)),
    )


def found(log: Log, typed: str, only: Iterable[int] | None = None) -> tuple[Line, ...]:
    """Return the lines that hold every word typed, the newest first.

    A part of a word will do, but a number is wanted whole: ``3 may`` is not ``30 May``.

    Args:
        log: where to look.
        typed: words of a title, of a name or of a day, in any order.
        only: the numbers of the lines among which to look; None for all.
    """
    wanted = typed.casefold().split()
    among = None if only is None else set(only)
    pairs = zip(reversed(log.lines), reversed(log.words), strict=True)
    return tuple(
        one
        for one, words in pairs
        if (among is None or one.number in among) and all(_holds(words, w) for w in wanted)
    )


def by_the_clock(when: str) -> str:
    """Return a time kept in UTC by this computer's clock: ``3 May 2026, 14:02``."""
    try:
        local = datetime.fromisoformat(when).astimezone()
    except (ValueError, OverflowError):
        return "at a time not known"
    return f"{in_words(local.date().isoformat())}, {local:%H:%M}"


def day_in_words(when: str) -> str:
    """Return the day of a time kept in UTC by this computer's clock: ``3 May 2026``."""
    return by_the_clock(when).partition(",")[0]


def line_words(log: Log, one: Line) -> str:
    """Return in a sentence what a line of the log tells besides its title."""
    things = "1 thing" if one.items == 1 else f"{one.items} things"
    if one.moves_grid:
        things = "the whole plan"
    grid = f" From here on the plan lies in {one.grid.told()}." if one.moves_grid else ""
    back = " It was taken back since." if one.number in log.taken_back else ""
    return (
        f"No. {one.number}, {by_the_clock(one.when)}, by {one.author or NOBODY}: {things}."
        f"{grid}{back}"
    )


def read_made(path: Path, number: int, only: ItemId | None) -> Entry:
    """Return an entry with its changes, or with that of one item alone.

    Raises:
        CannotUse: there is none of that number.
        FileProblem: the file cannot be read.
    """
    entry = read_entry(path, number)
    if only is None:
        return entry
    made = tuple(c for c in entry.changes if c.id == only)
    return Entry(
        number=entry.number,
        title=entry.title,
        author=entry.author,
        when=entry.when,
        changes=made,
        grid_before=entry.grid_before,
        grid=entry.grid,
        takes_back=entry.takes_back,
    )


def numbers_of(path: Path, item: ItemId) -> tuple[int, ...]:
    """Return the numbers of the entries that changed an item, oldest first.

    Raises:
        FileProblem: the file cannot be read.
    """
    return tuple(entry.number for entry in read_entries_of(path, item))


def made_words(entry: Entry, plan: Plan) -> tuple[str, ...]:
    """Return in words what an entry did to each thing, field by field.

    Args:
        entry: with its changes.
        plan: the plan as it is now, in which things that are referred to are named.
    """
    if entry.moves_grid:
        return ("Everything was placed in the other grid.",)
    told = tuple(_thing(c, plan) for c in entry.changes[:MOST_THINGS])
    more = len(entry.changes) - MOST_THINGS
    return (*told, f"… and {more} more") if more > 0 else told


def take_back(path: Path, number: int) -> TakeBack:
    """Return the edit that takes back an entry, knowing what stands in its way.

    Raises:
        CannotUse: there is none of that number, or somebody was forgotten by it.
        FileProblem: the file cannot be read.
    """
    entry = read_entry(path, number)
    if entry.title == FORGOTTEN:
        raise CannotUse("Whoever was forgotten cannot be brought back. Nothing was changed.")
    later = last_changes(path, number, {c.id for c in entry.changes})
    return TakeBack(
        entry=entry,
        day=day_in_words(entry.when),
        since=tuple(
            (item, f"by “{title}” on {day_in_words(when)}")
            for item, (title, when) in later.items()
        ),
    )


def _taken_back(lines: Iterable[Line]) -> Iterator[int]:
    """Return what is taken back and not done again by undoing that: newest first."""
    gone: set[int] = set()
    for one in sorted(lines, key=lambda line: -line.number):
        if one.takes_back is not None and one.number not in gone:
            gone.add(one.takes_back)
    yield from gone


def _words(one: Line) -> str:
    day = by_the_clock(one.when)
    told = f" {one.number} {one.title} {one.author} {day} {one.when[:10]} "
    return told.replace(",", " ").casefold()


def _holds(words: str, wanted: str) -> bool:
    return (f" {wanted} " if wanted.isdecimal() else wanted) in words


def _thing(change: Change, plan: Plan) -> str:
    before, after = change.before, change.after
    if before is None or after is None:
        item = after or before
        assert item is not None  # noqa: S101  # a change has an item on one side
        return f"{name_of(item)}: {'removed' if after is None else 'added'}"
    apart = moved(before, after)
    told = [line(d, apart, plan, plan) for d in differences(before, after)]
    return "\n    ".join((f"{name_of(after)}", *told))
