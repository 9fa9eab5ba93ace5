"""How long the earth over a grave settles before it is levelled or bears a stone."""

from typing import Any

from plan_editor.ground.parish import parish_figures
from plan_editor.kinds import grave
from plan_editor.kinds.grave import GraveDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.days import last_day, months_after


def settling_until(dug: str, months: int) -> str:
    """Return the day on which a grave has settled; ``""`` where nobody wrote when it was dug.

    Args:
        dug: ISO date on which it was dug or opened last; of one that stops after the year or
            the month its last day counts.
        months: how long the parish lets a grave settle.
    """
    return months_after(last_day(dug), months) if dug else ""


def settled_on(plan: Plan, space: Item[Any]) -> str:
    """Return the day on which a space has settled; ``""`` of what is no grave, or long dug."""
    if space.kind != grave.KIND:
        return ""
    return settling_until(space.details.dug, parish_figures(plan).settling_months)


def settling_graves(plan: Plan, on: str) -> tuple[Item[GraveDetails], ...]:
    """Return the graves that settle on an ISO date."""
    months = parish_figures(plan).settling_months
    return tuple(g for g in plan.of(grave.KIND) if _settles(g.details.dug, on, months))


def _settles(dug: str, on: str, months: int) -> bool:
    return bool(dug) and dug <= on < settling_until(dug, months)
