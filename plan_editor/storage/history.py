"""Log entries as rows, each with a digest of all items after it and one of the log up to it."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from plan_editor.plan.change import Change
from plan_editor.plan.document import Entry
from plan_editor.storage.connection import Connection
from plan_editor.storage.digests import digest_of_records
from plan_editor.storage.records import Records, encode, item_of, records_of
from plan_editor.survey.grids.grid import Grid

TABLE = "history"
SQL = """CREATE TABLE history (
  number INTEGER PRIMARY KEY NOT NULL, made_at TEXT NOT NULL, author TEXT NOT NULL, title TEXT
  NOT NULL, takes_back INTEGER, grid TEXT NOT NULL, changes TEXT NOT NULL, items_digest TEXT NOT
  NULL, log_digest TEXT NOT NULL)"""

_ADD = "INSERT INTO history VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)"
_ALL = "SELECT number, made_at, author, title, takes_back, grid, changes"
START = "0" * 64
"""The digests before the first entry."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tail:
    """Where the log ends: the number of its last entry and the two digests after it."""

    number: int = 0
    items_digest: str = START
    log_digest: str = START


def records(changes: Sequence[Change]) -> list[Records]:
    """Return changes as the log keeps them."""
    sides = [item for c in changes for item in (c.before, c.after)]
    written = records_of(item for item in sides if item is not None)
    told = [None if item is None else next(written) for item in sides]
    return [Records(before=b, after=a) for b, a in zip(told[::2], told[1::2], strict=True)]


def append(con: Connection, entry: Entry, written: list[Records], tail: Tail) -> Tail:
    """Add an entry to the log and return where the log now ends.

    Args:
        con: within a transaction.
        entry: what was done.
        written: the changes of the entry as records.
        tail: the end of the log so far, but with the digest of the items after the entry.
    """
    row = (
        entry.number,
        entry.when,
        entry.author,
        entry.title,
        entry.takes_back,
        _spelled(entry.grid),
        _joined(written),
    )
    linked = link(tail.log_digest, row)
    con.execute(_ADD, (*row, tail.items_digest, linked))
    return Tail(number=entry.number, items_digest=tail.items_digest, log_digest=linked)


def link(before: str, row: tuple[Any, ...]) -> str:
    """Return the digest of the log up to a row, from the one before it."""
    return sha256(f"{before}{json.dumps(row)}".encode()).hexdigest()


def tail_of(con: Connection) -> Tail:
    """Return where the log ends."""
    found = con.execute(
        "SELECT number, items_digest, log_digest FROM history ORDER BY number DESC LIMIT 1"
    ).fetchone()
    if found is None:
        return Tail()
    return Tail(number=found[0], items_digest=found[1], log_digest=found[2])


def when_of(con: Connection, number: int) -> str:
    """Return when an entry was made; empty if there is none of that number."""
    found = con.execute("SELECT made_at FROM history WHERE number = ?", (number,)).fetchone()
    return "" if found is None else str(found[0])


def rows(con: Connection) -> Iterator[tuple[tuple[Any, ...], str]]:
    """Return each row of the log with the digest that stands beside it."""
    for *row, digest in con.execute(f"{_ALL}, log_digest FROM history ORDER BY number"):
        yield tuple(row), digest


def entries(con: Connection, since: int = 0) -> Iterator[Entry]:
    """Return the log entries after a number, oldest first.

    Raises:
        ValueError: a record is of a kind that this version does not know.
    """
    yield from entries_where(con, "number > ?", (since,))


def entries_where(
    con: Connection, condition: str, values: tuple[Any, ...], *, only: str = ""
) -> Iterator[Entry]:
    """Return the log entries that meet a condition, oldest first.

    Args:
        con: open for reading at least.
        condition: of the columns of the log; our own words, never a user's.
        values: for its question marks.
        only: the id of an item, of whose changes alone is told; empty for all changes.

    Raises:
        ValueError: a record is of a kind that this version does not know.
    """
    found = con.execute(f"{_ALL} FROM history WHERE {condition} ORDER BY number", values)
    last: tuple[int, Grid | None] = (0, None)
    for number, when, author, title, takes_back, spelled, changes in found:
        grid = grid_from(spelled)
        before = last[1] if last[0] == number - 1 else grid_of(con, number - 1)
        made = (_change(pair) for pair in json.loads(changes) if _concerns(pair, only))
        yield Entry(
            number=number,
            title=title,
            author=author,
            when=when,
            changes=tuple(made),
            takes_back=takes_back,
            grid_before=before or grid,
            grid=grid,
        )
        last = number, grid


def grid_of(con: Connection, number: int) -> Grid | None:
    """Return the grid in which the plan lay after an entry; None if there is no such entry.

    Raises:
        ValueError: the log cannot be read.
    """
    found = con.execute("SELECT grid FROM history WHERE number = ?", (number,)).fetchone()
    return None if found is None else grid_from(found[0])


def grid_from(spelled: str) -> Grid:
    """Return a grid as the log spells it: its system, and where the plan's origin lies.

    Raises:
        ValueError: it is no grid.
    """
    try:
        crs, east, north = json.loads(spelled)
        return Grid(crs=str(crs), east=float(east), north=float(north))
    except (TypeError, ValueError, RecursionError) as error:
        raise ValueError("its history names a grid that cannot be read") from error


def last_records(con: Connection) -> dict[str, str]:
    """Return, by its id, the record of every item that is there according to the log.

    Raises:
        ValueError: the log cannot be read.
    """
    kept: dict[str, str] = {}
    for number, changes in con.execute("SELECT number, changes FROM history ORDER BY number"):
        try:
            for before, after in json.loads(changes):
                if after is None:
                    kept.pop(before["columns"]["id"], None)
                else:
                    kept[after["columns"]["id"]] = encode(after)
        except (ValueError, KeyError, TypeError, RecursionError) as error:
            raise ValueError(f"entry {number} of its history cannot be read") from error
    return kept


def seal(con: Connection) -> None:
    """Take the digests of the log anew, after its records were rewritten on purpose.

    Raises:
        ValueError: the log cannot be read.
    """
    linked = START
    for row, _ in list(rows(con)):
        linked = link(linked, row)
        con.execute("UPDATE history SET log_digest = ? WHERE number = ?", (linked, row[0]))
    con.execute(
        "UPDATE history SET items_digest = ? WHERE number = (SELECT max(number) FROM history)",
        (digest_of_records(last_records(con).values()),),
    )


def _concerns(pair: list[dict[str, Any] | None], only: str) -> bool:
    return not only or any(side["columns"]["id"] == only for side in pair if side is not None)


def _change(pair: list[dict[str, Any] | None]) -> Change:
    before, after = pair
    return Change(
        None if before is None else item_of(before), None if after is None else item_of(after)
    )


def _spelled(grid: Grid) -> str:
    return json.dumps([grid.crs, grid.east, grid.north])


def _joined(written: list[Records]) -> str:
    # records are JSON already: [[before, after], …]
    pairs = (f"[{r.before or 'null'},{r.after or 'null'}]" for r in written)
    return f"[{','.join(pairs)}]"
