"""What a further row of a plan is likely to be: as large, close and turned as the others."""

from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median

import shapely

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.rows import Row, rows
from plan_editor.kinds import section
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan

FEWEST = 3
"""A row of fewer tells no pitch."""

Place = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """What is usual on a plan.

    Args:
        size: width along the head line and length across it, in metres.
        pitch_m: from one to the next.
        facing_deg: the bearing from head to foot.
        told_by: where that comes from, in words.
    """

    size: tuple[float, float]
    pitch_m: float
    facing_deg: float
    told_by: str


def habit(plan: Plan, kind: Kind) -> Habit:
    """Return what is usual of a kind of rectangles on a plan.

    Where there is none yet it is the usual size of the kind, one beside the next, with the feet
    to the east: so Christian graves lie by custom, for the dead to rise facing the dawn.
    """
    there = [i.rectangle for i in plan.of(kind) if i.rectangle is not None]
    if not there:
        size = kind.usual_m or (1.0, 1.0)
        return Habit(size=size, pitch_m=size[0], facing_deg=90.0, told_by="the usual size")
    size = (median(r.width for r in there), median(r.length for r in there))
    pitches = [row.pitch_m for row in rows(plan, kind) if len(row.ids) >= FEWEST]
    return Habit(
        size=(round(size[0], 3), round(size[1], 3)),
        pitch_m=round(median(pitches), 3) if pitches else round(size[0], 3),
        facing_deg=_mostly(there),
        told_by=_told(len(pitches), len(there), kind),
    )


def prefix_at(plan: Plan, place: Place) -> str:
    """Return how numbers begin in the section of the ground in which a place lies; or nothing.

    Of several sections the smallest counts: a part of a part.
    """
    point = shapely.Point(place)
    held = [
        (i.shape.area, i.details.prefix.strip())
        for i in plan.of(section.KIND)
        if i.shape is not None and i.details.prefix.strip() and i.shape.covers(point)
    ]
    return min(held)[1] if held else ""


def numbers_of(plan: Plan, row: Row) -> tuple[str, ...]:
    """Return the numbers of a row, in its order; empty for those that have none."""
    return tuple(plan.items[i].number for i in row.ids)


def spaces_of(row: Row) -> tuple[int, ...]:
    """Return how many spaces each of a row stands after the first, counting empty ones."""
    found: list[int] = []
    heads = row.heads_along
    for place, along in enumerate(heads):
        step = 0 if place == 0 else max(1, round((along - heads[place - 1]) / row.pitch_m))
        found.append(step + (found[-1] if found else 0))
    return tuple(found)


def _mostly(there: Iterable[Rectangle]) -> float:
    """Return the bearing from head to foot that most have, to ten degrees."""
    counted: dict[int, int] = {}
    for rectangle in there:
        tens = round(rectangle.facing_deg / 10.0) % 36
        counted[tens] = counted.get(tens, 0) + 1
    return max(counted, key=lambda tens: counted[tens]) * 10.0


def _told(pitches: int, there: int, kind: Kind) -> str:
    if pitches:
        return (
            "as in the row there is" if pitches == 1 else f"as in the {pitches} rows there are"
        )
    return f"as the {there} {(kind.title if there == 1 else kind.plural).lower()} there"
