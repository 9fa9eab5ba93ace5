"""The working copy: a copy of the plan on the local disk, in which every edit is kept at once.

A program that copies or synchronises files never sees it, and a crash leaves it behind, whole.
"""

import json
import os
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path
from uuid import uuid4

from platformdirs import user_state_path

from plan_editor.errors import PlanInUse
from plan_editor.storage.connection import Connection, reading, writing
from plan_editor.storage.lock import Lock, seize

_ENDINGS = (".gpkg", ".gpkg-wal", ".gpkg-shm", ".gpkg.part", ".gpkg.part-journal")


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """What stands beside a working copy: whose it is, and when it was made (ISO, UTC)."""

    plan: str
    made: str


class WorkingCopy:
    """A working copy that this process holds."""

    def __init__(self, note: Path, lock: Lock) -> None:
        self._note = note
        self._lock = lock

    @property
    def path(self) -> Path:
        """The database file."""
        return self._note.with_suffix(".gpkg")

    def belongs_to(self, plan: Path) -> None:
        """Write down whose copy it is."""
        made = datetime.now(UTC).isoformat(timespec="seconds")
        self._lock.write(json.dumps(asdict(Note(plan=str(plan), made=made))))

    def fill(self, plan: Path) -> None:
        """Copy the plan's file here, safely on the disk before it bears its name.

        Raises:
            sqlite3.Error, OSError: it cannot be read or written.
        """
        part = self.path.with_name(f"{self.path.name}.part")
        with reading(plan) as source:
            target = writing(part)
            try:
                # the whole file is made safe at once, below
                target.execute("PRAGMA synchronous = OFF")
                target.execute("PRAGMA journal_mode = OFF")
                source.backup(target)
            finally:
                target.close()
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        part.replace(self.path)

    def connect(self) -> Connection:
        """Open it for edits that are kept for good before the call returns."""
        con = writing(self.path)
        con.execute("PRAGMA journal_mode = WAL")
        con.execute("PRAGMA synchronous = FULL")
        return con

    def discard(self) -> None:
        """Remove it."""
        for ending in _ENDINGS:
            self._note.with_suffix(ending).unlink(missing_ok=True)
        self._lock.release()

    def let_go(self) -> None:
        """Leave it for the next start of the program."""
        self._lock.let_go()


def new_working_copy(plan: Path) -> WorkingCopy:
    """Return an empty working copy for a plan.

    Raises:
        OSError: the folder for it cannot be written.
    """
    folder().mkdir(parents=True, exist_ok=True)
    note = folder() / f"{uuid4().hex}.json"
    lock = seize(note)
    if lock is None:  # pragma: no cover  # nobody else can know the name
        raise PlanInUse("Another program took the working copy. The plan was not opened.")
    copy = WorkingCopy(note, lock)
    copy.belongs_to(plan)
    return copy


def left_behind() -> tuple[Path, ...]:
    """Return the notes of all working copies, in use or not, oldest first."""
    notes = folder().glob("*.json") if folder().is_dir() else ()
    return tuple(sorted(notes, key=lambda note: (note.stat().st_mtime, note.name)))


def held(note: Path) -> tuple[WorkingCopy, Note | None] | None:
    """Take a working copy that was left behind, with its note; None if it is in use."""
    lock = seize(note)
    if lock is None:
        return None
    return WorkingCopy(note, lock), _note(lock.read())


def whose(note: Path) -> Note | None:
    """Return what stands beside a working copy, which may be in use; None if that is nothing.

    Raises:
        OSError: it is gone, or cannot be read.
    """
    return _note(note.read_text("utf-8", "replace"))


def _note(text: str) -> Note | None:
    try:
        told = json.loads(text)
        return Note(plan=told["plan"], made=told["made"])
    except (ValueError, KeyError, TypeError):
        return None


def folder() -> Path:
    """Return the folder of working copies on this computer."""
    return user_state_path("churchyard-plan-editor", appauthor=False) / "recovery"
