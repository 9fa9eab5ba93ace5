"""The log of a plan's file, read without a lock and without opening the plan."""

import json
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plan_editor.errors import CannotUse, DamagedPlan
from plan_editor.plan.document import Entry
from plan_editor.plan.item import ItemId
from plan_editor.storage import history, opening
from plan_editor.storage.connection import Connection, reading
from plan_editor.storage.problems import told
from plan_editor.survey.grids.grid import Grid

_SAME_ID = """instr(changes, '"id":"' || ? || '"')"""
"""Records are spelled in one way only (``records.encode``), and each names its id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the log.

    Args:
        number: 1 for the first.
        when: ISO date and time, UTC.
        author: who made it.
        title: what was done.
        takes_back: the number of the line that it undoes, or None.
        items: how many things it changed.
        grid: in which the plan lies from then on.
        moves_grid: whether it lay in another until then.
    """

    number: int
    when: str
    author: str
    title: str
    takes_back: int | None
    items: int
    grid: Grid
    moves_grid: bool


def read_history(path: Path, since: int = 0) -> tuple[Line, ...]:
    """Return the log of a plan's file after a number, oldest first; nothing is written.

    Raises:
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    with reading_log(path) as con:
        found = con.execute(
            "SELECT number, made_at, author, title, takes_back, json_array_length(changes),"
            " grid FROM history WHERE number > ? ORDER BY number",
            (since,),
        ).fetchall()
        return tuple(_lines(found, history.grid_of(con, since)))


def read_entry(path: Path, number: int) -> Entry:
    """Return one entry of the log of a plan's file, with its changes; nothing is written.

    Raises:
        CannotUse: there is none of that number.
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    with reading_log(path) as con:
        found = next(history.entries(con, number - 1), None)
    if found is None or found.number != number:
        raise CannotUse(f"There is no entry {number} in the history of {path.name}.")
    return found


def read_entries_of(path: Path, item: ItemId) -> tuple[Entry, ...]:
    """Return the entries that changed an item, oldest first, each with that change alone.

    Raises:
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    with reading_log(path) as con:
        return tuple(history.entries_where(con, _SAME_ID, (item,), only=item))


def last_changes(
    path: Path, since: int, items: Collection[ItemId]
) -> Mapping[ItemId, tuple[str, str]]:
    """Return of each of these items that was changed after an entry by what, and when.

    That is the title and the time (ISO, UTC) of the last entry that changed it.

    Raises:
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    found: dict[ItemId, tuple[str, str]] = {}
    with reading_log(path) as con:
        rows = con.execute(
            "SELECT title, made_at, changes FROM history WHERE number > ? ORDER BY number",
            (since,),
        )
        for title, when, changes in rows:
            for before, after in json.loads(changes):
                item = ItemId((after or before)["columns"]["id"])
                if item in items:
                    found[item] = (title, when)
    return found


@contextmanager
def reading_log(path: Path) -> Iterator[Connection]:
    """Open the log of a plan's file for reading, and close it again.

    Raises:
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    path = Path(path).resolve()
    with told(path, "Its history was not read."):
        opening.check_file(path)
        with reading(path) as con:
            opening.check_content(con, path)
            try:
                yield con
            except (ValueError, KeyError, TypeError, RecursionError) as error:
                raise DamagedPlan(
                    f"{path.name} is damaged: {error}. {opening.RESTORE}"
                ) from error


def _lines(rows: Iterable[tuple[Any, ...]], before: Grid | None) -> Iterator[Line]:
    for number, when, author, title, takes_back, items, spelled in rows:
        grid = history.grid_from(spelled)
        yield Line(
            number=number,
            when=when,
            author=author,
            title=title,
            takes_back=takes_back,
            items=items,
            grid=grid,
            moves_grid=before is not None and grid != before,
        )
        before = grid
