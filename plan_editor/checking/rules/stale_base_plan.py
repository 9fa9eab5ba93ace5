"""Things traced on a base plan that was placed anew without them, is gone, or is too old.

Only what the plan itself shows is said: that something lies beyond the paper on which it was
traced, that it claims less doubt than the base plan now has, that nobody can look up where it
came from, or that it was put up after the paper was drawn. That a paper is old by itself is no
finding: most are.
"""

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
import shapely

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named, within
from plan_editor.kinds import base_plan
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.item import Item, Method
from plan_editor.plan.plan import Plan

NAME = "stale_base_plan"

BEYOND_M = 0.1
"""What lies farther beyond the paper than this cannot have been traced on it as it lies now."""


TOO_SURE = 0.5
"""What claims less than so much of the doubt of the fit was traced on another fit."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find traced things whose base plan does not, or no longer, bear them out."""
    traced: dict[str | None, list[Item[Any]]] = {}
    for item in plan.items.values():
        if item.basis.method is Method.TRACED and item.shape is not None:
            traced.setdefault(item.basis.base_plan, []).append(item)
    for under in plan.of(base_plan.KIND):
        if there := traced.get(under.id):
            yield from _beyond(under, there)
            yield from _too_sure(under, there)
            yield from _too_new(under, there)
    yield from _gone(traced.get(None, ()))


def _beyond(under: Item[BasePlanDetails], traced: list[Item[Any]]) -> Iterator[Finding]:
    if under.shape is None:
        yield _finding(under, traced, "though that is placed no longer")
        return
    shapes = np.array([i.shape for i in traced], dtype=object)
    paper = shapely.buffer(under.shape, BEYOND_M)
    shapely.prepare(paper)
    out = [traced[n] for n in np.flatnonzero(~shapely.covers(paper, shapes)).tolist()]
    if out:
        words = "but beyond its edge: one or the other was moved since"
        yield _finding(under, out, words)


def _too_sure(under: Item[BasePlanDetails], traced: list[Item[Any]]) -> Iterator[Finding]:
    """What is traced is as sure as the fit then was: surer than it is now, the fit changed."""
    now = under.basis.sd_m or 0.0
    sure = [i for i in traced if i.basis.sd_m is not None and i.basis.sd_m < TOO_SURE * now]
    if sure:
        words = (
            f"but with less than half the standard deviation that it has now, {now:.2f} m: it"
            " was placed anew since"
        )
        yield _finding(under, sure, words)


def _too_new(under: Item[BasePlanDetails], traced: list[Item[Any]]) -> Iterator[Finding]:
    drawn = under.details.date
    later = [i for i in traced if drawn and _since(i)[: len(drawn)] > drawn]
    if later:
        words = f"but newer than {drawn}, when that was drawn"
        yield _finding(under, later, words)


def _since(item: Item[Any]) -> str:
    return str(getattr(item.details, item.kind.since)) if item.kind.since else ""


def _gone(traced: Iterable[Item[Any]]) -> Iterator[Finding]:
    by_source: dict[str, list[Item[Any]]] = {}
    for item in traced:
        by_source.setdefault(" ".join(item.basis.source.split()), []).append(item)
    for source, items in by_source.items():
        called = f"“{source}”" if source else "something that is not named"
        yield Finding(
            rule=NAME,
            severity=Severity.REMARK,
            items=tuple(i.id for i in items),
            place=_place(items),
            text=(
                f"{_counted(items)} traced on {called}, which lies under the plan no longer, so"
                " nobody can compare."
            ),
        )


def _finding(under: Item[BasePlanDetails], items: list[Item[Any]], told: str) -> Finding:
    return Finding(
        rule=NAME,
        severity=Severity.DOUBT,
        items=(*(i.id for i in items), under.id),
        place=_place(items),
        text=f"{_counted(items)} kept as traced on {within(under)}, {told}.",
    )


def _counted(items: list[Item[Any]]) -> str:
    if len(items) == 1:
        return f"{named(items)} is"
    return f"{len(items)} things, {within(items[0])} among them, are"


def _place(items: list[Item[Any]]) -> tuple[float, float]:
    return inside(items[0].lies)


RULE = Rule(
    name=NAME,
    title="Stale base plan",
    help=(
        "Things kept as traced on a base plan that lie beyond its edge, or claim less than half"
        " its standard deviation, because it was placed anew without them; on one that is gone,"
        " or placed no longer; and things newer than the paper."
    ),
    source="10 cm beyond the edge, half the standard deviation: our own figures.",
    find=find,
    order=130,
)
