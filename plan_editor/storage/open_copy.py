"""The working copy of an open plan: every edit goes in at once, and for good."""

from collections.abc import Callable, Collection
from pathlib import Path
from threading import RLock

from plan_editor.edits.person import Person
from plan_editor.plan.document import Entry
from plan_editor.plan.item import ItemId
from plan_editor.storage import (
    digests,
    forgetting,
    history,
    loading,
    media,
    regrid,
    saving,
    settings,
    tables,
)
from plan_editor.storage.connection import reading, transaction
from plan_editor.storage.history import Tail
from plan_editor.storage.leaves import Salts, random_salt
from plan_editor.storage.saving import Saved
from plan_editor.storage.settings import Settings
from plan_editor.storage.working_copy import WorkingCopy


class OpenCopy:
    """A working copy that is being written. Any thread may use it; one waits for another.

    Attributes:
        path: the database file.
        kept: the settings as they are now.
        salt: gives the salts of the log; whoever wants the same file each time sets another.
    """

    def __init__(self, copy: WorkingCopy) -> None:
        self.path = copy.path
        self._turn = RLock()
        self._con = copy.connect()
        self._tail = Tail()
        self._fids = iter(range(0))
        self.kept = Settings()
        self.salt: Salts = random_salt

    @property
    def revision(self) -> int:
        """The number of the last log entry."""
        return self._tail.number

    def load(
        self,
        plan: Path,
        *,
        trusted: loading.Trust,
        keep_older: Callable[[], None],
        early: loading.Early | None,
    ) -> loading.Loaded:
        """Return the plan in it; see ``loading.load``.

        Raises:
            FileProblem: it is not to be opened.
        """
        found = loading.load(
            self._con, plan, trusted=trusted, keep_older=keep_older, early=early
        )
        self.kept = settings.read(self._con)
        self._tail = history.tail_of(self._con)
        self._fids = tables.next_fids(self._con)
        return found

    def write(self, entry: Entry) -> None:
        """Keep a log entry: its rows and its line in the log, both or neither.

        Raises:
            sqlite3.Error, OSError: it was not kept.
        """
        with self._turn:
            written = history.records(entry.changes)
            with transaction(self._con):
                if entry.moves_grid:
                    regrid.move(self._con, entry)
                tables.write(self._con, entry.changes, entry.grid, self._fids)
                tail = Tail(
                    number=self._tail.number,
                    items_digest=digests.after(self._tail.items_digest, written),
                    log_digest=self._tail.log_digest,
                )
                tail = history.append(self._con, entry, written, tail, self.salt)
            self._tail = tail
            if entry.moves_grid:
                self.kept = settings.read(self._con)

    def add(self, content: bytes, *, content_type: str, name: str) -> str:
        """Keep bytes and return their digest; see ``media.add``."""
        with self._turn:
            return media.add(self._con, content, content_type=content_type, name=name)

    def entries(self) -> tuple[Entry, ...]:
        """Return the whole log, oldest first."""
        with self._turn:
            return tuple(history.entries(self._con))

    def once_pointing(self, person: ItemId) -> frozenset[ItemId]:
        """Return what pointed to a contact at some time; see ``forgetting.once_pointing``."""
        with self._turn:
            return forgetting.once_pointing(self._con, person)

    def forget(self, person: Person, gone: Collection[ItemId]) -> bool:
        """Clear the log and the media of a person; see ``forgetting.clear``."""
        with self._turn:
            cleared = forgetting.clear(self._con, person, gone)
            self._tail = history.tail_of(self._con)
            return cleared

    def become(self, entry: Entry, *, name: str) -> None:
        """Become the copy of another day, under another name; nothing in it is to be saved.

        Raises:
            sqlite3.Error, OSError: it could not be written.
        """
        with self._turn:
            self.write(entry)
            settings.write(self._con, name=name, saved_revision=self._tail.number)
            self.kept = settings.read(self._con)

    def set_copies_folder(self, folder: str) -> None:
        """Keep the name of the folder for dated copies."""
        with self._turn:
            settings.write(self._con, copies_folder=folder)
            self.kept = settings.read(self._con)

    def publish(self, target: Path) -> Saved:
        """Write all of it to a file; edits may go on meanwhile. See ``saving.publish``."""
        with reading(self.path) as source:
            return saving.publish(source, target)

    def put_in_place(self, target: Path) -> Saved:
        """Write all of it over a file of which nothing is to be kept."""
        with reading(self.path) as source:
            return saving.put_in_place(source, target)

    def note(self, saved: Saved) -> None:
        """Write down that it was saved."""
        with self._turn:
            with transaction(self._con):
                saving.note(self._con, saved)
            self.kept = settings.read(self._con)

    def close(self) -> None:
        """Close it and leave it where it is."""
        with self._turn:
            self._con.close()
