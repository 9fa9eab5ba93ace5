"""A plan's file, written whole: at every instant it is the old one or the new one."""

import os
import shutil
import sys
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from time import monotonic, sleep
from uuid import uuid4

from plan_editor.storage import geopackage, media, settings
from plan_editor.storage.connection import Connection, transaction, writing
from plan_editor.storage.history import tail_of
from plan_editor.storage.tables import layouts

_PATIENCE = 5.0
"""Seconds for which Windows is asked again while a virus scanner holds the file."""

_COUNTER_AT = 24
"""Where SQLite counts the transactions that wrote to a file.

Source: sqlite.org/fileformat2.html, 1.3.7.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """What a Save wrote: its id, the last log entry, SQLite's count of writes, and when."""

    save_id: str
    revision: int
    counter: int
    when: str


def publish(source: Connection, target: Path) -> Saved:
    """Write a whole plan to a file, keeping the one that was there as ``.bak``.

    Raises:
        sqlite3.Error, OSError: it could not be written; the file that was there is as it was.
    """
    return _put(source, target, _keep_previous)


def put_in_place(source: Connection, target: Path) -> Saved:
    """Write a whole plan over a file of which nothing is to be kept.

    Raises:
        sqlite3.Error, OSError: it could not be written; the file that was there is as it was.
    """
    return _put(source, target, lambda _: None)


def counter_of(path: Path) -> int:
    """Return how often programs have written to a database file, as the file itself counts.

    Raises:
        OSError: it cannot be read.
    """
    with path.open("rb") as file:
        file.seek(_COUNTER_AT)
        return int.from_bytes(file.read(4))


def backup_of(path: Path) -> Path:
    """Return the name of the previous version of a plan."""
    return path.with_name(f"{path.name}.bak")


def _put(source: Connection, target: Path, keep: Callable[[Path], None]) -> Saved:
    made = target.with_name(f"{target.name}.tmp")
    made.unlink(missing_ok=True)
    try:
        saved = _written(source, made)
        if target.exists():
            shutil.copymode(target, made)
            keep(target)
        _replace(made, target)
    except BaseException:
        with suppress(OSError):
            made.unlink(missing_ok=True)
        raise
    _settle(target.parent)
    return saved


def _written(source: Connection, made: Path) -> Saved:
    with closing(writing(made)) as con:
        # nothing can go back here: a file that is not finished is thrown away
        con.execute("PRAGMA journal_mode = OFF")
        con.execute("PRAGMA synchronous = OFF")
        source.backup(con)
        con.execute("PRAGMA journal_mode = DELETE")  # the working copy's WAL mode came along
        con.execute("PRAGMA journal_mode = OFF")
        saved = _stamped(con, made)
    with made.open("rb+") as file:
        os.fsync(file.fileno())
    return saved


def _stamped(con: Connection, made: Path) -> Saved:
    saved = Saved(
        save_id=uuid4().hex,
        revision=tail_of(con).number,
        counter=counter_of(made) + 1,  # this transaction is counted too
        when=datetime.now(UTC).isoformat(timespec="seconds"),
    )
    with transaction(con):
        geopackage.note_extents(con)
        geopackage.note_change(con, (layout.table for layout in layouts()))
        media.note_mappings(con)
        note(con, saved)
    return saved


def note(con: Connection, saved: Saved) -> None:
    """Write down which Save a file comes from."""
    settings.write(
        con,
        save_id=saved.save_id,
        saved_at=saved.when,
        saved_revision=saved.revision,
        file_counter=saved.counter,
    )


def _keep_previous(target: Path) -> None:
    kept = backup_of(target)
    part = target.with_name(f"{kept.name}.tmp")
    part.unlink(missing_ok=True)
    try:
        os.link(target, part)
    except OSError:  # some file systems have no links
        shutil.copyfile(target, part)
        with part.open("rb+") as file:
            os.fsync(file.fileno())
    _replace(part, kept)


if sys.platform == "win32":  # pragma: no cover  # seen on Windows only

    def _replace(made: Path, target: Path) -> None:
        until = monotonic() + _PATIENCE
        while True:
            try:
                made.replace(target)
            except PermissionError:
                if monotonic() > until:
                    raise
                sleep(0.1)
            else:
                return

    def _settle(folder: Path) -> None:
        del folder  # Windows cannot open folders

else:

    def _replace(made: Path, target: Path) -> None:
        made.replace(target)

    def _settle(folder: Path) -> None:
        # the new name itself must survive a power cut
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
