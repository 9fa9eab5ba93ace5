"""Working copies that a crash left behind, with edits that were never saved."""

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from plan_editor.errors import FileProblem
from plan_editor.storage import history, settings, working_copy
from plan_editor.storage.connection import reading
from plan_editor.storage.history import Tail
from plan_editor.storage.problems import told
from plan_editor.storage.working_copy import Note, WorkingCopy


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftover:
    """A working copy with edits that were never saved.

    Args:
        working_copy: the file itself.
        plan: the plan that it belongs to.
        name: what the ground is called; empty where the copy cannot be read.
        when: ISO date and time, UTC, of the last edit.
        entries: how many log entries were not saved; 0 where the copy cannot be read.
    """

    working_copy: Path
    plan: Path
    name: str
    when: str
    entries: int

    def discard(self) -> None:
        """Remove it for good, unless a program has taken it up meanwhile."""
        found = working_copy.held(self.working_copy.with_suffix(".json"))
        if found is not None:
            found[0].discard()


def leftovers() -> tuple[Leftover, ...]:
    """Return what crashes left behind, oldest first; copies without unsaved edits are removed.

    Copies that a program still holds are not offered.
    """
    found = (_examined(note) for note in working_copy.left_behind())
    return tuple(leftover for leftover in found if leftover is not None)


def _examined(note: Path) -> Leftover | None:
    taken = working_copy.held(note)
    if taken is None:
        return None
    copy, told_beside = taken
    leftover = _leftover(copy, told_beside) if copy.path.exists() and told_beside else None
    if leftover is None:
        copy.discard()
    else:
        copy.let_go()
    return leftover


def _leftover(copy: WorkingCopy, beside: Note) -> Leftover | None:
    plan = Path(beside.plan)
    try:
        with told(copy.path, ""), reading(copy.path) as con:
            kept = settings.read(con)
            tail = history.tail_of(con)
            when = history.when_of(con, tail.number)
    except (FileProblem, ValueError):
        # it may still be mended by hand, so it is offered and not removed
        return Leftover(working_copy=copy.path, plan=plan, name="", when=beside.made, entries=0)
    if tail.number == kept.saved_revision or _tail_in(plan) == tail:
        return None
    return Leftover(
        working_copy=copy.path,
        plan=plan,
        name=kept.name,
        when=when or beside.made,
        entries=tail.number - kept.saved_revision,
    )


def _tail_in(plan: Path) -> Tail | None:
    # the program may have died between the Save and writing down that it was done
    with suppress(FileProblem):
        if plan.exists():
            with told(plan, ""), reading(plan) as con:
                return history.tail_of(con)
    return None
