"""Things and figures as the cells of a schedule tell them."""

from typing import Any

from plan_editor.ground.dangers import Inspection
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan


def called(plan: Plan, item: ItemId | None, *, contacts: bool = False) -> str:
    """Return what a thing is called; nothing of none, or of one that is not on the plan.

    Args:
        plan: where it is.
        item: which thing.
        contacts: whether living people may be named.
    """
    there = None if item is None else plan.items.get(item)
    if there is None:
        return ""
    return there.named() if contacts else there.called()


def figure(value: float | None, places: int = 1) -> str:
    """Return a figure with so many places; nothing of what is not recorded."""
    return "" if value is None else f"{value:.{places}f}"


def yes(told: bool) -> str:  # noqa: FBT001  # the one thing that is told
    """Return ``yes``, or nothing."""
    return "yes" if told else ""


def by_number(item: Item[Any]) -> tuple[bool, list[tuple[str, int]], str]:
    """Return what to sort things by: numbers as people count, those without one last."""
    return not item.number, natural(item.number), item.called()


def state(latest: Inspection | None) -> str:
    """Return what an inspection found, and when; that of a thing never looked at is unknown."""
    if latest is None or latest.details.result is None:
        return "not known"
    when = f" ({latest.details.date})" if latest.details.date else ""
    return f"{latest.details.result}{when}"
