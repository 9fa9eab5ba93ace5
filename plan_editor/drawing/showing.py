"""What of a plan is shown: all of it but some kinds, and of some kinds those in some states."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.plan.detail import Detail
from plan_editor.plan.item import Item, ItemId, Status
from plan_editor.plan.kind import Kind

STATUS = "status"
"""Stands for the status of an item where a state names a detail."""

_MARK = "|"


@dataclass(frozen=True, slots=True, order=True)
class State:
    """One state in which items of a kind can be.

    Args:
        kind: the name of the kind.
        detail: the name of the detail that tells, or ``STATUS``.
        value: its value, as it is kept.
    """

    kind: str
    detail: str
    value: str

    def fits(self, item: Item[Any]) -> bool:
        """Return whether an item is in that state."""
        if item.kind.name != self.kind:
            return False
        held = item.status if self.detail == STATUS else getattr(item.details, self.detail)
        return bool(held == self.value)


@dataclass(frozen=True, slots=True)
class Showing:
    """All that there is but these.

    Args:
        kinds: the names of kinds that are left out whole.
        states: states that are left out.
        things: single things that are left out for now; that is not kept with the others.
    """

    kinds: frozenset[str] = frozenset()
    states: frozenset[State] = frozenset()
    things: frozenset[ItemId] = frozenset()

    def shows(self, item: Item[Any]) -> bool:
        """Return whether an item is shown."""
        if item.kind.name in self.kinds or item.id in self.things:
            return False
        return not self.states or not any(state.fits(item) for state in self.states)

    def with_kind(self, name: str, *, shown: bool) -> "Showing":
        """Return it with a kind shown, or left out."""
        others = self.kinds - {name}
        return replace(self, kinds=others if shown else others | {name})

    def with_state(self, state: State, *, shown: bool) -> "Showing":
        """Return it with a state shown, or left out."""
        others = self.states - {state}
        return replace(self, states=others if shown else others | {state})

    def words(self) -> tuple[str, ...]:
        """Return it as texts to be kept; see ``showing_of``."""
        states = (_MARK.join((s.kind, s.detail, s.value)) for s in self.states)
        return (*sorted(self.kinds), *sorted(states))


def showing_of(words: Iterable[str]) -> Showing:
    """Return what texts that were kept stand for; what stands for nothing is passed over."""
    parts = [tuple(word.split(_MARK)) for word in words]
    return Showing(
        kinds=frozenset(p[0] for p in parts if len(p) == 1),
        states=frozenset(State(*p) for p in parts if len(p) == 3),
    )


def telling(kind: Kind) -> tuple[Detail, ...]:
    """Return the details of a kind by whose values its items are drawn in different ways."""
    named = dict.fromkeys(when.detail for when in kind.looks)
    found = {d.name: d for d in kind.entries()}
    return tuple(found[name] for name in named if found[name].choices)


def states_of(kind: Kind) -> tuple[State, ...]:
    """Return the states in which items of a kind can be told apart on the plan."""
    told = [
        State(kind.name, detail.name, str(choice))
        for detail in telling(kind)
        for choice in detail.choices
    ]
    return (*told, *(State(kind.name, STATUS, str(status)) for status in Status))
