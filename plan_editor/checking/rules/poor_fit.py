"""Base plans that fit the ground badly, so that what is traced on them is vague."""

from collections.abc import Iterator
from math import hypot

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named
from plan_editor.edits.refitting import traced
from plan_editor.kinds import base_plan
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

NAME = "poor_fit"

NEXT_GRAVE_M = 0.61
"""Missed by more, a point of one grave may lie in the next: half of 4 ft, the breadth of a plot
(Stockton-on-Tees council, burial regulations)."""

OF_ITS_BREADTH = 1.0 / 250.0
"""Misfit by the length of ground that a plan shows from corner to corner: on a sheet 0.6 m
across it is 2.4 mm on the paper, five times the 0.5 mm to which draughtsmen plot."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find base plans whose points left out are missed by much, or of which nobody knows."""
    for item in plan.of(base_plan.KIND):
        if item.shape is None or not item.details.control:
            continue
        count = len(traced(plan, item.id))
        if item.details.loo_rmse_m is None:
            if count:
                yield _finding(item, Severity.REMARK, f"{_untold(item)}; {_things(count)}")
        else:
            yield from _missed(item, item.details.loo_rmse_m, count)


def _missed(item: Item[BasePlanDetails], miss: float, count: int) -> Iterator[Finding]:
    e0, n0, e1, n1 = item.lies.bounds
    across = hypot(e1 - e0, n1 - n0)
    told = f"misses points that are left out of its fit by {miss:.2f} m (root mean square)"
    vague = f"; {_things(count)}, and as vague" if count else ""
    if miss > NEXT_GRAVE_M and count:
        yield _finding(item, Severity.FAULT, f"{told}, so that a grave may be the next{vague}")
    elif miss > across * OF_ITS_BREADTH:
        much = f"much for the {across:,.0f} m that it shows"
        yield _finding(item, Severity.DOUBT, f"{told}, {much}{vague}")


def _untold(item: Item[BasePlanDetails]) -> str:
    points = len(item.details.control_points)
    return f"was placed by {points} points, none to spare, so nobody knows how well it fits"


def _things(count: int) -> str:
    return "1 thing is traced on it" if count == 1 else f"{count} things are traced on it"


def _finding(item: Item[BasePlanDetails], severity: Severity, told: str) -> Finding:
    return Finding(
        rule=NAME,
        severity=severity,
        items=(item.id,),
        place=inside(item.lies),
        text=f"{named((item,))} {told}.",
        shape=item.lies,
    )


RULE = Rule(
    name=NAME,
    title="Poor fit",
    help=(
        "Base plans that miss points left out of their fit by more than 1/250 of the ground"
        " that they show from corner to corner; or by more than 0.61 m, half a grave's breadth,"
        " where something is traced on them. Also those with things traced on them whose fit"
        " has no point to spare, so that its misfit is not known."
    ),
    source="Plots of 4 ft: Stockton-on-Tees council. Plotting to 0.5 mm: common practice.",
    find=find,
    order=120,
)
