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

GRAVE_M = 0.6
"""Missed by so much, a grave 4 ft (1.22 m) broad lies half on its neighbour's plot."""

OF_ITS_BREADTH = 1.0 / 250.0
"""Misfit by the length of ground that a plan shows from corner to corner: on a sheet 0.6 m
across it is 2.4 mm on the paper, five times the 0.5 mm to which draughtsmen plot."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find base plans whose points left out are missed by much."""
    for item in plan.of(base_plan.KIND):
        miss = item.details.loo_rmse_m
        if item.shape is None or miss is None:
            continue
        e0, n0, e1, n1 = item.shape.bounds
        across = hypot(e1 - e0, n1 - n0)
        count = len(traced(plan, item.id))
        if miss > across * OF_ITS_BREADTH:
            yield _finding(item, miss, f"much for the {across:,.0f} m that it shows", count)
        elif miss > GRAVE_M and count:
            yield _finding(item, miss, "half the breadth of a grave or more", count)


def _finding(item: Item[BasePlanDetails], miss: float, much: str, count: int) -> Finding:
    vague = f" {count} {'thing' if count == 1 else 'things'} traced on it may be as far off."
    assert item.shape is not None  # noqa: S101  # only such are looked at
    return Finding(
        rule=NAME,
        severity=Severity.DOUBT,
        items=(item.id,),
        place=inside(item.shape),
        text=(
            f"{named((item,))} misses points that are left out of its fit by {miss:.2f} m,"
            f" {much}.{vague if count else ''} Look for a wrong point, or place it by more."
        ),
        shape=item.shape,
    )


RULE = Rule(
    name=NAME,
    title="Poor fit",
    help=(
        "Base plans whose misfit of points left out is more than 1/250 of the ground that they"
        " show from corner to corner; or more than 0.6 m, where something is traced on them."
    ),
    source="Plots of 4 ft: Stockton-on-Tees council. Plotting to 0.5 mm: common practice.",
    find=find,
    order=120,
)
