"""Memorials that stand on nobody's grave, and those kept as on a grave that is elsewhere."""

from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely

from plan_editor.checking.doubt import SURE, apart
from plan_editor.checking.resting import resting_places
from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named, within
from plan_editor.edits.basic import Describe
from plan_editor.edits.mending import Mend
from plan_editor.geometry.ranks import head_of
from plan_editor.kinds import memorial
from plan_editor.kinds.memorial import MemorialDetails, MemorialForm
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

NAME = "memorials_and_graves"

AT_HEAD_M = 0.6
"""A stone whose middle is no farther from the middle of a head line stands at that head."""

FAR_M = 1.0
"""A stone this far from its grave stands elsewhere, even where places are well known."""

OF_NOBODY = frozenset({MemorialForm.OBELISK, MemorialForm.VASE, MemorialForm.OTHER})
"""Forms that often commemorate without a grave: a cross for the fallen, a vase moved about."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find memorials without a grave, and memorials far from theirs."""
    stones = [m for m in plan.of(memorial.KIND) if m.shape is not None]
    lone = [m for m in stones if m.details.grave is None]
    for stone in stones:
        if stone.details.grave is not None:
            yield from _far(plan, stone, plan.items[stone.details.grave])
    if lone:
        yield from _without_grave(lone, resting_places(plan))


def _far(plan: Plan, stone: Item[MemorialDetails], grave: Item[Any]) -> Iterator[Finding]:
    if grave.shape is None or stone.shape is None:
        return
    far = float(shapely.distance(stone.shape, grave.shape))
    if far > FAR_M + SURE * apart(plan, stone, grave):
        yield Finding(
            rule=NAME,
            severity=Severity.DOUBT,
            items=(stone.id, grave.id),
            place=inside(stone.shape),
            text=f"{named((stone,))} is kept as standing on {within(grave)}, {far:.1f} m away.",
        )


def _without_grave(
    lone: list[Item[MemorialDetails]], graves: tuple[Item[Any], ...]
) -> Iterator[Finding]:
    tree = shapely.STRtree(np.array([g.shape for g in graves], dtype=object))
    for stone in lone:
        near = [graves[n] for n in tree.query(stone.lies, "dwithin", AT_HEAD_M).tolist()]
        at_it = [g for g in near if _stands_at(stone, g)]
        often = stone.details.form in OF_NOBODY
        yield Finding(
            rule=NAME,
            severity=Severity.REMARK if often else Severity.DOUBT,
            items=(stone.id, *(g.id for g in at_it)),
            place=inside(stone.lies),
            text=f"{named((stone,))} is kept as standing on no grave{_told(at_it)}.",
            mend=_linked(stone, at_it[0]) if len(at_it) == 1 else None,
        )


def _stands_at(stone: Item[MemorialDetails], grave: Item[Any]) -> bool:
    """Return whether a stone stands on a grave by half of it at least, or at its head."""
    if shapely.area(shapely.intersection(stone.lies, grave.shape)) >= stone.lies.area / 2:
        return True
    if grave.rectangle is None:
        return False
    head = np.subtract(head_of(grave.rectangle), inside(stone.lies))
    return bool(np.hypot(*head) <= AT_HEAD_M)


def _told(at_it: list[Item[Any]]) -> str:
    if not at_it:
        return ", and none that is drawn lies under it"
    told = [within(g) for g in at_it]
    return f"; it stands at {' or '.join(told)}"


def _linked(stone: Item[MemorialDetails], grave: Item[Any]) -> Edit:
    title = f"Keep {within(stone)} as standing on {within(grave)}"
    linked = Describe(ids=(stone.id,), details=(("grave", grave.id),))
    return Mend(title=title, edits=(linked,))


RULE = Rule(
    name=NAME,
    title="Memorials and their graves",
    help=(
        "Memorials that are kept as standing on no grave, and those more than 1 m and twice the"
        " doubt from the grave they are kept with. Where a stone stands on just one grave, or"
        " within 0.6 m of just one head, the two are put together."
    ),
    source="0.6 m and 1 m: our own figures; half a grave's usual breadth of 4 ft is 0.61 m.",
    find=find,
    order=110,
)
