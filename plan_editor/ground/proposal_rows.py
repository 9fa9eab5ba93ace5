"""In what order proposals are gone through: row after row, each along its head lines."""

from collections.abc import Sequence
from math import cos, radians, sin
from statistics import fmean

from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import head_of
from plan_editor.ground.proposals import Proposal
from plan_editor.ground.rows import rows_among
from plan_editor.kinds import grave
from plan_editor.plan.item import new_item
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan

ProposedRow = tuple[Proposal, ...]


def in_rows(proposals: Sequence[Proposal]) -> tuple[ProposedRow, ...]:
    """Return proposals in rows, in order along each; one that stands in none is its own row.

    The rows come in the order in which somebody meets them who walks from heads to feet, the
    way most of them lie: graves with their feet to the east are gone through from the west.
    """
    items = [new_item(grave.KIND, p.rectangle) for p in proposals]
    by_id = {item.id: proposal for item, proposal in zip(items, proposals, strict=True)}
    found = [tuple(by_id[i] for i in row.ids) for row in rows_among(items)]
    standing = {proposal for row in found for proposal in row}
    found += [(p,) for p in proposals if p not in standing]
    if not found:
        return ()
    down = _from_head_to_foot(proposals)
    return tuple(sorted(found, key=lambda row: _far_down(row, down)))


def numbers_before(plan: Plan, kind: Kind, rectangle: Rectangle) -> tuple[str, ...]:
    """Return the numbers of those on the plan that stand before a rectangle in its row."""
    there = [i for i in plan.of(kind) if i.rectangle is not None]
    mine = new_item(grave.KIND, rectangle)
    row = next((r for r in rows_among([*there, mine]) if mine.id in r.ids), None)
    if row is None:
        return ()
    return tuple(plan.items[i].number for i in row.ids[: row.ids.index(mine.id)])


def _from_head_to_foot(proposals: Sequence[Proposal]) -> tuple[float, float]:
    turns = [radians(p.rectangle.facing_deg) for p in proposals]
    return fmean(map(sin, turns)), fmean(map(cos, turns))


def _far_down(row: ProposedRow, way: tuple[float, float]) -> tuple[float, float]:
    heads = [head_of(p.rectangle) for p in row]
    east, north = fmean(e for e, _ in heads), fmean(n for _, n in heads)
    return east * way[0] + north * way[1], north
