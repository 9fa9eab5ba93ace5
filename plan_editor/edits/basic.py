"""The edits that suit things of every kind: add, describe, number, remove.

``places`` has those that move and turn. Each carries ``called``, what its title calls the
things that it changes (``chosen.called_on``); without it the title counts them.
"""

from dataclasses import dataclass, replace
from typing import Any

from plan_editor.edits.chosen import called, chosen, things
from plan_editor.errors import EditRefused
from plan_editor.plan.change import Change
from plan_editor.plan.checks import pointing_at
from plan_editor.plan.item import Basis, Item, ItemId, Status
from plan_editor.plan.plan import Plan
from plan_editor.plan.values import own_choice

Pairs = tuple[tuple[str, Any], ...]
"""Names of fields, each with its new value."""


@dataclass(frozen=True, slots=True)
class Add:
    """Add new items."""

    items: tuple[Item[Any], ...]

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Add {called(self.items)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items as they come.

        Raises:
            EditRefused: one of them is on the plan already.
        """
        if there := next((i for i in self.items if i.id in plan.items), None):
            raise EditRefused(f"{there.called()} is on the plan already. Nothing was changed.")
        return tuple(Change(None, item) for item in self.items)


@dataclass(frozen=True, slots=True, kw_only=True)
class Describe:
    """Change what is recorded of items: names of details, each with its new value."""

    ids: tuple[ItemId, ...]
    details: Pairs
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Describe {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items before and after.

        Nothing is converted, but a choice of another kind that is spelled as one of their own
        is taken for that: several kinds may be described at once.

        Raises:
            EditRefused: one of them is not on the plan, or has no detail of that name.
        """
        return tuple(Change(i, self._described(i)) for i in chosen(plan, self.ids))

    def _described(self, item: Item[Any]) -> Item[Any]:
        known = {d.name: d for d in item.kind.entries()}
        if unknown := next((n for n, _ in self.details if n not in known), None):
            raise EditRefused(
                f"Nothing called “{unknown}” is recorded of {item.kind.one}."
                " Nothing was changed."
            )
        new = {name: own_choice(known[name], value) for name, value in self.details}
        return replace(item, details=replace(item.details, **new))


@dataclass(frozen=True, slots=True, kw_only=True)
class Renumber:
    """Give an item another number; an empty one takes its number away."""

    id: ItemId
    number: str
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Number {self.called or '1 thing'} as {self.number or 'nothing'}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the item before and after.

        Raises:
            EditRefused: it is not on the plan.
        """
        (item,) = chosen(plan, (self.id,))
        return (Change(item, replace(item, number=self.number)),)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetStatus:
    """Say whether items are there, are proposed, or are to be removed."""

    ids: tuple[ItemId, ...]
    status: Status
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Call {self.called or things(self.ids)} “{self.status}”"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items before and after.

        Raises:
            EditRefused: one of them is not on the plan.
        """
        return tuple(Change(i, replace(i, status=self.status)) for i in chosen(plan, self.ids))


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBasis:
    """Say how the place of items is known: fields of a basis, each with its value."""

    ids: tuple[ItemId, ...]
    basis: Pairs
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Record how {self.called or things(self.ids)} came on the plan"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items before and after. Nothing is converted.

        Raises:
            EditRefused: one of them is not on the plan, or a basis has no field of that name.
        """
        if unknown := next((n for n, _ in self.basis if n not in Basis.__slots__), None):
            raise EditRefused(
                f"Nothing called “{unknown}” is recorded of a measurement. Nothing was changed."
            )
        told = dict(self.basis)
        return tuple(
            Change(i, replace(i, basis=replace(i.basis, **told)))
            for i in chosen(plan, self.ids)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Remove:
    """Remove items. What was traced on a base plan stays; its source stays in words."""

    ids: tuple[ItemId, ...]
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Remove {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items as they go, and those that were traced on them.

        A detail of another item that points to one of them makes the plan refuse this edit.

        Raises:
            EditRefused: one of them is not on the plan.
        """
        gone = chosen(plan, self.ids)
        ids = {i.id for i in gone}
        referring = {i.id: i for i, _, _ in pointing_at(plan, ids) if i.id not in ids}
        traced = (i for i in referring.values() if i.basis.base_plan in ids)
        return (
            *(Change(i, None) for i in gone),
            *(Change(i, replace(i, basis=replace(i.basis, base_plan=None))) for i in traced),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Replace:
    """Take in changes that were made elsewhere: by another program, or on another day."""

    made: tuple[Change, ...]
    title: str

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the changes as they were made."""
        del plan  # whether they still fit is checked as with every edit
        return self.made
