"""Where people rest, as far as it has a place: graves, vaults and ashes plots."""

from typing import Any

from plan_editor.plan.item import Item
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan


def resting_places(plan: Plan) -> tuple[Item[Any], ...]:
    """Return them all, graves first."""
    found = (i for kind in burial_kinds() for i in plan.of(kind))
    return tuple(i for i in found if i.shape is not None)
