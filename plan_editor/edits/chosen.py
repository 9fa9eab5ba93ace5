"""The items that an edit changes, and what its title calls them."""

from collections.abc import Iterable, Sequence
from typing import Any

from plan_editor.errors import EditRefused
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan


def chosen(plan: Plan, ids: Iterable[ItemId]) -> tuple[Item[Any], ...]:
    """Return the items of these ids, each once.

    Raises:
        EditRefused: one of them is not on the plan.
    """
    wanted = tuple(dict.fromkeys(ids))
    if any(i not in plan.items for i in wanted):
        raise EditRefused(
            "What was to be changed is no longer on the plan. Nothing was changed."
            " Choose it again."
        )
    return tuple(plan.items[i] for i in wanted)


def called(items: Iterable[Item[Any]]) -> str:
    """Return what to call some items in a title: ``grave C 14``, ``3 graves``."""
    told = tuple(items)
    if not told:
        return "nothing"
    if len(told) == 1:
        return _one(told[0])
    kinds = {i.kind for i in told}
    plural = told[0].kind.plural.lower() if len(kinds) == 1 else "things"
    return f"{len(told)} {plural}"


def called_on(plan: Plan, ids: Iterable[ItemId]) -> str:
    """Return what to call those of these items that are on the plan."""
    return called(plan.items[i] for i in ids if i in plan.items)


def things(ids: Sequence[ItemId]) -> str:
    """Return what to call some items of which only the ids are known."""
    return "1 thing" if len(ids) == 1 else f"{len(ids)} things"


def _one(item: Item[Any]) -> str:
    # titles are kept in the log, which others may read: ``called`` names nobody living
    name = item.called().removeprefix(item.kind.title)
    return item.kind.title.lower() + name if name else item.kind.one
