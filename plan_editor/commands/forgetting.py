"""Forgetting a person, for good: the plan, its file, its log, its papers, its copies."""

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from plan_editor.commands.before_forgetting import MOST, called, known_as
from plan_editor.edits.basic import Replace
from plan_editor.edits.forgetting import (
    ForgetPerson,
    papers_of,
    papers_of_theirs,
    still_naming,
)
from plan_editor.edits.person import Person
from plan_editor.errors import CannotUse, FileProblem, NotAllowed, PlanEditorError
from plan_editor.plan.checks import spoken
from plan_editor.plan.document import Document, Entry
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.storage.forgetting_copies import clear_copies
from plan_editor.storage.forgetting_file import (
    clear,
    save_over,
)
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.saving import backup_of

CONTACT = "owner_contact"
BEYOND = (
    "Prints, exports, copies made by hand, and copies on other computers, sticks or in a"
    " cloud are beyond this program: look for them and delete them."
)
KEEP = (
    "Ask first whether the parish must keep the record, and for how long: the diocesan registry"
    " or whoever sees to data protection knows. This cannot be undone."
)
QUESTION = (
    "This cannot be undone. The contact, its papers and the private words of everything that"
    " points to it are removed from the plan, from what was done, and from the copies that"
    " this program knows of. The plan is saved, and no earlier step can be undone any more."
)
HELD = (
    "Somebody is being forgotten: until that is done the plan can be neither saved nor closed."
    " Wait until “Clearing history and copies” has gone."
)
SAVING = "The plan is being saved. Nobody was forgotten. Wait until it is saved and try again."
STOPPED = (
    "Forgetting stopped before its end. The person is off the plan, but its history and copies"
    " may still hold the name. Save the plan, then remove its older copies by hand: the file"
    " beside it that ends in .bak, and the dated ones."
)
_NOBODY = "Nobody was forgotten."
_BUSY = (
    "the plan's working copy, which could not be written anew. Close the plan now: the copy"
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
        look_at: what stays and may still name or concern the person.
        unsaved: why the plan itself could not be saved, and what to do; empty if it was.
    """

    papers: int
    things: int
    cleared: tuple[Path, ...] = ()
    left: tuple[str, ...] = ()
    look_at: tuple[str, ...] = ()
    unsaved: str = ""

    def told(self) -> str:
        """Return it in sentences; nobody is named."""
        lines = [
            f"The person was forgotten: the contact, {_count(self.papers, 'paper')}, and the"
            f" private words of {_count(self.things, 'other thing')}."
        ]
        lines += [self.unsaved] if self.unsaved else []
        lines += [f"Cleared too: {path}" for path in self.cleared]
        lines += [f"Not cleared: {words}" for words in self.left]
        if self.look_at:
            these = ", ".join(self.look_at[:MOST])
            lines.append(f"The person may still be named in {these}: look there yourself.")
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A person who is off the plan, while log and copies are still to be cleared.

    Args:
        person: who.
        gone: ids of what went too.
        entry: of the log.
        look_at: what stays and may name or concern the person.
    """

    person: Person
    gone: frozenset[ItemId]
    entry: Entry
    look_at: tuple[str, ...]


def begin(document: Document, file: PlanFile, id_: ItemId) -> Begun:
    """Take a person off an open plan; nothing can be undone from then on.

    Raises:
        CannotUse: there is no such person on it, or it shows another day.
        ChangedElsewhere: somebody else saved the plan meanwhile.
        FileProblem: it could not be kept; nothing was changed.
    """
    file.refuse_if_changed()
    before = document.plan
    if id_ not in before.by_kind.get(CONTACT, {}):
        raise CannotUse("That person is not on the plan any more. Nobody was forgotten.")
    person = known_as(file, before, id_)
    gone = papers_of(before, person)
    stays = dict.fromkeys((*still_naming(before, person), *papers_of_theirs(before, person)))
    look_at = tuple(called(item, before, person) for item in stays)
    entry = document.apply_for_good(ForgetPerson(person))
    if entry is None:  # pragma: no cover  # a contact that is there always goes
        raise CannotUse("Nothing was to be forgotten.")
    return Begun(person=person, gone=gone, entry=entry, look_at=look_at)


@dataclass(frozen=True, slots=True, kw_only=True)
class NotForgotten:
    """Nothing was cleared; ``put_back`` is called for. Why, and what to do, in the error."""

    error: FileProblem


def finish(file: PlanFile, begun: Begun) -> Forgotten | NotForgotten:
    """Clear log, media and copies, and save the plan; for any thread.

    Nobody else can save meanwhile: that would keep the person in what a Save keeps. Once the
    log is cleared, whatever goes wrong is told in what is returned, and nothing is put back.
    """
    with file.alone(_NOBODY):
        try:
            emptied = clear(file, begun.person, begun.gone)
        except FileProblem as problem:
            return NotForgotten(error=problem)
        # before the copies: a save after them would keep the file that was there
        unsaved = _unsaved(file)
        done = clear_copies(
            file.path,
            file.copies_folder,
            begun.person,
            begun.entry.author,
            own=file.working_copy,
        )
    return Forgotten(
        papers=len(begun.gone),
        things=len(begun.entry.changes) - len(begun.gone) - 1,
        cleared=done.cleared,
        left=done.left if emptied else (*done.left, _BUSY),
        look_at=begun.look_at,
        unsaved=unsaved,
    )


def put_back(document: Document, begun: Begun) -> None:
    """Put a person back whom the log could not be cleared of, so that one can try again.

    Raises:
        PlanEditorError: the plan was changed meanwhile so that it cannot be done.
    """
    made = tuple(c.reversed() for c in begun.entry.changes)
    document.apply(Replace(made=made, title="Put back, as nobody was forgotten"))


def forget(document: Document, file: PlanFile, id_: ItemId) -> Forgotten:
    """Forget a person in an open plan and save it; nothing brings the person back.

    Raises:
        CannotUse: there is no such person.
        FileProblem: nobody was forgotten; or the plan was not saved, as the text then says.
    """
    begun = begin(document, file, id_)
    done = finish(file, begun)
    if isinstance(done, NotForgotten):
        with suppress(PlanEditorError):
            put_back(document, begun)
        raise done.error
    if done.unsaved:
        raise NotAllowed(done.unsaved)
    return done


def _unsaved(file: PlanFile) -> str:
    try:
        save_over(file)
    except FileProblem as problem:
        return (
            f"The person is off the plan and its history, but {file.path.name} still holds the"
            f" name: {problem} Save the plan, and then remove {backup_of(file.path).name}, in"
            " which that is kept; on the command line, do it once more."
        )
    return ""


def _count(number: int, one: str) -> str:
    return f"{number or 'no'} {one}{'' if number == 1 else 's'}"
