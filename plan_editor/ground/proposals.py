"""Outlines that were found in a scan and are proposed to be drawn."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle, outlines
from plan_editor.kinds import grave
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Kind, kind_named
from plan_editor.plan.plan import Plan
from plan_editor.scans.sought import Size, Sought, Span

ENOUGH = 3
"""So many traced rectangles say what others look like; fewer do not."""

FROM_EXAMPLES, FROM_THE_USUAL = 0.12, 0.3
"""Shares by which a size may differ from the traced ones, or from the kind's usual size."""

ALIKE = 0.25
"""Sizes that differ by less than this share belong together."""

TURN_DEG, APART_DEG = 3.0, 12.0
"""By how much a bearing may differ from the traced ones; where bearings so far apart part."""

SURE_ENOUGH = 0.35
"""Proposals from this score on are worth accepting unless something is seen to be wrong."""

THERE_ALREADY = 0.3
"""A proposal that shares so much of their common ground with a thing is that thing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """One rectangle that a base plan seems to show.

    Args:
        rectangle: where it would lie, in metres about the plan's origin; its head line is on
            the side on which the graves already traced have theirs.
        score: how sure it is, from 0 to 1.
        base_plan: on which base plan it was found.
        kind: the name of the kind of thing that it would be.
    """

    rectangle: Rectangle
    score: float
    base_plan: ItemId
    kind: str = grave.KIND.name


def kind_proposed(proposal: Proposal | None) -> Kind:
    """Return what a proposal would be drawn as; a grave where nobody said otherwise."""
    found = kind_named(proposal.kind) if proposal is not None else None
    return found or grave.KIND


def learnt(plan: Plan, base_plan: ItemId, kind: Kind = grave.KIND) -> Sought:
    """Return what is to be looked for, as those of a kind that are drawn already show it.

    Those traced on that base plan say it where there are three or more, else all of the plan;
    where these are fewer than three too, the kind's usual size at any bearing.

    Raises:
        ValueError: then the kind has no usual size.
    """
    drawn = [(i.rectangle, i.basis.base_plan) for i in plan.of(kind) if i.rectangle is not None]
    traced = [rectangle for rectangle, on in drawn if on == base_plan]
    examples = traced if len(traced) >= ENOUGH else [rectangle for rectangle, _ in drawn]
    if len(examples) >= ENOUGH:
        return Sought(sizes=_sizes(examples), bearings=_bearings(examples))
    if kind.usual_m is None:
        raise ValueError(f"{kind.name} has no usual size")
    width, length = (_wider((metres,), FROM_THE_USUAL) for metres in kind.usual_m)
    return Sought(sizes=(Size(width=width, length=length),))


def new_proposals(
    found: Iterable[Proposal], plan: Plan, kind: Kind = grave.KIND
) -> tuple[Proposal, ...]:
    """Return those proposals that are not on the plan yet, the surest first.

    What is there is told by the share of the common ground, intersection over union.
    """
    kept = sorted(found, key=lambda p: -p.score)
    return _apart_from([i.shape for i in plan.of(kind) if i.shape is not None], kept)


def apart_from(others: Iterable[Proposal], found: Iterable[Proposal]) -> tuple[Proposal, ...]:
    """Return those proposals, in their order, that mean none of the others."""
    return _apart_from(outlines([p.rectangle for p in others]).tolist(), list(found))


def _apart_from(
    shapes: Sequence[BaseGeometry], kept: Sequence[Proposal]
) -> tuple[Proposal, ...]:
    if not kept or not shapes:
        return tuple(kept)
    there = np.array(shapes, dtype=object)
    mine = outlines([p.rectangle for p in kept])
    one, other = shapely.STRtree(there).query(mine, predicate="intersects")
    shared = shapely.area(shapely.intersection(mine[one], there[other]))
    whole = shapely.area(mine[one]) + shapely.area(there[other]) - shared
    taken = set(one[shared > THERE_ALREADY * whole].tolist())
    return tuple(p for n, p in enumerate(kept) if n not in taken)


def _sizes(examples: Sequence[Rectangle]) -> tuple[Size, ...]:
    """Return the sizes of rectangles, those alike together."""
    groups: list[list[Rectangle]] = []
    for one in sorted(examples, key=lambda r: (r.width * r.length, r.width)):
        mine = next((g for g in groups if _alike(g[-1], one)), None)
        if mine is None:
            groups.append([one])
        else:
            mine.append(one)
    return tuple(
        Size(
            width=_wider([r.width for r in group], FROM_EXAMPLES),
            length=_wider([r.length for r in group], FROM_EXAMPLES),
        )
        for group in groups
    )


def _alike(one: Rectangle, other: Rectangle) -> bool:
    pairs = ((one.width, other.width), (one.length, other.length))
    return all(abs(a - b) <= ALIKE * min(a, b) for a, b in pairs)


def _wider(numbers: Sequence[float], share: float) -> Span:
    return Span(min(numbers) * (1.0 - share), max(numbers) * (1.0 + share))


def _bearings(examples: Sequence[Rectangle]) -> tuple[Span, ...]:
    """Return the bearings of rectangles, parted where a gap of the circle is wide."""
    turns = sorted(r.bearing_deg % 360.0 for r in examples)
    gaps = [b - a for a, b in zip(turns, [*turns[1:], turns[0] + 360.0], strict=True)]
    breaks = [n for n, gap in enumerate(gaps) if gap > APART_DEG]
    if not breaks:
        return ()
    first = breaks[-1] + 1
    rolled = [*turns[first:], *(t + 360.0 for t in turns[:first])]
    ends = [n - first for n in breaks if n >= first] + [
        n + len(turns) - first for n in breaks if n < first
    ]
    spans, start = [], 0
    for end in sorted(ends):
        spans.append(Span(rolled[start] - TURN_DEG, rolled[end] + TURN_DEG))
        start = end + 1
    return tuple(spans)
