"""Where a new permanent mark would help most: one to three places, and what each gains."""

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from plan_editor.ground.mark_places import MarkPlace, mark_places
from plan_editor.ground.reach import Reach, sd_of, stations_of, tie_sd
from plan_editor.ground.searching import Search, State
from plan_editor.ground.sights import seen
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.fixes import SHORTEST_M, Fixes, fixes, ties

MOST_NEW = 3
"""So many places at most."""

APART_M = 2.0
"""No new mark is nearer than this to another."""

GNSS_SD_M = 0.03
"""Of a mark measured twice by GNSS with corrections, under open sky; common practice."""

MOST_PLACES = 60
"""Of more places, those from which a tape reaches the most ground are looked at."""

MOST_PAIRS = 1_000_000
"""So many pairs of place and cell are looked at to find out which those are."""

Numbers = NDArray[np.float64]
Yes = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NewMark:
    """A place for a new mark, and how pegs could be set out with it and those told before it.

    Args:
        place: where, in words too.
        sd_m: standard deviation that the mark itself would have.
        taped: it would come from tape ties to the marks of today; otherwise from GNSS.
        fixes: of each cell of ground, with it.
    """

    place: MarkPlace
    sd_m: float
    taped: bool
    fixes: Fixes


def new_marks(plan: Plan, today: Reach, *, most: int = MOST_NEW) -> tuple[NewMark, ...]:
    """Return where new marks would help, the one that helps most first.

    Each could be measured to from a mark of today, or from another of them, by one tape.

    Args:
        plan: the plan.
        today: how well pegs can be set out on it today.
        most: how many places, at the most.
    """
    places = _looked_at(mark_places(plan, today.cells.ground), today)
    if not places:
        return ()
    taped, sd_m = _own_sd(places, today)
    search = _search(places, sd_m, today)
    order = search.in_order(search.best(most))
    return tuple(
        NewMark(
            place=places[chosen],
            sd_m=float(sd_m[chosen]),
            taped=bool(taped[chosen]),
            fixes=search.with_all(order[: n + 1]).fixes,
        )
        for n, chosen in enumerate(order)
    )


def _looked_at(places: tuple[MarkPlace, ...], today: Reach) -> tuple[MarkPlace, ...]:
    """Return those that reach the most ground, apart from one another and from every mark."""
    at = _coordinates(places)
    every = -(-len(places) * len(today.cells.centres) // MOST_PAIRS) or 1
    reached = seen(at, today.cells.centres[::every], today.tape_m, today.past).sum(axis=0)
    taken = stations_of(today.marks)
    kept: list[MarkPlace] = []
    for place in np.argsort(-reached, kind="stable"):
        apart = np.hypot(*(taken - at[place]).T).min() >= APART_M
        if reached[place] and apart and len(kept) < MOST_PLACES:
            kept.append(places[place])
            taken = np.vstack([taken, at[place]])
    return tuple(kept)


def _own_sd(places: tuple[MarkPlace, ...], today: Reach) -> tuple[Yes, Numbers]:
    """Return whether each would best be taped from the marks of today, and its deviation."""
    at, stations = _coordinates(places), stations_of(today.marks)
    sd = tie_sd(stations, at, np.array([sd_of(i) for i in today.marks]))
    reached = seen(stations, at, today.tape_m, today.past)
    found = fixes(ties(at, stations, sd, reached))
    by_tape = found.error_m / sqrt(2.0)
    taped = found.checked & (by_tape < GNSS_SD_M)
    return taped, np.where(taped, by_tape, GNSS_SD_M)


def _search(places: tuple[MarkPlace, ...], sd_m: Numbers, today: Reach) -> Search:
    at, centres = _coordinates(places), today.cells.centres
    sd = tie_sd(at, centres, sd_m)
    there = seen(at, centres, today.tape_m, today.past)
    way = centres[:, None, :] - at[None, :, :]
    there &= np.hypot(way[..., 0], way[..., 1]) >= SHORTEST_M
    rows = tuple(np.flatnonzero(column) for column in there.T)
    reaching = tuple(
        ties(centres[r], at[n : n + 1], sd[r, n : n + 1], np.ones((len(r), 1), dtype=np.bool_))
        for n, r in enumerate(rows)
    )
    from_marks = seen(stations_of(today.marks), at, today.tape_m, today.past)
    return Search(
        start=State(today.fixes, today.ties),
        tied=np.asarray(from_marks.any(axis=1)),
        between=seen(at, at, today.tape_m, today.past),
        rows=rows,
        reaching=reaching,
    )


def _coordinates(places: tuple[MarkPlace, ...]) -> Numbers:
    return np.array([(p.east, p.north) for p in places]).reshape(-1, 2)
