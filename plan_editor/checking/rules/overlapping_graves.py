"""Graves that lie over one another by more than the doubt in their places."""

from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely

from plan_editor.checking.doubt import SURE, apart
from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named, within
from plan_editor.geometry.depth import depth
from plan_editor.kinds import ashes_plot, grave, vault
from plan_editor.plan.item import Item, Status
from plan_editor.plan.plan import Plan

NAME = "overlapping_graves"

ONE_SHAPE = 0.98
"""Two that share so much of the larger are one thing drawn twice, which another rule tells."""

TOGETHER = ((grave.KIND, vault.KIND), (ashes_plot.KIND,))
"""Kinds held against each other: ashes are often laid in a grave, which is no fault."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find graves and vaults that lie in each other, and ashes plots that do."""
    for kinds in TOGETHER:
        found = (i for k in kinds for i in plan.of(k) if i.shape is not None)
        yield from _among(plan, [i for i in found if i.status is not Status.TO_BE_REMOVED])


def _among(plan: Plan, items: list[Item[Any]]) -> Iterator[Finding]:
    shapes = np.array([i.shape for i in items], dtype=object)
    first, second = shapely.STRtree(shapes).query(shapes, "overlaps")
    within_one, other = shapely.STRtree(shapes).query(shapes, "within")
    first, second = np.append(first, within_one), np.append(second, other)
    pairs = {(min(p), max(p)) for p in zip(first.tolist(), second.tolist(), strict=True)}
    for n, m in sorted(pairs):
        if n != m:
            yield from _pair(plan, items[n], items[m])


def _pair(plan: Plan, one: Item[Any], other: Item[Any]) -> Iterator[Finding]:
    shared = shapely.intersection(one.lies, other.lies)
    smaller, larger = sorted((one.lies.area, other.lies.area))
    if shared.area >= ONE_SHAPE * larger:
        return
    deep, allowed = depth(one.lies, other.lies), SURE * apart(plan, one, other)
    if deep > allowed:
        yield Finding(
            rule=NAME,
            severity=Severity.FAULT if shared.area > smaller / 2 else Severity.DOUBT,
            items=(one.id, other.id),
            place=inside(shared),
            text=(
                f"{named((one,))} and {within(other)} share {shared.area:.2f} m², {deep:.2f} m"
                f" deep; the doubt in their places explains {allowed:.2f} m."
            ),
            shape=shared,
        )


RULE = Rule(
    name=NAME,
    title="Overlapping graves",
    help=(
        "Graves and vaults, or ashes plots, that lie deeper in one another than twice the"
        " standard deviation of their places to each other. Old ground was often used again, so"
        " that two graves of different times may truly overlap."
    ),
    source="Twice the standard deviation, 95 in 100: JCGM 100:2008, 6.2.",
    find=find,
    order=10,
)
