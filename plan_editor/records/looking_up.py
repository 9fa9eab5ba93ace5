"""Find a grave: entries and stones by any part of a name, a year or a number."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Protocol, cast

from plan_editor.declared import late
from plan_editor.kinds import burial
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.work_list import entry_called

MOST = 50
"""So many are found at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundGrave:
    """One entry or stone that was found.

    Args:
        item: the entry of the register, or the stone.
        grave: where it lies or stands; None where nobody knows.
        text: the same in a line.
        score: how well it fits what was typed, from 0 to 1.
    """

    item: ItemId
    grave: ItemId | None
    text: str
    score: float


class Register(Protocol):
    """A plan's entries and stones, made ready to be looked through again and again."""

    def find(self, text: str, most: int = MOST) -> tuple[FoundGrave, ...]:
        """Return what fits every word that was typed, the best first.

        A word fits where it is part of one that stands there, or a letter or two off; figures
        fit where a year or number begins with them. A grave's number is found however it is
        written, and before all else. Cost: one comparison with each different word.
        """
        ...


_ready = late(
    "plan_editor.records.looking_up_made",
    "ready",
    cast("Callable[[Plan], Register]", None),  # only its type is wanted
)


_alike = late(
    "plan_editor.records.looking_up_made",
    "alike",
    cast("Callable[[Plan, str, int], tuple[ItemId, ...]]", None),  # only its type is wanted
)


def alike(plan: Plan, text: str, most: int) -> tuple[ItemId, ...]:
    """Return entries whose surname is spelt much as one of the words, the likest first.

    For a single question; cost: one pass over the surnames for each word.
    """
    return _alike(plan, text, most) if plan.count(burial.KIND) else ()


def line_of(plan: Plan, item: Item[Any]) -> str:
    """Return what the window calls a thing in a list: an entry with its dead and its grave."""
    if item.kind != burial.KIND:
        return item.named()
    lies = item.details.grave
    where = "" if lies is None else f" – {plan.items[lies].called()}"
    return f"{entry_called(item)}{where}"


def ready(plan: Plan) -> Register:
    """Return a plan's register, ready to be looked through. Cost: one pass over its entries."""
    return _ready(plan)
