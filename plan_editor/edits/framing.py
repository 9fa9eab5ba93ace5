"""How the whole plan would lie in another grid, by marks whose coordinates are known there."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from shapely import get_coordinates

from plan_editor.edits.chosen import chosen
from plan_editor.errors import CannotUse, EditRefused
from plan_editor.kinds import mark
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.crs import checked
from plan_editor.survey.grids.frame_faults import misfit, together
from plan_editor.survey.grids.frame_fit import FrameFit, Known, frame_fit
from plan_editor.survey.grids.grid import Grid
from plan_editor.survey.grids.grid_facts import grid_facts, scale_factor

ORIGIN_M = 100.0
"""The new origin lies on whole hundreds of metres, south-west of the marks; our own figure."""

USUAL_SD_M = 0.03
"""Of a mark about which no standard deviation is recorded, in metres: our own figure."""

LEAST_SD_M = 0.001
"""No place is known better, in metres; coordinates are kept to that."""

FARTHEST_M = 1e8
"""No projected coordinate is greater; the earth is 40 000 km round."""

_NOTHING = "The plan was not moved, and nothing was changed."


class Scale(StrEnum):
    """What a metre of the plan becomes.

    Held: a metre on the ground, as the new grid has it there. Free: what the marks say.
    """

    HELD = "held"
    FREE = "free"


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownMark:
    """A mark of the plan and where it lies in the new grid.

    Args:
        mark: the item.
        east, north: coordinates of the new system, in metres.
        sd_m: their standard deviation, in metres, or None where it is not known.
    """

    mark: ItemId
    east: float
    north: float
    sd_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Framing:
    """How the plan would lie in the new grid.

    Args:
        grid: the new one.
        marks: known in both, in the order in which they were given.
        fit: how they agree.
        held_scale: metres of the new grid to a metre of the old where the ground is kept as it
            is: the quotient of the scale factors of the two projections.
    """

    grid: Grid
    marks: tuple[Known, ...]
    fit: FrameFit
    held_scale: float


def framed(
    plan: Plan, crs: str, marks: Sequence[KnownMark], scale: Scale = Scale.HELD
) -> Framing:
    """Return how the plan would lie in a coordinate system, before anything is done.

    Raises:
        EditRefused: the system cannot be used; a mark is not on the plan, is named twice, or
            has no number for a coordinate; there are fewer than two, or they lie all together;
            they fit only mirrored, at another scale, or not at all.
    """
    items = _marks_on(plan, marks)
    grid = Grid(
        crs=_system(crs),
        east=_origin(k.east for k in marks),
        north=_origin(k.north for k in marks),
    )
    known = tuple(_known(i, k, grid) for i, k in zip(items, marks, strict=True))
    _refuse(together(known))
    held = _held_scale(plan.grid, grid, known)
    fit = frame_fit(known, scale=held if scale is Scale.HELD else None)
    _refuse(misfit(known, fit, held))
    return Framing(grid=grid, marks=known, fit=fit, held_scale=held)


def _system(crs: str) -> str:
    try:
        return checked(crs)
    except CannotUse as error:
        raise EditRefused(str(error)) from error


def _marks_on(plan: Plan, marks: Sequence[KnownMark]) -> tuple[Item[mark.MarkDetails], ...]:
    if len(marks) < 2:
        raise EditRefused(
            f"{_NOTHING} It takes two marks with known coordinates, better four, and "
            f"{'only one was' if marks else 'none were'} given."
        )
    items = chosen(plan, (k.mark for k in marks))
    if len(items) < len(marks):
        raise EditRefused(f"{_NOTHING} A mark was given twice. Give each once.")
    for item, known in zip(items, marks, strict=True):
        _refuse_unsuited(item, known)
    return items


def _refuse_unsuited(item: Item[mark.MarkDetails], known: KnownMark) -> None:
    if item.kind != mark.KIND:
        raise EditRefused(f"{_NOTHING} {item.called()} is no mark. Choose a mark.")
    # written so that what is not a number is refused too
    if not all(abs(n) < FARTHEST_M for n in (known.east, known.north)):
        raise EditRefused(
            f"{_NOTHING} The coordinates of {item.called()} are no place of any grid. Write"
            " them in metres."
        )
    if known.sd_m is not None and not 0.0 <= known.sd_m < FARTHEST_M:
        raise EditRefused(
            f"{_NOTHING} The standard deviation of {item.called()} is no length. Write it in"
            " metres, such as 0.02."
        )


def _refuse(fault: str) -> None:
    if fault:
        raise EditRefused(f"{_NOTHING} {fault}")


def _origin(coordinates: Iterable[float]) -> float:
    return math.floor(min(coordinates) / ORIGIN_M) * ORIGIN_M


def _known(item: Item[mark.MarkDetails], known: KnownMark, grid: Grid) -> Known:
    ((east, north),) = get_coordinates(item.shape).tolist()
    to_east, to_north = grid.to_plan(known.east, known.north)
    sds = (max(s or USUAL_SD_M, LEAST_SD_M) for s in (item.basis.sd_m, known.sd_m))
    return Known(
        name=item.number or item.called(),
        east=east,
        north=north,
        to_east=to_east,
        to_north=to_north,
        sd=math.hypot(*sds),
    )


def _held_scale(before: Grid, after: Grid, marks: Sequence[Known]) -> float:
    try:
        return _scale_there(after, marks) / _scale_here(before, marks)
    except CannotUse as error:
        raise EditRefused(f"{_NOTHING} {error}") from error


def _scale_here(grid: Grid, marks: Sequence[Known]) -> float:
    return scale_factor(grid, _mean(m.east for m in marks), _mean(m.north for m in marks))


def _scale_there(grid: Grid, marks: Sequence[Known]) -> float:
    east, north = _mean(m.to_east for m in marks), _mean(m.to_north for m in marks)
    facts = grid_facts(grid, east, north)
    if facts is not None and facts.area:
        e, n = grid.to_crs(east, north)
        raise EditRefused(
            f"{_NOTHING} E {e:.0f}, N {n:.0f} lies outside of what {grid.crs} is made for:"
            f" {facts.area.rstrip('.')}. Were easting and northing exchanged, or is it another"
            " system?"
        )
    return 1.0 if facts is None else facts.scale_factor


def _mean(numbers: Iterable[float]) -> float:
    listed = tuple(numbers)
    return math.fsum(listed) / len(listed)
