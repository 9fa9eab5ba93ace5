"""A plan out of its file: checked, brought up to date, compared with the log."""

from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from plan_editor.errors import DamagedPlan, FileProblem
from plan_editor.plan.plan import Plan
from plan_editor.storage import (
    changed_elsewhere,
    history,
    media,
    opening,
    saving,
    settings,
    tables,
)
from plan_editor.storage.changed_elsewhere import Differences
from plan_editor.storage.connection import Connection, reading, transaction
from plan_editor.storage.history import Tail
from plan_editor.storage.problems import told
from plan_editor.storage.reading import Found, plan_from, read_tables, read_with_newcomers
from plan_editor.storage.settings import Settings
from plan_editor.storage.upgrade import upgrade, upgrades
from plan_editor.storage.working_copy import WorkingCopy, folder, new_working_copy

Trust = Callable[[Settings], bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """A plan as its log tells it, and how the tables differed from that."""

    plan: Plan
    differences: Differences


@dataclass(frozen=True, slots=True, kw_only=True)
class Early:
    """What was read from a file while it was copied, and by which to know the copy again."""

    kept: Settings
    tail: Tail
    loaded: Loaded


def read_early(path: Path) -> Early | None:
    """Return what a file's tables hold, or None where anything about it is unusual.

    What is unusual is looked at once more, and told, when the copy is loaded.
    """
    with suppress(FileProblem, ValueError), told(path, ""), reading(path) as con:
        con.execute("BEGIN")  # nobody may write in between
        opening.check_content(con, path)
        kept = settings.read(con)
        if kept.format == settings.FORMAT and untouched(path, kept.file_counter):
            return Early(kept=kept, tail=history.tail_of(con), loaded=_as_it_is(con))
    return None


def copy_whole(path: Path, working: WorkingCopy) -> None:
    """Copy a file to its working copy and look through all pages of that.

    Raises:
        FileProblem: it cannot be copied, or is damaged.
    """
    with told(path, "It was not opened."):
        working.fill(path)
        with reading(working.path) as con:
            opening.check_whole(con, path)


def load(
    con: Connection,
    path: Path,
    *,
    trusted: Trust,
    keep_older: Callable[[], None],
    early: Early | None = None,
) -> Loaded:
    """Return the plan in a whole copy of a file, and bring the copy up to date.

    Args:
        con: open for writing on the copy.
        path: the file that the user knows.
        trusted: whether the tables are what the last Save wrote, by what the file keeps about
            itself; else they are compared with the log.
        keep_older: called before a file of an older version is changed.
        early: what was read already.

    Raises:
        FileProblem: it is not to be opened.
    """
    opening.check_content(con, path)
    try:
        older = settings.read(con).format < settings.FORMAT
        if older:
            keep_older()
        kept = bring_up_to_date(con)
        if older or not trusted(kept):
            return _compared(con, read_with_newcomers(con, kept.grid))
        if early is not None and (early.kept, early.tail) == (kept, history.tail_of(con)):
            return early.loaded
        return _as_it_is(con)
    except ValueError as error:
        raise DamagedPlan(f"{path.name} is damaged: {error}. {opening.RESTORE}") from error


def read_plan(path: Path) -> Plan:
    """Return the plan in a file, without lock or working copy; nothing is written.

    What another program wrote to the tables is left out until it is taken in.

    Raises:
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    return read_with_differences(path).plan


def read_with_differences(path: Path) -> Loaded:
    """Return the plan in a file, as ``read_plan``, and what another program did to its tables.

    Raises:
        FileProblem: it is not there, not a plan, damaged, or not to be trusted.
    """
    path = Path(path).resolve()
    with told(path, "It was not opened."):
        opening.check_file(path)
        with reading(path) as con:
            opening.check_whole(con, path)
        if (early := read_early(path)) is not None:
            return early.loaded
        with copied(path) as copy:
            return load(copy, path, trusted=lambda _: False, keep_older=lambda: None)


@contextmanager
def copied(path: Path) -> Iterator[Connection]:
    """Give a working copy of a file that may be written to, for a while.

    Raises:
        FileProblem: it cannot be copied, or is damaged.
    """
    working = new_working_copy(path)
    try:
        copy_whole(path, working)
        with closing(working.connect()) as con:
            yield con
    finally:
        working.discard()


def read_media(path: Path, digest: str, *, plan: Path | None = None) -> bytes:
    """Return the bytes with that SHA-256 digest out of a plan's file or a working copy.

    Args:
        path: the file.
        digest: in hexadecimal.
        plan: the file that the user knows, where ``path`` is its working copy.

    Raises:
        DamagedPlan: they are not there, or not what they were.
        FileProblem: the file cannot be read.
    """
    with told(plan or path, "The picture or paper was not read."), reading(path) as con:
        return media.content(con, digest)


def untouched(path: Path, counter: int) -> bool:
    """Return whether no other program has written to a file since it was saved.

    Into the folder of working copies no other program writes.
    """
    if path.parent == folder().resolve():
        return True
    pending = (path.with_name(f"{path.name}{e}") for e in ("-wal", "-journal"))
    return saving.counter_of(path) == counter and not any(p.exists() for p in pending)


def bring_up_to_date(con: Connection) -> Settings:
    """Take the steps from an older version and make the tables that are lacking.

    Raises:
        ValueError: no steps lead to this version.
    """
    if settings.read(con).format < settings.FORMAT:
        upgrade(con, upgrades(), settings.FORMAT)
    kept = settings.read(con)
    with transaction(con):
        tables.ensure(con, kept.grid.epsg or -1)
        media.ensure_mappings(con)
    return kept


def _as_it_is(con: Connection) -> Loaded:
    found = read_tables(con, settings.read(con).grid)
    return Loaded(plan=plan_from(con, found), differences=Differences(odd=found.odd))


def _compared(con: Connection, found: Found) -> Loaded:
    differences = changed_elsewhere.compared(con, found)
    if differences != Differences():
        grid = settings.read(con).grid
        with transaction(con):
            changed_elsewhere.put_back(con, found, differences.odd, grid)
        found = read_tables(con, grid)
    return Loaded(plan=plan_from(con, found), differences=differences)
