"""Forgetting a person: the contact goes, and the private words of what pointed to it.

What is left of a thing follows from that thing and the person alone, so that its earlier
states, which the log keeps, are put right in the same way and still fit together.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.edits.person import Person
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

_OF_THE_DEAD = frozenset(("burial", "correction"))
_WORDS_OF_THE_DEAD = frozenset(("inscription", "given_for", "surname", "forenames"))
"""Kinds and details that name the dead: a surname alone says nothing of the living there."""


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
    return person.is_pointed_to_by(item) or any(_to_empty(item, person))


def left_of(item: Item[Any], person: Person) -> Item[Any]:
    """Return what is left of a thing once a person is forgotten.

    No reference, and no private words of what points to the contact. Where a thing pointed to
    it only once, private words go that name the person; of what was corrected since, in its
    earlier states, all words that do. Words of the dead stay.
    """
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


def papers_of_theirs(plan: Plan, person: Person) -> tuple[Item[Any], ...]:
    """Return papers that stay and concern the contact: a person has to look at them.

    They are personal ones of the stone or grave that the contact answers for, and those with
    the same bytes as a paper that goes.
    """
    contact = plan.items.get(person.id)
    if contact is None:
        return ()
    answers_for = {getattr(contact.details, d.name) for d in contact.kind.references()}
    gone = papers_of(plan, person)
    digests = {plan.items[i].details.digest for i in gone} - {""}
    return tuple(
        p
        for p in plan.of(paper.KIND)
        if p.id not in gone
        and (
            (p.details.personal and p.details.target in answers_for - {None})
            or p.details.digest in digests
        )
    )


def still_naming(plan: Plan, person: Person) -> tuple[Item[Any], ...]:
    """Return things that stay and in whose words that stay the person may be named."""
    gone = papers_of(plan, person) | {person.id}
    return tuple(
        item
        for item in plan.items.values()
        if item.id not in gone and naming_words(item, person)
    )


def naming_words(item: Item[Any], person: Person) -> tuple[str, ...]:
    """Return the titles of what may name a person and stays when the person is forgotten."""
    left = left_of(item, person) if is_concerned(item, person) else item
    found = [
        d.about.title
        for d in item.kind.entries()
        if d.value in _TEXTS and _may_name(left, d, person)
    ]
    if person.may_be_named_in(item.number):
        found.append("Number")
    if person.may_be_named_in(item.basis.source):
        found.append("Source")
    return tuple(found)


def _may_name(item: Item[Any], d: Detail, person: Person) -> bool:
    text = getattr(item.details, d.name)
    return (
        person.is_named_in(text) if _is_of_the_dead(item, d) else person.may_be_named_in(text)
    )


def _is_of_the_dead(item: Item[Any], d: Detail) -> bool:
    return item.kind.name in _OF_THE_DEAD or d.name in _WORDS_OF_THE_DEAD


def _to_empty(item: Item[Any], person: Person) -> Iterator[Detail]:
    points = person.is_pointed_to_by(item)
    private = item.id in person.once | person.corrected
    for d in item.kind.entries():
        if d.value not in _TEXTS:
            continue
        if (points and d.about.private and (item.kind.name, d.name) not in _OF_OTHERS) or (
            (points or private if d.about.private else item.id in person.corrected)
            and not _is_of_the_dead(item, d)
            and person.is_named_in(getattr(item.details, d.name))
        ):
            yield d
