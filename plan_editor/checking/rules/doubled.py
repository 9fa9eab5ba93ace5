"""Things that are on the plan twice: of one kind, in one place, of one shape."""

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
import shapely

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, within
from plan_editor.edits.basic import Remove
from plan_editor.edits.mending import Mend
from plan_editor.plan.checks import references, spoken
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import kinds
from plan_editor.plan.plan import Plan

NAME = "doubled"

SAME_M = 0.02
"""Outlines no farther from each other than this are the same."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find pairs of things of one kind with the same outline."""
    pairs = [pair for kind in kinds() if not kind.pinned for pair in _twice(plan.of(kind))]
    pointed_at: frozenset[ItemId] = frozenset()
    if pairs:
        pointed_at = frozenset(t for i in plan.items.values() for _, _, t in references(i))
    return (_finding(one, other, pointed_at) for one, other in pairs)


def _twice(of_kind: Iterable[Item[Any]]) -> Iterator[tuple[Item[Any], Item[Any]]]:
    items = [i for i in of_kind if i.shape is not None]
    if len(items) < 2:
        return
    shapes = np.array([i.shape for i in items], dtype=object)
    # what has the same outline has the same box; this is faster than to look at outlines
    corners = np.round(shapely.bounds(shapes), 3)
    middles = np.asarray(shapely.points((corners[:, :2] + corners[:, 2:]) / 2), dtype=object)
    first, second = shapely.STRtree(middles).query(middles, "dwithin", SAME_M)
    once = first < second
    first, second = first[once], second[once]
    far = shapely.hausdorff_distance(shapes[first], shapes[second])
    for n in np.flatnonzero(far <= SAME_M).tolist():
        yield items[first[n]], items[second[n]]


def _finding(one: Item[Any], other: Item[Any], pointed_at: frozenset[ItemId]) -> Finding:
    name, another = one.called(), within(other)
    twice = f"{name} is on the plan twice, in one place" if name == other.called() else ""
    return Finding(
        rule=NAME,
        severity=Severity.FAULT,
        items=(one.id, other.id),
        place=inside(one.lies),
        text=f"{twice or f'{name} and {another} have one and the same outline'}.",
        mend=_without(one, other, pointed_at),
    )


def _without(one: Item[Any], other: Item[Any], pointed_at: frozenset[ItemId]) -> Edit | None:
    """Return how one of two goes, if nothing that is recorded would be lost with it."""
    for kept, spare in ((one, other), (other, one)):
        same = spare.details in (kept.details, spare.kind.details())
        unnumbered = spoken(spare.number) in ("", spoken(kept.number))
        if same and unnumbered and spare.id not in pointed_at:
            title = f"Remove {within(spare)}, drawn twice"
            return Mend(title=title, edits=(Remove(ids=(spare.id,)),))
    return None


RULE = Rule(
    name=NAME,
    title="Drawn twice",
    help=(
        "Two things of one kind whose outlines are nowhere farther apart than 2 cm. One goes"
        " where it records nothing that the other does not."
    ),
    source="2 cm: our own figure; nothing in a churchyard is drawn more finely.",
    find=find,
    order=80,
)
