"""The plan as its log knows it after any of its entries, and which entry a day ended with."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from plan_editor.drawing.dates import in_words
from plan_editor.errors import CannotUse, DamagedPlan
from plan_editor.plan.change import Change
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.storage import history, opening
from plan_editor.storage.connection import Connection, reading
from plan_editor.storage.problems import told
from plan_editor.storage.records import encode, item_of, records_of
from plan_editor.survey.grids.grid import Grid

_NOT_SHOWN = "The plan of that day was not read."
_GAP = "its history lacks entry {number}"
_BROKEN = "entry {number} of its history does not fit to those after it"

Record = dict[str, Any]
Records = dict[str, Record | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """Where in the log a moment lies.

    Args:
        number: of the last entry made before it.
        when: ISO date and time, UTC, of that entry.
        clock_went_back: whether an entry up to there says an earlier time than one before it;
            then a clock was wrong, and by how much nobody can tell.
    """

    number: int
    when: str
    clock_went_back: bool


def moment(path: Path, instant: datetime) -> Moment:
    """Return where in the log of a plan an instant lies; nothing is written.

    Entries count until the first that was made at that instant or later. An entry whose time
    cannot be read counts with the one before it.

    Args:
        path: a plan's file, or a working copy.
        instant: with its time zone.

    Raises:
        CannotUse: the log begins later, or there is none.
        FileProblem: the file cannot be read.
    """
    with told(path, _NOT_SHOWN), reading(path) as con:
        opening.check_content(con, path)
        rows = con.execute("SELECT number, made_at FROM history ORDER BY number").fetchall()
    if not rows:
        raise CannotUse(
            f"The plan has no history, so nothing is known of earlier days. {_NOT_SHOWN}"
        )
    # the path is often a working copy's, whose name nobody knows: it is not told
    found = _moment(rows, instant)
    if found is None:
        raise CannotUse(
            f"The plan's history begins on {in_words(rows[0][1][:10])}, later than that day."
            f" {_NOT_SHOWN} Choose a later day."
        )
    return found


def as_known(path: Path, now: Plan, number: int) -> Plan:
    """Return a plan as it was after an entry of its log; nothing is written.

    Worked out backwards from now, or forwards from the beginning, whichever takes fewer
    entries. It lies in the grid in which it lay then, and has the name that it has now, as
    names are not in the log.

    Args:
        path: the plan's file, or a working copy, whose log holds all that led to ``now``.
        now: the plan after some entry of that log.
        number: of an entry, not later than ``now``.

    Raises:
        DamagedPlan: the log lacks an entry, or does not fit together.
        FileProblem: the file cannot be read.
    """
    with told(path, _NOT_SHOWN), reading(path) as con:
        try:
            if now.revision - number <= number:
                return _backwards(con, now, number)
            return _forwards(con, now, number)
        except ValueError as error:
            raise DamagedPlan(f"{path.name} is damaged: {error}. {_NOT_SHOWN}") from error


def _moment(rows: list[tuple[int, str]], instant: datetime) -> Moment | None:
    found = None
    latest = datetime.min.replace(tzinfo=UTC)
    back = False
    for number, made_at in rows:
        when = _read(made_at) or latest
        if when >= instant:
            break
        back = back or when < latest
        latest = max(latest, when)
        found = Moment(number=number, when=made_at, clock_went_back=back)
    return found


def _read(made_at: str) -> datetime | None:
    try:
        when = datetime.fromisoformat(made_at)
    except ValueError:
        return None
    return when if when.tzinfo is not None else when.replace(tzinfo=UTC)


def _backwards(con: Connection, now: Plan, number: int) -> Plan:
    """Take back every entry after one, the newest first."""
    then: Records = {}
    newest: Records = {}
    for at, pairs in _rows(con, number, now.revision, newest_first=True):
        for before, after in pairs:
            item = _id(before, after)
            if then.setdefault(item, after) != after:
                raise ValueError(_BROKEN.format(number=at))
            newest.setdefault(item, after)
            then[item] = before
    _check_now(now, newest)
    changes = (Change(now.items.get(ItemId(i)), _item(record)) for i, record in then.items())
    grid = _grid_after(con, number)
    made = [c for c in changes if c.before is not None or c.after is not None]
    return replace(now.after(made, grid), revision=number)


def _forwards(con: Connection, now: Plan, number: int) -> Plan:
    """Do every entry up to one again, from nothing."""
    then: Records = {}
    for at, pairs in _rows(con, 0, number, newest_first=False):
        for before, after in pairs:
            item = _id(before, after)
            if then.pop(item, None) != before:
                raise ValueError(_BROKEN.format(number=at))
            if after is not None:
                then[item] = after
    items = [item_of(record) for record in then.values() if record is not None]
    grid = _grid_after(con, number)
    return plan_of(items, name=now.name, grid=grid, revision=number)


def _rows(
    con: Connection, after: int, last: int, *, newest_first: bool
) -> Iterator[tuple[int, list[tuple[Record | None, Record | None]]]]:
    """Return the changes of the entries after one and up to another.

    Raises:
        ValueError: an entry is lacking, or cannot be read.
    """
    expected = iter(range(last, after, -1) if newest_first else range(after + 1, last + 1))
    found = con.execute(
        "SELECT number, changes FROM history WHERE number > ? AND number <= ?"
        f" ORDER BY number {'DESC' if newest_first else 'ASC'}",
        (after, last),
    )
    for number, changes in found:
        if (wanted := next(expected)) != number:
            raise ValueError(_GAP.format(number=wanted))
        try:
            yield number, [(before, after) for before, after in json.loads(changes)]
        except (ValueError, TypeError, RecursionError) as error:
            raise ValueError(f"entry {number} of its history cannot be read") from error
    if (wanted := next(expected, 0)) != 0:
        raise ValueError(_GAP.format(number=wanted))


def _id(before: Record | None, after: Record | None) -> str:
    try:
        return str((after or before or {})["columns"]["id"])
    except (KeyError, TypeError) as error:
        raise ValueError("an entry of its history names no thing") from error


def _item(record: Record | None) -> Any:
    return None if record is None else item_of(record)


def _check_now(now: Plan, newest: Mapping[str, Record | None]) -> None:
    """Raise ValueError unless the plan holds what the newest entries say it does."""
    wanted = {i: encode(record) for i, record in newest.items() if record is not None}
    there = [now.items[ItemId(i)] for i in newest if i in now.items]
    held = {item.id: record for item, record in zip(there, records_of(there), strict=True)}
    if held != wanted:
        raise ValueError("its history does not lead to what it holds")


def _grid_after(con: Connection, number: int) -> Grid:
    grid = history.grid_of(con, number)
    if grid is None:
        raise ValueError(_GAP.format(number=number))
    return grid
