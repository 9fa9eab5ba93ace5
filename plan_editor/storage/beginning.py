"""How work on a plan begins: its lock, its working copy, and the plan as it is then."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path

from plan_editor.errors import NotThere
from plan_editor.plan.change import Change
from plan_editor.plan.document import Entry
from plan_editor.plan.plan import Plan
from plan_editor.storage import copies, loading, opening, saving
from plan_editor.storage.changed_elsewhere import Differences
from plan_editor.storage.connection import reading
from plan_editor.storage.leftovers import Leftover
from plan_editor.storage.loading import Loaded
from plan_editor.storage.lock import Lock, lock_plan
from plan_editor.storage.open_copy import OpenCopy
from plan_editor.storage.problems import told
from plan_editor.storage.working_copy import WorkingCopy, held, new_working_copy

Then = Callable[[Path, Plan], Plan]
"""From a working copy, and the plan in it, to the plan of another day."""

_NOT_RECOVERED = "Its edits were not recovered; they stay where they are."


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A plan that work has begun on.

    Args:
        path: the plan's file.
        lock: who else opens it is told; None where it is only read.
        working: the working copy, to be removed when work ends.
        copy: the same, open.
        loaded: the plan.
        counter: SQLite's count of writes to the plan's file; a greater one is somebody else's.
    """

    path: Path
    lock: Lock | None
    working: WorkingCopy
    copy: OpenCopy
    loaded: Loaded
    counter: int


def begin(path: Path, *, read_only: bool, take_over: bool) -> Begun:
    """Open a plan; see ``PlanFile.open``.

    The tables are read from the file itself, in which nobody can write meanwhile, while another
    thread copies it; what was read counts if the copy turns out to be the same.
    """
    path = path.resolve()
    with told(path, "It was not opened."), ExitStack() as undo:
        opening.check_file(path)
        lock = None if read_only else lock_plan(path, take_over=take_over)
        if lock is not None:
            undo.callback(lock.release)
        working = new_working_copy(path)
        undo.callback(working.discard)
        with ThreadPoolExecutor(max_workers=1) as beside:
            copied = beside.submit(loading.copy_whole, path, working)
            early = loading.read_early(path)
            copied.result()
        copy = OpenCopy(working)
        undo.callback(copy.close)
        loaded = copy.load(
            path,
            trusted=lambda kept: loading.untouched(path, kept.file_counter),
            keep_older=lambda: None if read_only else copies.keep_older_format(path),
            early=early,
        )
        counter = saving.counter_of(path)
        undo.pop_all()
    return Begun(
        path=path, lock=lock, working=working, copy=copy, loaded=loaded, counter=counter
    )


def begin_again(leftover: Leftover, *, at: Path | None, take_over: bool) -> Begun:
    """Open what a crash left behind; see ``PlanFile.recover``."""
    path = leftover.plan if at is None else at.resolve()
    with told(path, _NOT_RECOVERED), ExitStack() as undo:
        lock = lock_plan(path, take_over=take_over)
        undo.callback(lock.release)
        taken = held(leftover.working_copy.with_suffix(".json"))
        if taken is None:
            raise NotThere(
                f"Another program has taken up the edits of {path.name} left behind."
                f" {_NOT_RECOVERED} Look for its window."
            )
        working, _ = taken
        undo.callback(working.let_go)
        with reading(working.path) as con:
            opening.check_whole(con, path)
        copy = OpenCopy(working)
        undo.callback(copy.close)
        # nobody vouches for a copy that was left behind: it is compared with its own log
        loaded = copy.load(path, trusted=lambda _: False, keep_older=lambda: None, early=None)
        undo.pop_all()
    working.belongs_to(path)
    return Begun(
        path=path,
        lock=lock,
        working=working,
        copy=copy,
        loaded=loaded,
        counter=copy.kept.file_counter,
    )


def begin_then(path: Path, working_copy: Path, then: Then) -> Begun:
    """Make a copy of another day, only to be read; see ``PlanFile.of_another_day``."""
    with told(path, "That day was not shown."), ExitStack() as undo:
        working = new_working_copy(path)
        undo.callback(working.discard)
        loading.copy_whole(working_copy, working)
        copy = OpenCopy(working)
        undo.callback(copy.close)
        now = copy.load(path, trusted=lambda _: True, keep_older=lambda: None, early=None).plan
        plan = replace(then(working.path, now), revision=now.revision + 1)
        copy.become(_turned(now, plan), name=plan.name)
        undo.pop_all()
    return Begun(
        path=path,
        lock=None,
        working=working,
        copy=copy,
        loaded=Loaded(plan=plan, differences=Differences()),
        counter=0,
    )


def _turned(now: Plan, plan: Plan) -> Entry:
    """Return the log entry that makes one plan of another."""
    ids = dict.fromkeys((*now.items, *plan.items))
    changes = (Change(now.items.get(i), plan.items.get(i)) for i in ids)
    return Entry(
        number=plan.revision,
        title=plan.name,
        author="",
        when="",
        changes=tuple(c for c in changes if c.before != c.after),
        grid_before=now.grid,
        grid=plan.grid,
    )
