"""Copies of a plan in reach, cleared of a person, and those that could not be cleared."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from plan_editor.edits.forgetting import ForgetPerson, papers_of
from plan_editor.edits.person import Person, person_of
from plan_editor.errors import NotAllowed, PlanEditorError, PlanInUse
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.storage import copies, forgetting, loading, opening, saving, working_copy
from plan_editor.storage.changed_elsewhere import Differences
from plan_editor.storage.connection import reading
from plan_editor.storage.open_copy import OpenCopy
from plan_editor.storage.problems import fitting, told
from plan_editor.storage.working_copy import WorkingCopy

_LEFT = "The person was not forgotten there."
_IN_USE = (
    f"Another window shows this plan, perhaps of another day. {_LEFT} Close that window: this"
    " copy then goes with it."
)
_UNFINISHED = (".tmp", ".bak.tmp", ".part", ".bak.part")
"""How the names end of what a crash leaves of a file that was being written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cleared:
    """What became of the copies of a plan.

    Args:
        cleared: those that held the person and hold nothing of it now.
        left: of those that could not be cleared, a sentence each.
    """

    cleared: tuple[Path, ...] = ()
    left: tuple[str, ...] = ()


def clear_copies(plan: Path, folder: str, person: Person, author: str, *, own: Path) -> Cleared:
    """Clear every copy of a plan that this program knows of; nobody may save it meanwhile.

    What cannot be looked at or cleared is told in ``left`` and stops nothing.

    Args:
        plan: the plan's file, which is not touched.
        folder: of dated copies; empty for none.
        person: who is forgotten.
        author: who forgets, as their logs have it.
        own: the plan's working copy, which is not touched either.
    """
    cleared: list[Path] = []
    left: list[str] = []
    for path in _known_copies(plan, folder, left):
        with _noted(path, left):
            if _clear_file(path, person, author):
                cleared.append(path)
    for ending in _UNFINISHED:
        unfinished = plan.with_name(f"{plan.name}{ending}")
        with _noted(unfinished, left):
            unfinished.unlink(missing_ok=True)
    _clear_leftovers(plan, person, author, left, own)
    return Cleared(cleared=tuple(cleared), left=tuple(left))


@contextmanager
def _noted(path: Path, left: list[str]) -> Iterator[None]:
    """Let nothing that goes wrong with a file stop the rest; it is noted."""
    try:
        with told(path, _LEFT), fitting(path, _LEFT):
            yield
    except PlanEditorError as problem:
        left.append(f"{path}: {problem}")


def _known_copies(plan: Path, folder: str, left: list[str]) -> tuple[Path, ...]:
    """Return the copies of a plan that are where this program puts them."""
    found: set[Path] = set()
    with _noted(Path(folder), left):
        found.update(copies.dated(plan, folder))
    with _noted(plan.parent, left):
        found.update(_beside(plan))
    if folder and not Path(folder).is_dir():
        left.append(
            f"{folder}: the folder of dated copies cannot be reached now. {_LEFT} Connect its"
            " disk, and remove by hand the copies that are older than today."
        )
    return tuple(sorted(found))


def _beside(plan: Path) -> Iterator[Path]:
    for path in plan.parent.iterdir():
        older = path.name.startswith(f"{plan.name}.format-") and path.suffix == ".bak"
        aside = path.name.startswith(f"{plan.stem} replaced ") and path.suffix == plan.suffix
        if older or aside or path == saving.backup_of(plan):
            yield path


def _clear_file(path: Path, person: Person, author: str) -> bool:
    opening.check_file(path)
    with reading(path) as con:
        opening.check_content(con, path)
        if not forgetting.is_known(con, person.id):
            return False
    working = working_copy.new_working_copy(path)
    try:
        loading.copy_whole(path, working)
        _clear_working(working, path, person, author, publish=path)
    finally:
        working.discard()
    return True


def _clear_leftovers(
    plan: Path, person: Person, author: str, left: list[str], own: Path
) -> None:
    """Clear what crashes left behind of a plan; copies that are in use are only told."""
    notes: tuple[Path, ...] = ()
    with _noted(working_copy.folder(), left):
        notes = working_copy.left_behind()
    for note in notes:
        copy = note.with_suffix(".gpkg")
        with _noted(copy, left):
            if copy != own:
                _take_up(note, plan, person, author)


def _take_up(note: Path, plan: Path, person: Person, author: str) -> None:
    taken = working_copy.held(note)
    if taken is None:
        beside = working_copy.whose(note)
        if beside is not None and Path(beside.plan) == plan:
            raise PlanInUse(_IN_USE)
        return
    working, beside = taken
    try:
        if beside is not None and Path(beside.plan) == plan and working.path.exists():
            _clear_leftover(working, person, author)
    finally:
        working.let_go()


def _clear_leftover(working: WorkingCopy, person: Person, author: str) -> None:
    with reading(working.path) as con:
        opening.check_content(con, working.path)
        known = forgetting.is_known(con, person.id)
    if known:
        _clear_working(working, working.path, person, author, publish=None)


def _clear_working(
    working: WorkingCopy, path: Path, person: Person, author: str, *, publish: Path | None
) -> None:
    copy = OpenCopy(working)
    try:
        loaded = copy.load(
            path,
            trusted=lambda kept: loading.untouched(path, kept.file_counter),
            keep_older=lambda: None,
            early=None,
        )
        if loaded.differences != Differences():
            raise NotAllowed(
                f"{path.name} was changed by another program. {_LEFT} Remove it by hand."
            )
        _forget(copy, loaded.plan, person, author)
        if publish is not None:
            copy.put_in_place(publish)
    finally:
        copy.close()


def _forget(copy: OpenCopy, plan: Plan, person: Person, author: str) -> None:
    once = copy.once_pointing(person.id)
    contact = plan.items.get(person.id)
    then = replace(
        person if contact is None else person_of(contact), once=once, corrected=person.corrected
    )
    gone = papers_of(plan, then)
    Document(plan, journal=copy, author=author).apply(ForgetPerson(then))
    copy.forget(then, gone)
