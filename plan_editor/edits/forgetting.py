"""Forgetting a person: the contact goes, and the private words of what pointed to it.

What is left of a thing follows from that thing and the person alone, so that its earlier
states, which the log keeps, are put right in the same way and still fit together.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.errors import EditRefused
from plan_editor.kinds import owner_contact, paper
from plan_editor.plan.change import Change
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

TITLE = "Forget somebody"
"""The title in the log, which keeps no name."""

_TEXTS = (Value.TEXT, Value.LONG_TEXT)
_OF_OTHERS = frozenset((("application", "mason"), ("request", "director")))
"""Private texts that name a firm, and are emptied only where they name the person too."""

_LEAST = 3
"""Shorter words of a name, such as initials, tell nobody apart."""

_ADDRESSED = frozenset(("mrs", "miss", "rev", "revd", "reverend", "the", "and", "sir", "lady"))
"""Words before a name by which people are addressed; they tell nobody apart either."""

_LEAST_NUMBER = 5
"""A shorter telephone number or address would be found in anything."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody to be forgotten.

    Args:
        id: of the contact.
        words: of the name, in small letters.
        numbers: telephone number and e-mail address, without blanks and in small letters.
        once: ids of things that pointed to the contact at some time, as the log has it.
    """

    id: ItemId
    words: frozenset[str] = frozenset()
    numbers: frozenset[str] = frozenset()
    once: frozenset[ItemId] = frozenset()

    def is_named_in(self, text: str) -> bool:
        """Return whether a text holds the whole name, or the telephone or e-mail."""
        closed = _closed(text)
        return bool(self.words and self.words <= _words(text)) or any(
            n in closed for n in self.numbers
        )

    def is_pointed_to_by(self, item: Item[Any]) -> bool:
        """Return whether a thing points to the contact."""
        return any(getattr(item.details, d.name) == self.id for d in item.kind.references())


def person_of(item: Item[Any], once: Iterable[ItemId] = ()) -> Person:
    """Return by what somebody is known, from the contact."""
    held = item.details
    return Person(
        id=item.id,
        words=_words(held.name),
        numbers=frozenset(
            n for n in map(_closed, (held.telephone, held.email)) if len(n) >= _LEAST_NUMBER
        ),
        once=frozenset(once),
    )


@dataclass(frozen=True, slots=True)
class ForgetPerson:
    """Take somebody's contact, words and papers out of the plan.

    The log still has them after this edit alone: ``storage.forgetting`` clears it.
    """

    person: Person

    @property
    def title(self) -> str:
        """As the log says it."""
        return TITLE

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the contact and the papers as they go, and what is left of everything else.

        Raises:
            EditRefused: it is no contact who is to be forgotten.
        """
        contact = plan.items.get(self.person.id)
        if contact is not None and contact.kind != owner_contact.KIND:
            raise EditRefused(
                f"{contact.called()} is no owner. Nothing was changed. Choose a person."
            )
        gone = papers_of(plan, self.person) | {self.person.id}
        return tuple(
            Change(item, None if item.id in gone else left_of(item, self.person))
            for item in plan.items.values()
            if item.id in gone or is_concerned(item, self.person)
        )


def is_concerned(item: Item[Any], person: Person) -> bool:
    """Return whether something of a thing is to go."""
    if person.is_pointed_to_by(item):
        return True
    return item.id in person.once and any(
        person.is_named_in(getattr(item.details, d.name)) for d in _private_texts(item)
    )


def left_of(item: Item[Any], person: Person) -> Item[Any]:
    """Return what is left of a thing that concerns a person: no reference, no private words."""
    emptied: dict[str, Any] = {d.name: d.default for d in _to_empty(item, person)}
    emptied |= {
        d.name: d.default
        for d in item.kind.references()
        if getattr(item.details, d.name) == person.id
    }
    return replace(item, details=replace(item.details, **emptied))


def papers_of(plan: Plan, person: Person) -> frozenset[ItemId]:
    """Return the papers of the contact, and personal ones of what points to it."""
    theirs = {i.id for i in plan.items.values() if person.is_pointed_to_by(i)}
    return frozenset(
        p.id
        for p in plan.of(paper.KIND)
        if p.details.target == person.id or (p.details.personal and p.details.target in theirs)
    )


def still_naming(plan: Plan, person: Person) -> tuple[Item[Any], ...]:
    """Return things in whose words the person may still be named; a person has to look."""
    return tuple(
        item
        for item in plan.items.values()
        if any(
            d.value in _TEXTS and person.is_named_in(getattr(item.details, d.name))
            for d in item.kind.entries()
        )
    )


def _to_empty(item: Item[Any], person: Person) -> Iterable[Detail]:
    for d in _private_texts(item):
        of_others = (item.kind.name, d.name) in _OF_OTHERS
        if not of_others or person.is_named_in(getattr(item.details, d.name)):
            yield d


def _private_texts(item: Item[Any]) -> Iterable[Detail]:
    return (d for d in item.kind.entries() if d.about.private and d.value in _TEXTS)


def _words(text: str) -> frozenset[str]:
    letters = "".join(c if c.isalnum() else " " for c in text.casefold())
    return frozenset(w for w in letters.split() if len(w) >= _LEAST) - _ADDRESSED


def _closed(text: str) -> str:
    return "".join(text.split()).casefold()
