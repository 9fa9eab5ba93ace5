"""What names somebody and stays when that person is forgotten: told before it is done."""

from dataclasses import dataclass, replace
from typing import Any

from plan_editor.edits.forgetting import naming_words, papers_of_theirs, still_naming
from plan_editor.edits.person import Person, person_of
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.storage.forgetting_file import earlier_naming, once_pointing
from plan_editor.storage.plan_file import PlanFile

TO_CORRECT = (
    "Look at these first and correct what names the person. What is corrected before goes from"
    " what was done and from the copies too; what is corrected afterwards stays there."
)
MOST = 12
"""So many things are named; of more only the number is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Naming:
    """A person, and what names that person and is not emptied: now, and once.

    Args:
        person: with what the log has of the person.
        now: things on the plan.
        once: things as they were, of which nothing names the person now.
    """

    person: Person
    now: tuple[Item[Any], ...]
    once: tuple[Item[Any], ...]


def before_forgetting(file: PlanFile, plan: Plan, id_: ItemId) -> tuple[str, ...]:
    """Return what to see to before somebody is forgotten, a sentence each; empty for nothing.

    It may be corrected before: words that a contact does not point to are never emptied by
    themselves as long as they stand on the plan. For any thread.

    Raises:
        NotAllowed: the plan is open read-only.
        FileProblem: its log cannot be read.
    """
    if id_ not in plan.items:
        return ()
    found = _naming(file, plan, id_)
    person, now, known = found.person, found.now, {item.id for item in found.now}
    theirs = [p for p in papers_of_theirs(plan, person) if p.id not in known]
    stays = (
        *(f"{_with_words(i, plan, person)}: may name the person, and stays." for i in now),
        *(f"{called(i, plan, person)}: may concern the person, and stays." for i in theirs),
        *(
            f"{_with_words(i, plan, person)}, as it was once: may name the person, and stays in"
            " what was done, where nothing can be corrected."
            for i in found.once
        ),
    )
    return tuple(dict.fromkeys(stays))


def known_as(file: PlanFile, plan: Plan, id_: ItemId) -> Person:
    """Return by what a contact of a plan is known, and what the log has of that person.

    Raises:
        NotAllowed: the plan is open read-only.
        FileProblem: its log cannot be read.
    """
    return _naming(file, plan, id_).person


def _naming(file: PlanFile, plan: Plan, id_: ItemId) -> _Naming:
    person = person_of(plan.items[id_], once_pointing(file, id_))
    now = still_naming(plan, person)
    known = {item.id for item in now}
    earlier = [item for item in earlier_naming(file, person) if item.id not in known]
    person = replace(person, corrected=frozenset(item.id for item in earlier))
    once = tuple(item for item in earlier if naming_words(item, person))
    return _Naming(person=person, now=now, once=once)


def called(item: Item[Any], plan: Plan, person: Person) -> str:
    """Return what to call a thing and what it belongs to; nobody who is forgotten is named."""
    names = item.called()
    one = item.kind.title if person.may_be_named_in(names) else names
    points_to = (getattr(item.details, d.name) for d in item.kind.references())
    of = next((plan.items[i] for i in points_to if i != person.id and i in plan.items), None)
    if of is None or person.may_be_named_in(of.called()):
        return one
    return f"{one} ({of.called()})"


def listed(sentences: tuple[str, ...]) -> str:
    """Return what to see to, as it is asked and told: the first of it, and how many more."""
    more = len(sentences) - MOST
    others = (f"And {more} more.",) if more > 0 else ()
    named = (f"• {sentence}" for sentence in sentences[:MOST])
    return "\n".join((TO_CORRECT, *named, *others))


def _with_words(item: Item[Any], plan: Plan, person: Person) -> str:
    words = ", ".join(f"“{title}”" for title in naming_words(item, person))
    return f"{called(item, plan, person)}, {words}"
