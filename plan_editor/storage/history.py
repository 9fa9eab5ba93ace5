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
from plan_editor.storage.leaves import Salts, is_forgotten, leaves, random_salt, salted
from plan_editor.storage.records import Records, encode, item_of, records_of
from plan_editor.survey.grids.grid import Grid

TABLE = "history"
SQL = """CREATE TABLE history (
  number INTEGER PRIMARY KEY NOT NULL, made_at TEXT NOT NULL, author TEXT NOT NULL, title TEXT
  NOT NULL, takes_back INTEGER, grid TEXT NOT NULL, changes TEXT NOT NULL, items_digest TEXT NOT
  NULL, log_digest TEXT NOT NULL, salts TEXT NOT NULL DEFAULT '[]')"""

_ADD = "INSERT INTO history VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
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


def append(
    con: Connection,
    entry: Entry,
    written: list[Records],
    tail: Tail,
    salt: Salts = random_salt,
) -> Tail:
    """Add an entry to the log and return where the log now ends.

    Args:
        con: within a transaction.
        entry: what was done.
        written: the changes of the entry as records.
        tail: the end of the log so far, but with the digest of the items after the entry.
        salt: gives the salts of the changes.
    """
    plain = (
        entry.number,
        entry.when,
        entry.author,
        entry.title,
        entry.takes_back,
        _spelled(entry.grid),
    )
    changes, salts = _joined(written), salted(len(written), salt)
    linked = link(tail.log_digest, plain, leaves(changes, salts))
    con.execute(_ADD, (*plain, changes, tail.items_digest, linked, salts))
    return Tail(number=entry.number, items_digest=tail.items_digest, log_digest=linked)


def link(before: str, plain: Sequence[Any], of_changes: Sequence[str]) -> str:
    """Return the digest of the log up to a row, from the one before it.

    Args:
        before: the digest up to the row before.
        plain: number, time, author, title, what it takes back, and grid.
        of_changes: the leaf of each change.
    """
    return sha256(f"{before}{json.dumps([*plain, list(of_changes)])}".encode()).hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A row of the log as a link of its chain.

    Args:
        plain: number, time, author, title, what it takes back, and grid.
        changes, salts: as the log keeps them.
        digest: of the log up to it, as it stands there.
    """

    plain: tuple[Any, ...]
    changes: str
    salts: str
    digest: str

    def agrees(self, before: str) -> bool:
        """Return whether it is what it was when it was written, or what is left of that.

        Args:
            before: the digest up to the row before.
        """
        try:
            return link(before, self.plain, leaves(self.changes, self.salts)) == self.digest
        except ValueError:
            return False


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


def links(con: Connection) -> Iterator[Link]:
    """Return every row of the log as a link of its chain, oldest first."""
    for *plain, changes, salts, digest in con.execute(
        f"{_ALL}, salts, log_digest FROM history ORDER BY number"
    ):
        yield Link(plain=tuple(plain), changes=changes, salts=salts, digest=digest)


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


def seal(con: Connection, salt: Salts = random_salt) -> None:
    """Take the digests of the log anew, after its records were rewritten on purpose.

    What was forgotten stays so; everything else is given new salts.

    Raises:
        ValueError: the log cannot be read.
    """
    linked = START
    for one in list(links(con)):
        salts = _salts_anew(one, salt)
        linked = link(linked, one.plain, leaves(one.changes, salts))
        con.execute(
            "UPDATE history SET log_digest = ?, salts = ? WHERE number = ?",
            (linked, salts, one.plain[0]),
        )
    con.execute(
        "UPDATE history SET items_digest = ? WHERE number = (SELECT max(number) FROM history)",
        (digest_of_records(last_records(con).values()),),
    )


def _salts_anew(one: Link, salt: Salts) -> str:
    count = len(json.loads(one.changes))
    kept = json.loads(one.salts)
    if len(kept) != count:
        return salted(count, salt)
    return json.dumps([each if is_forgotten(each) else salt() for each in kept])


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
