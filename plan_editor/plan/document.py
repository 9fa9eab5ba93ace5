"""The plan being worked on: apply, undo, redo, log."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Protocol

from plan_editor.plan.change import Change
from plan_editor.plan.checks import checked
from plan_editor.plan.edit import Edit, MovesGrid, TakesBack
from plan_editor.plan.index import Index
from plan_editor.plan.plan import Plan
from plan_editor.plan.signal import Signal
from plan_editor.survey.grids.grid import Grid


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the log: an edit that was made, or one that was taken back.

    Args:
        number: 1 for the first; the plan's revision after it.
        title: as the undo menu says it.
        author: who made it.
        when: ISO date and time, UTC.
        changes: each item once at most, so that their order cannot matter; each is told before
            in the one grid and after in the other.
        grid_before: in which the plan lay until then.
        grid: in which it lies from then on; the same but for an edit that moves the whole plan.
        takes_back: the number of the entry that this one undoes, or of an earlier one that it
            takes back; or None.
    """

    number: int
    title: str
    author: str
    when: str
    changes: tuple[Change, ...]
    grid_before: Grid
    grid: Grid
    takes_back: int | None = None

    @property
    def moves_grid(self) -> bool:
        """Whether the plan lies in another grid from then on."""
        return self.grid != self.grid_before


class Journal(Protocol):
    """Where log entries are kept. The plan's file implements it."""

    def write(self, entry: Entry) -> None:
        """Keep an entry for good before returning.

        Raises:
            FileProblem: it was not kept, and nothing was changed.
        """
        ...


class Document:
    """One plan being worked on.

    One edit is one log entry, one undo step, one transaction, one notice.
    """

    def __init__(
        self,
        plan: Plan,
        *,
        journal: Journal | None = None,
        author: str = "",
        clock: Callable[[], datetime] | None = None,
    ) -> None:
        self.plan = plan
        self.index = Index(plan)
        self.changed: Signal[tuple[Change, ...]] = Signal()
        self._journal = journal
        self._author = author
        self._clock = clock or (lambda: datetime.now(UTC))
        self._done: list[Entry] = []
        self._undone: list[Entry] = []
        self._telling = False

    @property
    def undo_title(self) -> str | None:
        """What undo would take back, or None."""
        return self._done[-1].title if self._done else None

    @property
    def redo_title(self) -> str | None:
        """What redo would do again, or None."""
        return self._undone[-1].title if self._undone else None

    def apply(self, edit: Edit) -> Entry | None:
        """Make an edit; return its log entry, or None where it changes nothing.

        Raises:
            EditRefused: the plan cannot take it; nothing was changed.
            FileProblem: it could not be kept; nothing was changed.
        """
        entry = self._applied(edit)
        if entry is not None:
            self._done.append(entry)
            self._undone.clear()
            self._tell(entry)
        return entry

    def apply_for_good(self, edit: Edit) -> Entry | None:
        """Make an edit, as ``apply``, after which nothing can be undone or redone any more."""
        entry = self._applied(edit)
        if entry is not None:
            self._done.clear()
            self._undone.clear()
            self._tell(entry)
        return entry

    def undo(self) -> Entry | None:
        """Take back the last edit; return its log entry, or None where there is nothing."""
        if not self._done:
            return None
        last = self._done[-1]
        back = tuple(c.reversed() for c in last.changes)
        entry = self._entry(last.title, back, last.grid_before, takes_back=last.number)
        self._make(entry)
        self._undone.append(self._done.pop())
        self._tell(entry)
        return entry

    def redo(self) -> Entry | None:
        """Do again what undo took back; return its log entry, or None where there is none."""
        if not self._undone:
            return None
        again = self._undone[-1]
        entry = self._entry(again.title, again.changes, again.grid, again.takes_back)
        self._make(entry)
        self._undone.pop()
        self._done.append(entry)
        self._tell(entry)
        return entry

    def _applied(self, edit: Edit) -> Entry | None:
        changes = tuple(c for c in edit.changes(self.plan) if c.before != c.after)
        grid = edit.grid_after(self.plan) if isinstance(edit, MovesGrid) else self.plan.grid
        if not changes and grid == self.plan.grid:
            return None
        changes = checked(self.plan, changes, self.index.numbered)
        back = edit.takes_back if isinstance(edit, TakesBack) else None
        entry = self._entry(edit.title, changes, grid, takes_back=back)
        self._make(entry)
        return entry

    def _entry(
        self, title: str, changes: Iterable[Change], grid: Grid, takes_back: int | None = None
    ) -> Entry:
        return Entry(
            number=self.plan.revision + 1,
            title=title,
            author=self._author,
            when=self._clock().isoformat(timespec="seconds"),
            changes=tuple(changes),
            takes_back=takes_back,
            grid_before=self.plan.grid,
            grid=grid,
        )

    def _make(self, entry: Entry) -> None:
        if self._telling:
            raise RuntimeError("an edit was made while the last one was being announced")
        after = self.plan.after(entry.changes, entry.grid)
        after = replace(after, revision=entry.number)
        if self._journal is not None:
            self._journal.write(entry)
        self.plan = after
        self.index.follow(entry.changes)

    def _tell(self, entry: Entry) -> None:
        self._telling = True
        try:
            self.changed.emit(entry.changes)
        finally:
            self._telling = False
