"""A person cleared from the plan that is open, which is then saved so that nothing is kept."""

from collections.abc import Collection
from typing import Any

from plan_editor.edits.person import Person
from plan_editor.plan.item import Item, ItemId
from plan_editor.storage import forgetting
from plan_editor.storage.connection import reading
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.problems import fitting, told

_UNDONE = "Nobody was forgotten."
_NOT_SAVED = "It was not saved; every edit is safe and nothing is lost."


def once_pointing(file: PlanFile, person: ItemId) -> frozenset[ItemId]:
    """Return what pointed to a contact at some time, as the log has it.

    Raises:
        NotAllowed: the plan is open read-only.
        FileProblem: its log cannot be read.
    """
    with file.alone(_UNDONE) as copy, fitting(file.path, _UNDONE):
        return copy.once_pointing(person)


def earlier_naming(file: PlanFile, person: Person) -> tuple[Item[Any], ...]:
    """Return things as they once were, where the log then names a person and keeps it.

    Raises:
        FileProblem: the log cannot be read.
    """
    with (
        told(file.path, _UNDONE),
        fitting(file.path, _UNDONE),
        reading(file.working_copy) as con,
    ):
        return forgetting.earlier_naming(con, person)


def clear(file: PlanFile, person: Person, gone: Collection[ItemId]) -> bool:
    """Clear log and media of a person who is no longer on the plan.

    Args:
        file: open.
        person: the person.
        gone: ids of what went with the person, such as papers.

    Returns:
        Whether the working copy could be written anew too, and its WAL emptied.

    Raises:
        FileProblem: it could not be written; nothing was cleared.
    """
    with file.alone(_UNDONE) as copy, fitting(file.path, _UNDONE):
        return copy.forget(person, gone)


def save_over(file: PlanFile) -> None:
    """Save so that nothing is kept of the file that was there.

    Raises:
        ChangedElsewhere: somebody else saved the plan meanwhile.
        FileProblem: it could not be read or written; it is as it was.
    """
    with file.alone(_NOT_SAVED) as copy, fitting(file.path, _NOT_SAVED):
        file.refuse_if_changed()
        file.note(copy.put_in_place(file.path))
