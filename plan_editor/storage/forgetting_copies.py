"""Copies of a plan in reach, cleared of a person, and those that could not be cleared."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from plan_editor.edits.forgetting import ForgetPerson, Person, papers_of, person_of
from plan_editor.errors import FileProblem, NotAllowed, PlanEditorError
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.storage import copies, forgetting, loading, opening, saving, working_copy
from plan_editor.storage.changed_elsewhere import Differences
from plan_editor.storage.connection import reading
from plan_editor.storage.open_copy import OpenCopy
from plan_editor.storage.problems import fitting, told
from plan_editor.storage.working_copy import WorkingCopy

_LEFT = "The person was not forgotten there."
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


def clear_copies(plan: Path, folder: str, person: Person, author: str) -> Cleared:
    """Clear every copy of a plan that this program knows of.

    Args:
        plan: the plan's file, which is not touched.
        folder: of dated copies; empty for none.
        person: who is forgotten.
        author: who forgets, as their logs have it.
    """
    cleared, left = [], []
    for path in known_copies(plan, folder):
        try:
            if _clear_file(path, person, author):
                cleared.append(path)
        except PlanEditorError as problem:
            left.append(f"{path}: {problem}")
    for ending in _UNFINISHED:
        try:
            with told(plan, _LEFT):
                plan.with_name(f"{plan.name}{ending}").unlink(missing_ok=True)
        except FileProblem as problem:  # pragma: no cover  # a folder that cannot be written
            left.append(str(problem))
    left += _clear_leftovers(plan, person, author)
    return Cleared(cleared=tuple(cleared), left=tuple(left))


def known_copies(plan: Path, folder: str) -> tuple[Path, ...]:
    """Return the copies of a plan that are where this program puts them."""
    found = set(copies.dated(plan, folder))
    with suppress(OSError):
        for path in plan.parent.iterdir():
            older = path.name.startswith(f"{plan.name}.format-") and path.suffix == ".bak"
            aside = path.name.startswith(f"{plan.stem} replaced ")
            if older or (aside and path.suffix == plan.suffix):
                found.add(path)
    backup = saving.backup_of(plan)
    return tuple(sorted(found | ({backup} if backup.exists() else set())))


def _clear_file(path: Path, person: Person, author: str) -> bool:
    with told(path, _LEFT), fitting(path, _LEFT):
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


def _clear_leftovers(plan: Path, person: Person, author: str) -> Iterator[str]:
    """Clear what crashes left behind of a plan; copies that are in use are left alone."""
    for note in working_copy.left_behind():
        taken = working_copy.held(note)
        if taken is None:
            continue
        working, beside = taken
        try:
            if beside is not None and Path(beside.plan) == plan and working.path.exists():
                with told(working.path, _LEFT), fitting(working.path, _LEFT):
                    _clear_leftover(working, person, author)
        except PlanEditorError as problem:
            yield str(problem)
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
    then = replace(person, once=once) if contact is None else person_of(contact, once)
    gone = papers_of(plan, then)
    Document(plan, journal=copy, author=author).apply(ForgetPerson(then))
    copy.forget(then, gone)
