"""Where new marks help most, against trying every set of places."""

from itertools import combinations
from math import sqrt

import numpy as np
import pytest
import shapely
from yards import mark_at, yard

from plan_editor.ground.mark_places import MarkPlace, mark_places
from plan_editor.ground.new_marks import (
    APART_M,
    GNSS_SD_M,
    MOST_PLACES,
    _looked_at,
    _own_sd,
    _search,
    new_marks,
)
from plan_editor.ground.reach import reach
from plan_editor.ground.searching import WANTED_M
from plan_editor.kinds import wall
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.adjustment.taping import usual


def _walls(rng: np.random.Generator, count: int) -> list:
    ends = rng.uniform(0, 40, (count, 2))
    ways = rng.uniform(-4, 4, (count, 2))
    details = wall.WallDetails(height_m=1.2)
    return [
        new_item(wall.KIND, shapely.LineString([e, e + w]).normalize(), details=details)
        for e, w in zip(ends, ways, strict=True)
    ]


def _random_yard(seed: int, walls: int = 5) -> Plan:
    rng = np.random.default_rng(seed)
    marks = [tuple(m) for m in rng.uniform(5, 35, (2, 2))]
    return yard(*marks, ground=shapely.box(0, 0, 40, 40), more=_walls(rng, walls))


def _with_marks(plan: Plan, places: tuple[MarkPlace, ...], sd_m: list[float]) -> Plan:
    new = [mark_at(p.east, p.north, sd_m=s) for p, s in zip(places, sd_m, strict=True)]
    return plan_of([*plan.items.values(), *new])


def _worth(error_m: np.ndarray) -> float:
    return float(np.mean(np.minimum(1.0, WANTED_M / error_m)))


@pytest.mark.parametrize("seed", [1, 4, 9])
def test_what_a_new_mark_gains_is_what_the_ground_gains_once_it_is_there(seed):
    plan = _random_yard(seed)
    told = new_marks(plan, reach(plan, 25.0))
    assert told
    for n, last in enumerate(told, 1):
        places = tuple(t.place for t in told[:n])
        there = reach(_with_marks(plan, places, [t.sd_m for t in told[:n]]), 25.0)
        # stored to the millimetre, so the last digits differ
        np.testing.assert_allclose(last.fixes.error_m, there.fixes.error_m, rtol=0.01)
        assert last.fixes.share_checked == pytest.approx(there.fixes.share_checked, abs=0.003)


@pytest.mark.parametrize("seed", range(8))
def test_the_places_are_the_best_of_all_sets_of_as_many(seed):
    plan = _random_yard(seed)
    today = reach(plan, 25.0)
    places = _looked_at(mark_places(plan, today.cells.ground), today)
    _, sd_m = _own_sd(places, today)
    search = _search(places, sd_m, today)
    taken = search.best(3)
    worth = search.with_all(taken).worth
    every = [s for s in combinations(range(len(places)), len(taken)) if search.joined(s)]
    best = max(search.with_all(s).worth for s in every)
    assert worth >= 0.99 * best
    assert worth == pytest.approx(
        _worth(
            reach(
                _with_marks(plan, tuple(places[t] for t in taken), sd_m[list(taken)].tolist()),
                25.0,
            ).fixes.error_m
        ),
        abs=1e-3,
    )


def test_they_are_told_so_that_each_is_the_one_that_helps_most():
    plan = _random_yard(2)
    told = new_marks(plan, reach(plan, 25.0))
    gained = [_worth(t.fixes.error_m) for t in told]
    assert len(told) == 3
    assert gained == sorted(gained)
    assert gained[1] - gained[0] <= gained[0] - _worth(reach(plan, 25.0).fixes.error_m) + 0.05


def test_no_place_is_told_that_adds_next_to_nothing_or_lies_beside_a_mark():
    corners = (
        (1, 1),
        (39, 1),
        (39, 29),
        (1, 29),
        (20, 15),
        (20, 1),
        (20, 29),
        (1, 15),
        (39, 15),
    )
    plan = yard(*corners, more=[new_item(wall.KIND, shapely.LineString([(10, 3), (30, 3)]))])
    assert new_marks(plan, reach(plan)) == ()
    beside = yard((5, 5), more=[new_item(wall.KIND, shapely.LineString([(5, 6), (6, 5)]))])
    assert new_marks(beside, reach(beside)) == ()


def test_places_lie_apart_and_reach_some_ground():
    plan = _random_yard(3, walls=150)
    today = reach(plan)
    kept = _looked_at(mark_places(plan, today.cells.ground), today)
    assert len(kept) == MOST_PLACES
    at = np.array([(p.east, p.north) for p in kept])
    off = np.hypot(*(at[:, None] - at[None]).transpose(2, 0, 1))
    assert off[np.triu_indices(len(at), 1)].min() >= APART_M


def test_a_place_that_no_tape_joins_to_a_mark_of_today_is_not_told():
    far = wall.WallDetails(height_m=1.0)
    ground = shapely.box(0, 0, 120, 30)
    away = [new_item(wall.KIND, shapely.LineString([(100, 5), (110, 20)]), details=far)]
    plan = yard((5, 5), (5, 20), ground=ground, more=away)
    assert new_marks(plan, reach(plan)) == ()
    # but from wall to wall one comes there
    steps = [
        new_item(wall.KIND, shapely.LineString([(e, 5), (e, 20)]), details=far)
        for e in (30, 52, 74)
    ]
    chain = yard((5, 5), (5, 20), ground=ground, more=[*away, *steps])
    told = new_marks(chain, reach(chain))
    assert round(told[0].place.east) == 30


def test_a_new_mark_is_as_good_as_the_ties_to_it_or_as_gnss():
    plan = yard(more=[mark_at(*at, sd_m=0.005) for at in ((12, 10), (28, 10), (20, 23))])
    here = (
        MarkPlace(east=20.0, north=14.5, words=""),
        MarkPlace(east=20.0, north=200.0, words=""),
    )
    taped, sd_m = _own_sd(here, reach(plan))
    assert taped.tolist() == [True, False]
    assert sd_m[1] == GNSS_SD_M
    # three ties of about 9 m that meet at about 60°: s √(4/3) / √2 of east and of north alike
    each = sqrt(usual().tape.sd(9) ** 2 + 0.005**2)
    assert sd_m[0] == pytest.approx(each * sqrt(2 / 3), rel=0.03)
