"""Connections to a database file: with what its triggers call, without what could do harm."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from plan_editor.storage import blobs

Connection = sqlite3.Connection
DatabaseError = sqlite3.DatabaseError
OperationalError = sqlite3.OperationalError

LONGEST = 600_000_000
"""No text or shape has more bytes than this; media are read in pieces and may be longer."""

_FORBIDDEN_ACTIONS = frozenset((sqlite3.SQLITE_ATTACH, sqlite3.SQLITE_DETACH))
_FORBIDDEN_PRAGMAS = frozenset(
    ("writable_schema", "temp_store_directory", "data_store_directory", "mmap_size")
)
_FORBIDDEN_FUNCTIONS = frozenset(("load_extension", "fts3_tokenizer", "readfile", "writefile"))


@contextmanager
def reading(path: Path) -> Iterator[Connection]:
    """Open a file that is only read, and close it again."""
    con = _connect(path, "ro")
    try:
        yield con
    finally:
        con.close()


def writing(path: Path) -> Connection:
    """Open a file that is written, or make it; the caller closes it."""
    return _connect(path, "rwc")


def in_memory() -> Connection:
    """Return a database that lives in memory only."""
    return _prepared(sqlite3.connect(":memory:", isolation_level=None))


@contextmanager
def transaction(con: Connection) -> Iterator[None]:
    """Do all of it or nothing."""
    con.execute("BEGIN IMMEDIATE")
    try:
        yield
        con.execute("COMMIT")
    except BaseException:
        if con.in_transaction:
            con.execute("ROLLBACK")
        raise


def rebuild(con: Connection) -> bool:
    """Write a database anew, so that nothing removed is left between its rows or in its WAL.

    Returns whether the WAL was emptied too; it cannot be while another program reads.

    Source: sqlite.org/lang_vacuum.html, sqlite.org/pragma.html#pragma_secure_delete.
    """
    con.set_authorizer(None)  # VACUUM attaches a database of its own
    try:
        con.execute("VACUUM")
    finally:
        con.set_authorizer(_allowed)
    busy = con.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
    return not busy


def _connect(path: Path, mode: str) -> Connection:
    uri = f"{path.absolute().as_uri()}?mode={mode}"
    # the plan's file lets several threads share its connection, one at a time
    return _prepared(
        sqlite3.connect(uri, uri=True, isolation_level=None, check_same_thread=False)
    )


def _prepared(con: Connection) -> Connection:
    for name, function in blobs.FUNCTIONS.items():
        con.create_function(name, 1, function, deterministic=True)
    con.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, LONGEST)
    con.set_authorizer(_allowed)
    return con


def _allowed(
    action: int, first: str | None, second: str | None, _where: str | None, _by: str | None
) -> int:
    forbidden = (
        action in _FORBIDDEN_ACTIONS
        or (action == sqlite3.SQLITE_PRAGMA and (first or "").lower() in _FORBIDDEN_PRAGMAS)
        or (
            action == sqlite3.SQLITE_FUNCTION and (second or "").lower() in _FORBIDDEN_FUNCTIONS
        )
    )
    return sqlite3.SQLITE_DENY if forbidden else sqlite3.SQLITE_OK
