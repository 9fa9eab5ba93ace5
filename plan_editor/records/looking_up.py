"""Find a grave: entries and stones by any part of a name, a year or a number."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol, cast

from plan_editor.declared import late
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

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


def ready(plan: Plan) -> Register:
    """Return a plan's register, ready to be looked through. Cost: one pass over its entries."""
    return _ready(plan)
