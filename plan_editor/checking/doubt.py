"""How uncertain places are to one another: what a rule allows before it says anything."""

from math import atan2, degrees, hypot, sqrt
from typing import Any

from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

UNTOLD_M = 0.1
"""The standard deviation taken for a place of which none is recorded: our own figure."""

DRAWN_M = 0.05
"""That of a corner drawn over a base plan beside the next one on it: the breadth of a line.

0.25 mm on paper, the plottable accuracy that textbooks of surveying give, is 5 cm at 1:200.
"""

SURE = 2.0
"""What differs by more than so many standard deviations is taken to differ."""


def sd(item: Item[Any]) -> float:
    """Return the standard deviation of an item's place, in metres."""
    return UNTOLD_M if item.basis.sd_m is None else item.basis.sd_m


def beside_sd(plan: Plan, item: Item[Any]) -> float:
    """Return that of its place among others on the same base plan.

    By how much the base plan itself is misplaced there, they have in common.
    """
    under = plan.items.get(item.basis.base_plan) if item.basis.base_plan else None
    shared = 0.0 if under is None or under.basis.sd_m is None else under.basis.sd_m
    return max(sqrt(max(sd(item) ** 2 - shared**2, 0.0)), DRAWN_M)


def apart(plan: Plan, one: Item[Any], other: Item[Any]) -> float:
    """Return the standard deviation of how two things lie to each other, in metres."""
    same = one.basis.base_plan is not None and one.basis.base_plan == other.basis.base_plan
    if same:
        return hypot(beside_sd(plan, one), beside_sd(plan, other))
    return hypot(sd(one), sd(other))


def turn_sd(sd_m: float, length: float) -> float:
    """Return the standard deviation of a bearing, in degrees, along a side of that length."""
    return degrees(atan2(sd_m * sqrt(2.0), length))
