"""The plan's file as it is being worked on: open it, keep every edit, save, close."""

from collections import defaultdict
from contextlib import ExitStack
from pathlib import Path
from threading import RLock
from types import TracebackType
from typing import Any

from plan_editor.errors import ChangedElsewhere, NotAllowed, NotThere
from plan_editor.plan.change import Change
from plan_editor.plan.document import Entry
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan
from plan_editor.storage import (
    copies,
    creating,
    digests,
    history,
    loading,
    media,
    opening,
    saving,
    settings,
    tables,
    working_copy,
)
from plan_editor.storage.connection import Connection, reading, transaction
from plan_editor.storage.leftovers import Leftover
from plan_editor.storage.lock import Lock, lock_plan
from plan_editor.storage.problems import told
from plan_editor.storage.saving import Saved
from plan_editor.storage.working_copy import WorkingCopy, new_working_copy
from plan_editor.survey.grid import Grid

_NOT_OPENED = "It was not opened."
_NOT_SAVED = "It was not saved; every edit is safe and nothing is lost."
_NOT_MADE = "The last step was not made, and nothing was changed."


class PlanFile:
    """An open plan: its working copy, its lock, and how the file was when it was opened.

    It is the journal of a document, and its media. Any thread may use it; one waits for another.

    Attributes:
        path: the plan's file.
        plan: the plan as it was read; a document keeps the one that is being worked on.
        read_only: whether somebody else has it open, or nothing may be written.
        changed_elsewhere: what another program did to the tables, to be taken in as one edit or refused; the
            plan does not have it.
        remarks: sentences about rows and changes of another program that the plan cannot take in.
    """

    def __init__(
        self, path: Path, copy: WorkingCopy, lock: Lock | None, found: loading.Loaded
    ) -> None:
        self.path = path
        self.plan: Plan = found.plan
        self.read_only = lock is None
        self.changed_elsewhere: tuple[Change, ...] = found.differences.changes
        self.remarks: tuple[str, ...] = (
            *(row.told() for row in found.differences.odd),
            *found.differences.notes,
        )
        self._copy = copy
        self._lock = lock
        self._turn = RLock()
        self._con: Connection = copy.connect()
        self._kept = settings.read(self._con)
        self._tail = history.tail_of(self._con)
        self._fids = tables.next_fids(self._con)
        self._counter = saving.counter_of(path) if path.exists() else 0

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
            if path.exists():
                raise NotAllowed(
                    f"There is a file {path.name} already. No plan was made."
                    " Choose another name."
                )
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
        path = Path(path).resolve()
        with told(path, _NOT_OPENED), ExitStack() as undo:
            opening.check_file(path)
            lock = None if read_only else lock_plan(path, take_over=take_over)
            if lock is not None:
                undo.callback(lock.release)
            copy = new_working_copy(path)
            undo.callback(copy.discard)
            copy.fill(path)
            return cls._loaded(path, copy, lock, undo)

    @classmethod
    def recover(cls, leftover: Leftover, *, take_over: bool = False) -> "PlanFile":
        """Open what a crash left behind; its edits are there, and still to be saved.

        Raises:
            PlanInUse: somebody has the plan open, or has taken up the leftover.
            FileProblem: it cannot be read.
        """
        path = leftover.plan
        with told(leftover.working_copy, "It was not recovered."), ExitStack() as undo:
            lock = lock_plan(path, take_over=take_over)
            undo.callback(lock.release)
            taken = working_copy.held(leftover.working_copy.with_suffix(".json"))
            if taken is None:
                raise NotThere(
                    f"Another program has taken up the edits of {path.name} left behind."
                    " They were not recovered here. Look for its window."
                )
            undo.callback(taken[0].let_go)
            return cls._loaded(path, taken[0], lock, undo)

    @classmethod
    def _loaded(
        cls, path: Path, copy: WorkingCopy, lock: Lock | None, undo: ExitStack
    ) -> "PlanFile":
        con = copy.connect()
        try:
            older = copies.keep_older_format
            found = loading.load(
                con, path, keep_older=lambda: None if lock is None else older(path)
            )
        finally:
            con.close()
        opened = cls(path, copy, lock, found)
        undo.pop_all()
        return opened

    def __enter__(self) -> "PlanFile":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    @property
    def working_copy(self) -> Path:
        """The working copy, which other processes may read with ``read_plan`` and ``read_media``."""
        return self._copy.path

    @property
    def unsaved(self) -> bool:
        """Whether there are edits that the plan's file does not have."""
        return self._tail.number != self._kept.saved_revision

    @property
    def copies_folder(self) -> str:
        """The folder to which a dated copy goes at every Save; empty for none."""
        return self._kept.copies_folder

    def keep_copies_in(self, folder: str) -> None:
        """Name the folder for dated copies, or none with an empty text; it is kept with the next Save.

        Raises:
            NotAllowed: the plan is open read-only.
        """
        self._check_writable(_NOT_MADE)
        with self._turn, told(self.path, _NOT_MADE):
            settings.write(self._con, copies_folder=folder)
            self._kept = settings.read(self._con)

    def write(self, entry: Entry) -> None:
        """Keep a log entry for good: its rows and its line in the log, both or neither.

        Raises:
            NoRoom, NotAllowed, DamagedPlan: it was not kept, and nothing was changed.
        """
        self._check_writable(_NOT_MADE)
        with self._turn, told(self.path, _NOT_MADE):
            written = history.records(entry.changes)
            tail = history.Tail(
                number=self._tail.number,
                items_digest=digests.after(self._tail.items_digest, written),
                log_digest=self._tail.log_digest,
            )
            with transaction(self._con):
                self._write_rows(entry.changes)
                tail = history.append(self._con, entry, self.plan.grid, written, tail)
            self._tail = tail

    def read(self, digest: str) -> bytes:
        """Return the bytes with that SHA-256 digest, in hexadecimal.

        Raises:
            DamagedPlan: they are not there, or not what they were.
        """
        return read_media(self.working_copy, digest, plan=self.path)

    def add(self, content: bytes, *, content_type: str, name: str) -> str:
        """Keep bytes and return their digest; the same bytes are kept once.

        Raises:
            NoRoom, NotAllowed: they were not kept.
        """
        self._check_writable(_NOT_MADE)
        if len(content) > media.MOST:
            raise NotAllowed(
                f"{name} is larger than 1 GB and cannot be kept in a plan. Nothing was changed."
                " Reduce it first."
            )
        with self._turn, told(self.path, _NOT_MADE):
            return media.add(self._con, content, content_type=content_type, name=name)

    def entries(self) -> tuple[Entry, ...]:
        """Return the whole log, oldest first.

        Raises:
            DamagedPlan: it cannot be read.
        """
        with self._turn, told(self.path, "Its history was not read."):
            return tuple(history.entries(self._con))

    def save(self, *, overwrite: bool = False) -> tuple[str, ...]:
        """Replace the plan's file by what the working copy holds; the previous one is kept as ``.bak``.

        Args:
            overwrite: also if somebody else saved meanwhile.

        Returns:
            Sentences about what did not go well besides: a dated copy that could not be made.

        Raises:
            ChangedElsewhere: the file is no longer the one that was opened.
            NoRoom, NotAllowed: it could not be written; it is as it was.
        """
        self._check_writable(_NOT_SAVED)
        with self._turn, told(self.path, _NOT_SAVED):
            if not overwrite:
                self._refuse_if_changed()
            self._note(self._publish(self.path))
        return self._dated_copy()

    def save_as(self, path: Path) -> tuple[str, ...]:
        """Save under another name, and work on there; a file of that name is replaced, and kept as ``.bak``.

        Raises:
            PlanInUse: somebody has a plan of that name open.
            NoRoom, NotAllowed: it could not be written; nothing was changed.
        """
        path = Path(path).resolve()
        if path == self.path:
            return self.save(overwrite=True)
        with self._turn, told(path, _NOT_SAVED), ExitStack() as undo:
            lock = lock_plan(path, take_over=False)
            undo.callback(lock.release)
            saved = self._publish(path)
            undo.pop_all()
            if self._lock is not None:
                self._lock.release()
            self.path, self._lock, self.read_only = path, lock, False
            self._copy.belongs_to(path)
            self._note(saved)
        return self._dated_copy()

    def save_copy(self, path: Path) -> None:
        """Write a copy and go on working on the plan itself.

        Raises:
            NotAllowed: it is the plan's own file, or it could not be written.
            PlanInUse: somebody has a plan of that name open.
        """
        path = Path(path).resolve()
        if path == self.path:
            raise NotAllowed(
                f"{path.name} is the plan itself; no copy was written. Choose another name."
            )
        with self._turn, told(path, "No copy was written."):
            lock = lock_plan(path, take_over=False)
            try:
                self._publish(path)
            finally:
                lock.release()

    def close(self) -> None:
        """Give the plan free and remove the working copy; edits that are not saved are gone."""
        with self._turn:
            self._con.close()
            self._copy.discard()
            if self._lock is not None:
                self._lock.release()
                self._lock = None

    def _write_rows(self, changes: tuple[Change, ...]) -> None:
        gone: dict[Kind, list[str]] = defaultdict(list)
        come: dict[Kind, list[tuple[int, Item[Any]]]] = defaultdict(list)
        stay: dict[Kind, list[Item[Any]]] = defaultdict(list)
        for change in changes:
            if change.before is not None and change.after is None:
                gone[change.before.kind].append(change.id)
            elif change.after is not None and change.before is None:
                come[change.after.kind].append((next(self._fids), change.after))
            elif change.after is not None:
                stay[change.after.kind].append(change.after)
        for kind, ids in gone.items():
            tables.delete(self._con, kind, ids)
        for kind, items in stay.items():
            tables.update(self._con, kind, items, self.plan.grid)
        for kind, numbered in come.items():
            tables.insert(self._con, kind, numbered, self.plan.grid)

    def _publish(self, path: Path) -> Saved:
        with reading(self.working_copy) as source:
            return saving.publish(source, path)

    def _note(self, saved: Saved) -> None:
        with transaction(self._con):
            saving.note(self._con, saved)
        self._kept = settings.read(self._con)
        self._counter = saved.counter

    def _dated_copy(self) -> tuple[str, ...]:
        if not self.copies_folder:
            return ()
        remark = copies.keep(self.path, self.copies_folder)
        return (remark,) if remark else ()

    def _refuse_if_changed(self) -> None:
        if not self.path.exists():
            return
        if saving.counter_of(self.path) == self._counter:
            with reading(self.path) as con:
                if settings.read(con).save_id == self._kept.save_id:
                    return
        raise ChangedElsewhere(
            f"Somebody else has written to {self.path.name} since it was opened here. It was not"
            " saved; every edit is safe. Save under another name, or over the other's work."
        )

    def _check_writable(self, undone: str) -> None:
        if self.read_only:
            raise NotAllowed(
                f"{self.path.name} is open read-only. {undone} Save it under another name to"
                " work on it."
            )


def read_media(path: Path, digest: str, *, plan: Path | None = None) -> bytes:
    """Return the bytes with that SHA-256 digest out of a plan's file or a working copy.

    Raises:
        DamagedPlan: they are not there, or not what they were.
        FileProblem: the file cannot be read.
    """
    with told(plan or path, "The picture or paper was not read."), reading(path) as con:
        return media.content(con, digest)
