"""The register: the kinds without a shape, and their items as lines of a list."""

from typing import Any

from plan_editor.commands.relations import date_of, says
from plan_editor.edits.basic import Add
from plan_editor.plan.checks import references
from plan_editor.plan.detail import Value
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import Plan


def register_kinds() -> tuple[Kind, ...]:
    """Return the kinds of the register, in the order of their titles."""
    return tuple(sorted((k for k in kinds() if not k.drawn), key=lambda k: k.title))


def entries(plan: Plan, kind: Kind) -> tuple[Item[Any], ...]:
    """Return the entries of a kind, the newest first."""
    dates = [d.name for d in kind.entries() if d.value is Value.DATE]

    def newest(item: Item[Any]) -> str:
        return next((d for n in dates if (d := getattr(item.details, n))), "")

    return tuple(sorted(plan.of(kind), key=newest, reverse=True))


def line(plan: Plan, item: Item[Any]) -> tuple[str, str, str]:
    """Return an entry's date, what it is about, and what it says."""
    about = (plan.items[target].called() for _, _, target in references(item))
    return date_of(item), next(about, ""), says(item)


def new_entry(kind: Kind) -> tuple[Edit, Item[Any]]:
    """Return the edit that adds an empty entry, and the entry."""
    item: Item[Any] = new_item(kind)
    return Add((item,)), item
