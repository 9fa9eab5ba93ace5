"""Where people rest, as far as it has a place: graves, vaults and ashes plots."""

from typing import Any

from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

KINDS = ("grave", "vault", "ashes_plot")
"""The names of their kinds."""


def resting_places(plan: Plan) -> tuple[Item[Any], ...]:
    """Return them all, graves first."""
    found = (i for name in KINDS for i in plan.by_kind.get(name, {}).values())
    return tuple(i for i in found if i.shape is not None)
