"""How well pegs can be set out by tape over the ground, with the marks that there are."""

from dataclasses import dataclass
from math import sqrt
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.errors import CannotUse
from plan_editor.ground.marks import standing_marks
from plan_editor.ground.sights import OVER_M, Obstacles, obstacles, seen
from plan_editor.kinds import boundary, building
from plan_editor.kinds.mark import MarkDetails
from plan_editor.plan.item import Item, Status
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.fixes import CHECKS_DEG, Fixes, Ties, fixes, ties
from plan_editor.survey.adjustment.taping import usual

TAPE_M = 30.0
"""The usual length of a tape."""

SIDE_M = 1.0
"""Side of a cell of ground."""

MOST_CELLS = 10_000
"""A larger ground is cut into larger cells."""

MOST_IN_BOX = 50 * MOST_CELLS
"""The same of a long ground that lies askew, with all that lies beside it."""

UNTOLD_SD_M = 0.10
"""What a mark is taken to be known within where nothing is recorded; our own figure."""

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cells:
    """The ground within the boundary, buildings left out, as squares.

    Args:
        centres: n by 2, east and north in metres about the plan's origin.
        side_m: of each square.
        ground: what they lie in.
    """

    centres: Numbers
    side_m: float
    ground: BaseGeometry


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reach:
    """How well a peg can be set out in each cell.

    Args:
        cells: the squares of ground.
        fixes: of each, the error of a peg and whether three ties would check it.
        ties: of each, the ties that reach it.
        tape_m: length of the tape.
        marks: those that were measured from.
        past: what stops a tape.
    """

    cells: Cells
    fixes: Fixes
    ties: Ties
    tape_m: float
    marks: tuple[Item[MarkDetails], ...]
    past: Obstacles

    def basis(self) -> tuple[str, ...]:
        """Return on what the figures rest, sentence by sentence."""
        return _basis(self)


def reach(plan: Plan, tape_m: float = TAPE_M) -> Reach:
    """Return how well pegs can be set out over the ground.

    A peg's error is √(sE² + sN²) by its best two or three ties, from the standard deviations
    of the tape and of the marks; see ``survey/adjustment/fixes.py``. Cost: a tenth of a
    second for a hectare with 20 marks.

    Raises:
        CannotUse: there is no mark, or no boundary with ground in it.
    """
    marks = standing_marks(plan)
    if not marks:
        raise CannotUse(
            "There is no mark on this plan to measure from. Add marks first: corners of the"
            " church, ends of walls, gateposts."
        )
    ground, past = cells(plan), obstacles(plan)
    stations = stations_of(marks)
    reached = seen(stations, ground.centres, tape_m, past)
    sd = tie_sd(stations, ground.centres, np.array([sd_of(i) for i in marks]))
    found = ties(ground.centres, stations, sd, reached)
    return Reach(
        cells=ground, fixes=fixes(found), ties=found, tape_m=tape_m, marks=marks, past=past
    )


def stations_of(marks: tuple[Item[MarkDetails], ...]) -> Numbers:
    """Return the places of marks: k by 2, east and north in metres."""
    found: Numbers = shapely.get_coordinates([i.shape for i in marks])
    return found


def sd_of(item: Item[Any]) -> float:
    """Return the standard deviation of a mark, in metres; an assumed one if none is known."""
    return UNTOLD_SD_M if item.basis.sd_m is None else item.basis.sd_m


def tie_sd(stations: Numbers, places: Numbers, of_station: Numbers) -> Numbers:
    """Return the standard deviation of each tie with its mark's share: n by k, in metres.

    The tape's own is that which is usual in field books: ``resources/taping.toml``.
    """
    way = places[:, None, :] - stations[None, :, :]
    tape = usual().tape
    by_tape = tape.reading_m + tape.per_metre * np.hypot(way[..., 0], way[..., 1])
    found: Numbers = np.hypot(by_tape, of_station[None, :])
    return found


def cells(plan: Plan) -> Cells:
    """Return the ground within the boundary, buildings left out, cut into squares.

    Raises:
        CannotUse: there is no boundary that goes round ground, or buildings cover it.
    """
    ground = _ground(plan)
    west, south, east, north = ground.bounds
    side = max(
        min(SIDE_M, sqrt(ground.area / 100.0)),
        sqrt(ground.area / MOST_CELLS),
        sqrt((east - west) * (north - south) / MOST_IN_BOX),
    )
    across = np.arange(np.floor(west / side) + 0.5, east / side) * side
    up = np.arange(np.floor(south / side) + 0.5, north / side) * side
    grid = np.stack(np.meshgrid(across, up), axis=-1).reshape(-1, 2)
    shapely.prepare(ground)
    centres = grid[shapely.contains_xy(ground, grid)]
    if not len(centres):  # a sliver, missed by every centre
        centres = shapely.get_coordinates(ground.representative_point())
    return Cells(centres=centres, side_m=float(side), ground=ground)


def _ground(plan: Plan) -> BaseGeometry:
    drawn = [i.shape for i in plan.of(boundary.KIND) if i.status is not Status.PROPOSED]
    areas = [s for s in drawn if s is not None and s.geom_type != "LineString"]
    lines = [s for s in drawn if s is not None and s.geom_type == "LineString"]
    round_it = shapely.union_all([*areas, shapely.build_area(shapely.union_all(lines))])
    if round_it.is_empty:
        raise CannotUse(
            "No boundary goes round the churchyard on this plan, so it is not known which"
            " ground is meant. Draw the boundary as an area first."
        )
    built = [i.shape for i in plan.of(building.KIND) if i.status is not Status.PROPOSED]
    left = shapely.difference(round_it, shapely.union_all(built))
    if left.is_empty:
        raise CannotUse("Buildings cover all the ground within the boundary on this plan.")
    return left


def _basis(found: Reach) -> tuple[str, ...]:
    tape = usual().tape
    untold = sum(i.basis.sd_m is None for i in found.marks)
    loose = sum(not i.details.permanent for i in found.marks)
    high = found.past.untold
    told = [
        f"{_count(len(found.marks), 'mark')}; a {tape.title}, {found.tape_m:g} m long, whose"
        f" standard deviation is {tape.reading_m * 1000:g} mm and {tape.per_metre * 1000:g} mm"
        " for each metre; every tie has its mark's own standard deviation besides.",
        "The error of a peg is √(sE² + sN²) by its best two or three ties; about two pegs in"
        " three lie nearer. Checked means that three ties meet one another at"
        f" {CHECKS_DEG:g}° or more, so that a misread tape shows.",
        "Buildings stop a tape, and so do walls and hedges"
        f" higher than {OVER_M:g} m; fences, trees and stones are not looked at.",
    ]
    if untold:
        told.append(
            f"{_count(untold, 'mark')} without a recorded standard deviation: taken as"
            f" {UNTOLD_SD_M * 1000:g} mm."
        )
    if loose:
        told.append(f"{_count(loose, 'mark')} temporary: a mower can take such a one away.")
    if high:
        told.append(
            f"{_count(high, 'wall or hedge', 'walls or hedges')} without a recorded height:"
            " taken to stop a tape."
        )
    return tuple(told)


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"
