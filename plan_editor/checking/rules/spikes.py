"""Outlines that run out and back along the same line, and so have a spike of no breadth."""

from collections.abc import Iterator
from typing import Any

import numpy as np
from shapely import LineString, Polygon

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, within
from plan_editor.edits.mending import Mend
from plan_editor.edits.places import Reshape
from plan_editor.geometry.spikes import BREADTH_M, Spike, spiked, spikes, without_spikes
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

NAME = "spikes"


def find(plan: Plan) -> Iterator[Finding]:
    """Find areas drawn by hand whose outline has a spike."""
    items = [i for i in plan.items.values() if _is_loose_area(i)]
    shapes = np.array([i.shape for i in items], dtype=object)
    for n in spiked(shapes).tolist():
        yield _finding(items[n])


def _is_loose_area(item: Item[Any]) -> bool:
    by_hand = item.rectangle is None and not item.kind.pinned
    return by_hand and item.shape is not None and item.shape.area > 0.0


def _finding(item: Item[Any]) -> Finding:
    found = spikes(item.lies) if isinstance(item.lies, Polygon) else ()
    count = "a spike" if len(found) < 2 else f"{len(found)} spikes"
    return Finding(
        rule=NAME,
        severity=Severity.REMARK,
        items=(item.id,),
        place=found[0].tip if found else inside(item.lies),
        text=(
            f"The outline of {within(item)} has {count}{_length(found)}, nowhere broader than"
            f" {BREADTH_M * 100:.0f} cm."
        ),
        mend=_blunted(item, item.lies) if isinstance(item.lies, Polygon) else None,
        shape=LineString([found[0].foot, found[0].tip]) if found else None,
    )


def _length(found: tuple[Spike, ...]) -> str:
    return f" {found[0].length_m:.2f} m long" if len(found) == 1 else ""


def _blunted(item: Item[Any], shape: Polygon) -> Edit | None:
    blunt = without_spikes(shape)
    if blunt is None:
        return None
    title = f"Take a spike out of {within(item)}"
    return Mend(title=title, edits=(Reshape(id=item.id, place=blunt),))


RULE = Rule(
    name=NAME,
    title="Spikes in outlines",
    help=(
        "Areas whose outline runs out and back along the same line, at most 1 cm apart. Taking"
        " the spike out leaves every other corner where it is."
    ),
    source="1 cm is 0.1 mm on paper at 1:100, thinner than any pen line; our own figure.",
    find=find,
    order=90,
)
