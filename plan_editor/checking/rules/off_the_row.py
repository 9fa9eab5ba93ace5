"""Graves out of line with their row, or turned against it, by more than their doubt."""

from collections.abc import Iterator
from math import sqrt
from typing import Any

import numpy as np

from plan_editor.checking.doubt import SURE, beside_sd, turn_sd
from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.straight_rows import FEWEST, Straightness, straightness
from plan_editor.checking.strays import strays
from plan_editor.checking.words import inside, named, within
from plan_editor.edits.mending import Mend
from plan_editor.edits.places import Reshape
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import head_of, with_head_at
from plan_editor.ground.rows import Row, rows
from plan_editor.kinds import grave
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, Method
from plan_editor.plan.plan import Plan

NAME = "off_the_row"

RAGGED = 3.0
"""So many standard deviations of the row itself are still of the row."""

LEAST_M = 0.2
LEAST_DEG = 3.0
"""Less than this nobody sees: the breadth of a spade, and as much as a cord allows."""

TIDIED = frozenset({Method.TRACED, Method.UNKNOWN, Method.COMPUTED})
"""What was not measured on the ground may be put in line; a measurement stands as it is."""


def find(plan: Plan) -> Iterator[Finding]:
    """Find graves out of line with their neighbours, or turned against them."""
    found = rows(plan)
    for row in found:
        if len(row.ids) >= FEWEST:
            items = [plan.items[i] for i in row.ids]
            yield from _out_of(plan, row, items, items)
    graves = [g for g in plan.of(grave.KIND) if g.rectangle is not None]
    for stray, row in strays(found, graves):
        yield from _out_of(plan, row, [*(plan.items[i] for i in row.ids), stray], [stray])


def _out_of(
    plan: Plan, row: Row, items: list[Item[Any]], judged: list[Item[Any]]
) -> Iterator[Finding]:
    """Return which of these are out of line with all that belong in a row."""
    placed = [(i, i.rectangle) for i in items if i.rectangle is not None]
    placed.sort(key=lambda p: row.axis.within(head_of(p[1]))[0])
    heads = np.array([row.axis.within(head_of(r)) for _, r in placed])
    turns = np.array([r.bearing_deg for _, r in placed]) - row.bearing_deg
    straight = straightness(heads[:, 0], heads[:, 1], (turns + 180.0) % 360.0 - 180.0)
    usual = _usual_doubt(plan, items)
    for n, (item, place) in enumerate(placed):
        doubt = sqrt(max(beside_sd(plan, item) ** 2 - usual**2, 0.0))
        told = _told(straight, n, _allowed(doubt, place, straight))
        if told and item in judged:
            head = row.axis.at(float(heads[n, 0]), float(straight.line[n]))
            bearing = row.bearing_deg + float(straight.usual_turn[n])
            yield _finding(item, told, with_head_at(place, head, bearing))


def _usual_doubt(plan: Plan, items: list[Item[Any]]) -> float:
    return float(np.median([beside_sd(plan, i) for i in items]))


def _allowed(doubt: float, place: Rectangle, straight: Straightness) -> tuple[float, float]:
    """Return how far aside and how far turned says nothing yet, in metres and degrees.

    Args:
        doubt: by how much the grave is less sure than those beside it, in metres; how sure
            they are beside one another, the row itself tells.
        place: where it lies.
        straight: how the row runs.
    """
    return (
        max(SURE * doubt, RAGGED * straight.ragged_m, LEAST_M),
        max(SURE * turn_sd(doubt, place.length), RAGGED * straight.ragged_deg, LEAST_DEG),
    )


def _told(straight: Straightness, n: int, allowed: tuple[float, float]) -> str:
    aside, turned = abs(float(straight.aside[n])), abs(float(straight.turned[n]))
    told = []
    if aside > allowed[0]:
        told.append(
            f"stands {aside:.2f} m out of line with its row (up to {allowed[0]:.2f} m is"
            " doubt, or how the row runs)"
        )
    if turned > allowed[1]:
        told.append(f"is turned by {turned:.1f}° against its row (up to {allowed[1]:.1f}°)")
    return " and ".join(told)


def _finding(item: Item[Any], told: str, place: Rectangle) -> Finding:
    tidied = item.basis.method in TIDIED
    measured = "" if tidied else f" Its place was measured ({item.basis.method}): look there."
    return Finding(
        rule=NAME,
        severity=Severity.REMARK,
        items=(item.id,),
        place=inside(item.lies),
        text=f"{named((item,))} {told}.{measured}",
        mend=_put_in_line(item, place) if tidied else None,
        shape=place.outline(),
    )


def _put_in_line(item: Item[Any], place: Rectangle) -> Edit:
    title = f"Put {within(item)} in line with its row"
    return Mend(title=title, edits=(Reshape(id=item.id, place=place),))


RULE = Rule(
    name=NAME,
    title="Off the row",
    help=(
        "Graves of a row of five or more that stand aside from the line of their nearest six,"
        " or are turned against them, by more than three times the raggedness of the row, 0.2 m"
        " or 3°; where one is less sure than the others, by more than twice that doubt. Also"
        " graves up to 1.5 m aside of such a row that has room for them. What was measured on"
        " the ground is not put in line by a button."
    ),
    source="Our own figures; rows are laid with a cord along the heads, by custom.",
    find=find,
    order=100,
)
