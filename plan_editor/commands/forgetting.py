"""Forgetting a person, for good: the plan, its file, its log, its papers, its copies."""

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from plan_editor.edits.forgetting import (
    ForgetPerson,
    Person,
    papers_of,
    person_of,
    still_naming,
)
from plan_editor.errors import CannotUse, FileProblem, PlanEditorError
from plan_editor.plan.checks import spoken
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.storage.forgetting_copies import clear_copies
from plan_editor.storage.plan_file import PlanFile

CONTACT = "owner_contact"
BEYOND = (
    "Prints, exports, copies made by hand, and copies on other computers, sticks or in a"
    " cloud are beyond this program: look for them and delete them."
)
QUESTION = (
    "This cannot be undone. The contact, its papers and the private words of everything that"
    " points to it are removed from the plan, from what was done, and from the copies that"
    " this program knows of. The plan is saved, and no earlier step can be undone any more."
    " Ask first whether the parish must keep the record, and for how long."
)
_BUSY = (
    "Another part of the program was reading the plan. Close the plan now: its working copy"
    " then goes, and with it the last traces."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Forgotten:
    """What forgetting a person came to.

    Args:
        papers: how many photographs and papers went.
        things: how many other things lost private words or a reference.
        cleared: copies that were cleared.
        left: a sentence for each copy that could not be cleared.
        look_at: what to look at: things that may still name the person.
    """

    papers: int
    things: int
    cleared: tuple[Path, ...] = ()
    left: tuple[str, ...] = ()
    look_at: tuple[str, ...] = ()

    def told(self) -> str:
        """Return it in sentences; nobody is named."""
        lines = [
            f"The person was forgotten: the contact, {_count(self.papers, 'paper')}, and the"
            f" private words of {_count(self.things, 'other thing')}."
        ]
        lines += [f"Cleared too: {path}" for path in self.cleared]
        lines += [f"Not cleared: {words}" for words in self.left]
        if self.look_at:
            called = ", ".join(self.look_at[:12])
            lines.append(f"The same name may still stand in {called}: look there yourself.")
        return "\n".join((*lines, BEYOND))


def people(plan: Plan) -> tuple[tuple[ItemId, str], ...]:
    """Return the contacts of a plan with what to call each, by their names."""
    found = [
        (item.id, " ".join(item.details.name.split()) or "a contact without name")
        for item in plan.by_kind.get(CONTACT, {}).values()
    ]
    return tuple(sorted(found, key=lambda one: (one[1].casefold(), one[0])))


def person_named(plan: Plan, text: str) -> ItemId:
    """Return the contact of that name or id.

    Raises:
        CannotUse: there is none, or several of the same name.
    """
    if text.strip() in plan.by_kind.get(CONTACT, {}):
        return ItemId(text.strip())
    found = [i for i, name in people(plan) if spoken(name) == spoken(text)]
    if len(found) == 1:
        return found[0]
    if not found:
        raise CannotUse(
            "There is no owner of that name on the plan. Nobody was forgotten. Write"
            " the name as it stands there."
        )
    raise CannotUse(
        f"{len(found)} owners bear that name. Nobody was forgotten. Write the id of the"
        f" one that is meant: {', '.join(found)}."
    )


def forget(document: Document, file: PlanFile, id_: ItemId, *, author: str) -> Forgotten:
    """Forget a person in an open plan and save it; nothing brings the person back.

    Raises:
        CannotUse: there is no such contact.
        ChangedElsewhere, NotAllowed, NoRoom, DamagedPlan: nobody was forgotten, and nothing was
            changed; or, as the text then says, the plan was not saved.
    """
    file.refuse_if_changed()
    before = document.plan
    if id_ not in before.by_kind.get(CONTACT, {}):
        raise CannotUse("That person is not on the plan any more. Nobody was forgotten.")
    person = person_of(before.items[id_], file.once_pointing(id_))
    gone = papers_of(before, person)
    entry = document.apply(ForgetPerson(person))
    emptied = _cleared(document, file, person, gone)
    document.forget_steps()
    done = clear_copies(file.path, file.copies_folder, person, author)
    _saved(file)
    left = done.left if emptied else (*done.left, _BUSY)
    changed = len(entry.changes) if entry is not None else 0
    return Forgotten(
        papers=len(gone),
        things=changed - len(gone) - 1,
        cleared=done.cleared,
        left=left,
        look_at=tuple(i.called() for i in still_naming(document.plan, person)),
    )


def _cleared(
    document: Document, file: PlanFile, person: Person, gone: frozenset[ItemId]
) -> bool:
    """Clear the log; where that fails put the contact back, so that one can try again."""
    try:
        return file.forget(person, gone)
    except PlanEditorError:
        with suppress(PlanEditorError):
            document.undo()
        raise


def _saved(file: PlanFile) -> None:
    try:
        file.save_over()
    except FileProblem as problem:
        raise type(problem)(
            f"The person was forgotten in the plan that is open, but: {problem} Save it, and"
            " then remove its .bak, which still holds the person."
        ) from problem


def _count(number: int, one: str) -> str:
    return f"{number} {one}{'' if number == 1 else 's'}"
