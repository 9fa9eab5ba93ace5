"""Where the window looks for a thing that is due."""

from plan_editor.plan.checks import references
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

Box = tuple[float, float, float, float]

ABOUT_M = 6.0
"""So much ground is shown about a thing on each side."""


def box_to_show(plan: Plan, item: ItemId) -> Box | None:
    """Return the ground to look at for a thing: its own, or that of the first it refers to."""
    there = plan.items.get(item)
    if there is None:
        return None
    near = (there, *(plan.items[target] for _, _, target in references(there)))
    box = next((found for one in near if (found := one.box) is not None), None)
    if box is None:
        return None
    e0, n0, e1, n1 = box
    return e0 - ABOUT_M, n0 - ABOUT_M, e1 + ABOUT_M, n1 + ABOUT_M
