"""One item before and after."""

from dataclasses import dataclass
from typing import Any

from plan_editor.plan.item import Item, ItemId


@dataclass(frozen=True, slots=True)
class Change:
    """One item before and after; None before it came or after it went."""

    before: Item[Any] | None
    after: Item[Any] | None

    @property
    def id(self) -> ItemId:
        """The item concerned.

        Raises:
            ValueError: there is no item on either side.
        """
        item = self.after or self.before
        if item is None:
            raise ValueError("a change needs an item before or after it")
        return item.id

    def reversed(self) -> "Change":
        """Return the change that takes it back."""
        return Change(self.after, self.before)
