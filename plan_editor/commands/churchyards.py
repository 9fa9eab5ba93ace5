"""Several churchyards on one plan, for sheets: one of them alone, or all with a word on it."""

from plan_editor.errors import CannotUse
from plan_editor.ground.churchyards import (
    farthest_apart,
    named_churchyards,
    only_churchyard,
)
from plan_editor.plan.plan import Plan

FAR_M = 100.0
"""Churchyards so far apart are drawn small on one sheet, with much empty paper between."""


def churchyard_names(plan: Plan) -> tuple[str, ...]:
    """Return what the churchyards of a plan are called, each by a name of its own."""
    return tuple(name for name, _ in named_churchyards(plan))


def churchyard_alone(plan: Plan, name: str) -> tuple[Plan, tuple[str, ...]]:
    """Return the plan of one churchyard, or of all, and what is to be said of it.

    Args:
        plan: of them all.
        name: of the one; empty for all.

    Raises:
        CannotUse: there is none of that name.
    """
    known = dict(named_churchyards(plan))
    if not name:
        return plan, _of_all(plan, tuple(known))
    if name not in known:
        there = f"There are: {', '.join(known)}." if known else "None is drawn as an area."
        raise CannotUse(f"There is no churchyard called “{name}” on this plan. {there}")
    return only_churchyard(plan, known[name], name), ()


def _of_all(plan: Plan, names: tuple[str, ...]) -> tuple[str, ...]:
    far = farthest_apart(plan)
    if far <= FAR_M:
        return ()
    return (
        f"{len(names)} churchyards up to {far:,.0f} m apart lie on this sheet:"
        f" {', '.join(names)}. Each can be printed by itself, larger.",
    )
