"""The plan's file as it is being worked on: open it, keep every edit, save, close."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import RLock

from plan_editor.errors import NotAllowed
from plan_editor.plan.change import Change
from plan_editor.plan.document import Entry
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.storage import copies, creating, loading
from plan_editor.storage.beginning import Begun, Then, begin, begin_again, begin_then
from plan_editor.storage.leftovers import Leftover
from plan_editor.storage.open_copy import OpenCopy
from plan_editor.storage.other_name import put_under, write_copy
from plan_editor.storage.problems import told
from plan_editor.storage.saving import Saved
from plan_editor.storage.unchanged import refuse_if_changed
from plan_editor.survey.grids.grid import Grid

_NOT_SAVED = "It was not saved; every edit is safe and nothing is lost."
_OTHER_NAME = "Choose another name."
_NOT_MADE = "The last step was not made, and nothing was changed."


class PlanFile:
    """An open plan: its working copy, its lock, and how the file was when it was opened.

    It is the journal of a document, and its media. Any thread may use it, one at a time.

    Attributes:
        path: the plan's file.
        plan: the plan as it was read; a document keeps the one that is being worked on.
        changed_elsewhere: what another program did to the tables, to be taken in as one edit
            or refused; the plan does not have it.
        remarks: sentences about what another program did and the plan cannot take in.
        of_day: what it shows, where it is a copy of another day; else empty.
        doubtful: what it shows though nobody knows whether it was there on that day.
    """

    def __init__(self, begun: Begun, *, of_day: str = "") -> None:
        differences = begun.loaded.differences
        self.path = begun.path
        self.of_day = of_day
        self.doubtful: tuple[ItemId, ...] = ()
        self.plan: Plan = begun.loaded.plan
        self.changed_elsewhere: tuple[Change, ...] = differences.changes
        self.remarks: tuple[str, ...] = differences.remarks
        self._lock = begun.lock
        self._working = begun.working
        self._copy = begun.copy
        self._counter = begun.counter
        self._closed = False
        self._saving = RLock()  # one Save at a time, and none while it is being closed

    @classmethod
    def create(cls, path: Path, *, name: str, grid: Grid) -> "PlanFile":
        """Write the file of an empty plan and open it.

        Raises:
            NotAllowed: there is a file of that name, or the folder cannot be written.
            CannotUse: the grid's coordinate system is unknown or not in metres.
            FileProblem: it could not be written.
        """
        path = Path(path).resolve()
        with told(path, "No plan was made."):
            creating.create(path, name=name, grid=grid)
        return cls.open(path)

    @classmethod
    def open(
        cls, path: Path, *, read_only: bool = False, take_over: bool = False
    ) -> "PlanFile":
        """Open a plan.

        Args:
            path: its file.
            read_only: do not lock it, and write nothing; always possible.
            take_over: open it although another computer's lock was left beside it.

        Raises:
            PlanInUse: somebody has it open.
            FileProblem: it is not there, not a plan, damaged, newer, or not to be trusted.
        """
        return cls(begin(Path(path), read_only=read_only, take_over=take_over))

    @classmethod
    def recover(
        cls, leftover: Leftover, *, at: Path | None = None, take_over: bool = False
    ) -> "PlanFile":
        """Open what a crash left behind; its edits are there, and still to be saved.

        Args:
            leftover: one of ``leftovers()``.
            at: where it is to be saved, if not at its old place, which may be gone.
            take_over: although another computer's lock was left there.

        Raises:
            PlanInUse: somebody has the plan open.
            NotThere: another program has taken up the leftover.
            FileProblem: it cannot be read.
        """
        return cls(begin_again(leftover, at=at, take_over=take_over))

    @classmethod
    def of_another_day(
        cls, path: Path, working_copy: Path, then: Then, *, of_day: str
    ) -> "PlanFile":
        """Open a copy of another day's plan to be read.

        Args:
            path: the plan's file.
            working_copy: what is copied.
            then: makes that day's plan, with its name, of the one in the copy.
            of_day: what it shows, in words.

        Raises:
            FileProblem: it could not be copied, or its history is damaged.
        """
        return cls(begin_then(path, working_copy, then), of_day=of_day)

    def __enter__(self) -> "PlanFile":
        return self

    def __exit__(self, *raised: object) -> None:
        self.close()

    @property
    def working_copy(self) -> Path:
        """The working copy; others may read it with ``read_plan`` and ``read_media``."""
        return self._copy.path

    @property
    def read_only(self) -> bool:
        """Whether nothing may be written; somebody else may have the plan open."""
        return self._lock is None

    @property
    def unsaved(self) -> bool:
        """Whether there are edits that the plan's file does not have."""
        return self._copy.revision != self._copy.kept.saved_revision

    @property
    def copies_folder(self) -> str:
        """The folder to which a dated copy goes at every Save; empty for none."""
        return self._copy.kept.copies_folder

    def keep_copies_in(self, folder: str) -> None:
        """Name the folder for dated copies, or none with an empty text.

        It is in the plan's file from the next Save on.

        Raises:
            NotAllowed: the plan is open read-only.
        """
        self._check_writable(_NOT_MADE)
        with told(self.path, _NOT_MADE):
            self._copy.set_copies_folder(folder)

    def write(self, entry: Entry) -> None:
        """Keep a log entry for good: its rows and its line in the log, both or neither.

        Raises:
            NoRoom, NotAllowed, DamagedPlan: it was not kept, and nothing was changed.
        """
        self._check_writable(_NOT_MADE)
        with told(self.path, _NOT_MADE):
            self._copy.write(entry)

    def read(self, digest: str) -> bytes:
        """Return the bytes with that SHA-256 digest, in hexadecimal.

        Raises:
            DamagedPlan: they are not there, or not what they were.
        """
        return loading.read_media(self.working_copy, digest, plan=self.path)

    def add(self, content: bytes, *, content_type: str, name: str) -> str:
        """Keep bytes and return their digest; the same bytes are kept once.

        Raises:
            NoRoom, NotAllowed: they were not kept.
        """
        self._check_writable(_NOT_MADE)
        with told(self.path, _NOT_MADE):
            return self._copy.add(content, content_type=content_type, name=name)

    def entries(self) -> tuple[Entry, ...]:
        """Return the whole log, oldest first; see ``storage.log`` for parts of it."""
        with told(self.path, "Its history was not read."):
            return self._copy.entries()

    def save(self, *, overwrite: bool = False) -> tuple[str, ...]:
        """Replace the plan's file, whole; the previous one is kept as ``.bak``.

        Args:
            overwrite: also if somebody else saved meanwhile.

        Returns:
            Sentences about what did not go well besides: a dated copy that could not be made.

        Raises:
            ChangedElsewhere: the file is no longer the one that was opened.
            NoRoom, NotAllowed: it could not be written; it is as it was.
        """
        self._check_writable(_NOT_SAVED)
        with self._saving, told(self.path, _NOT_SAVED):
            if not overwrite:
                self.refuse_if_changed()
            self.note(self._copy.publish(self.path))
            return copies.keep(self.path, self.copies_folder)

    def save_as(self, path: Path) -> tuple[str, ...]:
        """Save under another name and work on there.

        A file of that name is replaced, and kept as ``.bak``.

        Raises:
            PlanInUse: somebody has a plan of that name open.
            NoRoom, NotAllowed: it could not be written, or another day would take the place of
                the plan of today; nothing was changed.
        """
        path = Path(path).resolve()
        if path == self.path and not self.read_only:
            return self.save(overwrite=True)
        if path == self.path and self.of_day:
            raise NotAllowed(f"{path.name} is the plan of today. {_NOT_SAVED} {_OTHER_NAME}")
        with self._saving, told(path, _NOT_SAVED):
            with put_under(self._copy, path) as (lock, saved):
                self.note(saved)
            before, self.path, self._lock = self._lock, path, lock
            self._working.belongs_to(path)
            if before is not None:
                before.release()
            return copies.keep(self.path, self.copies_folder)

    def save_copy(self, path: Path) -> None:
        """Write a copy and go on working on the plan itself.

        Raises:
            NotAllowed: it is the plan's own file, or it could not be written.
            PlanInUse: somebody has a plan of that name open.
        """
        path = Path(path).resolve()
        if path == self.path:
            raise NotAllowed(
                f"{path.name} is the plan itself; no copy was written. {_OTHER_NAME}"
            )
        with self._saving, told(path, "No copy was written."):
            write_copy(self._copy, path)

    def close(self) -> None:
        """Give the plan free and remove the working copy; edits that are not saved are gone."""
        with self._saving:
            if self._closed:
                return
            self._closed = True
            self._copy.close()
            self._working.discard()
            if self._lock is not None:
                self._lock.release()

    @contextmanager
    def alone(self, undone: str) -> Iterator[OpenCopy]:
        """Give the working copy to be written while nobody saves; errors end with a sentence.

        Raises:
            NotAllowed: the plan is open read-only.
            FileProblem: what was done with it failed.
        """
        self._check_writable(undone)
        with self._saving, told(self.path, undone):
            yield self._copy

    def refuse_if_changed(self) -> None:
        """Let nobody write over what somebody else saved meanwhile.

        Raises:
            ChangedElsewhere: the file is no longer the one that was opened.
            FileProblem: it cannot be looked at.
        """
        with told(self.path, "Nothing was changed."):
            refuse_if_changed(self.path, self._counter, self._copy.kept.save_id)

    def note(self, saved: Saved) -> None:
        """Write down that the working copy was saved to the plan's file."""
        self._copy.note(saved)
        self._counter = saved.counter

    def _check_writable(self, undone: str) -> None:
        if self.read_only:
            raise NotAllowed(
                f"{self.path.name} is open read-only. {undone} Save it under another name to"
                " work on it."
            )
