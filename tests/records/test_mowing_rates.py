"""The parish's own rates, fitted from its sessions, against certified and simulated figures."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import Point, box

from plan_editor.edits.mowing_rates import TakeOverRates
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grass, memorial, parish, visit
from plan_editor.kinds.grass import GrassDetails, Regime
from plan_editor.kinds.visit import Mown, VisitDetails
from plan_editor.plan.item import ItemId, Status, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.mowing_rates import LEAST, STONES, fitted
from plan_editor.records.visit_equations import Equation, equations


def told(*rows):
    """Return equations of (amounts, minutes), a session each."""
    return tuple(
        Equation(visit=ItemId(f"{n:032x}"), amounts=tuple(a.items()), minutes=m)
        for n, (a, m) in enumerate(rows)
    )


def test_one_rate_is_that_of_nists_certified_line_through_the_origin():
    # NIST Statistical Reference Datasets, linear regression, NoInt1: x 60 to 70, y 130 to 140;
    # slope 2.07438016528926, its standard deviation 0.0165289256198347, 10 degrees of freedom.
    # 1.812461 is Student's t at 95 % for 10 degrees, as tables have it.
    rows = [({"short": float(x)}, float(x + 70)) for x in range(60, 71)]
    (rate,) = fitted(told(*rows))
    assert rate.of == "short"
    assert rate.visits == 11
    assert rate.minutes == pytest.approx(2.07438016528926, rel=1e-12)
    reach = 1.812461 * 0.0165289256198347
    assert rate.low == pytest.approx(2.07438016528926 - reach, abs=1e-7)
    assert rate.high == pytest.approx(2.07438016528926 + reach, abs=1e-7)
    assert rate.m2_h == pytest.approx(60 / 2.07438016528926)
    assert rate.m2_h_between == pytest.approx((60 / rate.high, 60 / rate.low))


def test_several_rates_are_those_of_numpys_least_squares_where_none_is_held_at_nothing():
    rng = np.random.default_rng(20260301)
    rows = np.column_stack([rng.uniform(200, 2000, 12), rng.integers(5, 90, 12)])
    minutes = rows @ [0.05, 2.5] + rng.normal(0, 6, 12)
    found = fitted(
        told(*(({"short": a, STONES: n}, m) for (a, n), m in zip(rows, minutes, strict=True)))
    )
    reference, *_ = np.linalg.lstsq(rows, minutes)
    assert [f.of for f in found] == ["short", STONES]
    assert [f.minutes for f in found] == pytest.approx(reference, rel=1e-9)


def test_nine_true_rates_in_ten_lie_in_their_intervals():
    rng = np.random.default_rng(7)
    true = np.array([0.06, 3.0])
    inside = 0
    for _ in range(300):
        rows = np.column_stack([rng.uniform(300, 2000, 8), rng.integers(10, 80, 8)])
        minutes = rows @ true + rng.normal(0, 10, 8)
        named = ({"short": a, STONES: n} for a, n in rows)
        found = fitted(told(*zip(named, minutes, strict=True)))
        inside += sum(f.low <= t <= f.high for f, t in zip(found, true, strict=True))
    # of 600, binomial: 540 expected, 7.3 one deviation, though two of a season go together
    assert 540 - 40 <= inside <= 540 + 40


def test_no_rate_is_below_nothing_and_one_of_nothing_is_not_told():
    # more stones, less time: the best line would give a stone back minutes
    rows = [({"short": 1000.0, STONES: n}, 60.0 - n) for n in (1.0, 2.0, 4.0, 8.0, 9.0)]
    (rate,) = fitted(told(*rows))
    assert rate.of == "short"
    assert 0.0 < rate.minutes < 0.06


def test_a_wide_interval_ends_at_nothing_and_the_rate_is_unbounded():
    rows = [({"rough": 100.0}, m) for m in (1.0, 90.0, 2.0)]
    (rate,) = fitted(told(*rows))
    assert rate.low == 0.0
    assert rate.m2_h_between[1] == float("inf")


@pytest.mark.parametrize(
    "rows",
    [
        [],
        [({"short": 100.0}, 10.0)] * (LEAST - 1),
        # always the same piece with the same stones: nothing tells the two apart
        [({"short": 1000.0, STONES: 20.0}, m) for m in (90.0, 95.0, 100.0, 92.0, 97.0)],
        # three sessions for two rates leave but one to judge by
        [({"short": a, STONES: 20.0}, 90.0) for a in (1000.0, 1100.0, 1200.0)],
    ],
)
def test_nothing_is_told_of_too_few_sessions(rows):
    assert fitted(told(*rows)) == ()


def test_what_too_few_tell_of_takes_its_sessions_with_it():
    good = [({"short": a}, a / 20) for a in (500.0, 900.0, 1000.0)]
    odd = [({"short": 100.0, "rough": 100.0}, 999.0)] * 2
    (rate,) = fitted(told(*odd, *good))
    assert rate.m2_h == pytest.approx(1200.0)
    assert rate.visits == 3


def test_rates_that_nothing_connects_have_errors_of_their_own():
    exact = [({"short": a}, a / 20) for a in (500.0, 900.0, 1000.0)]
    rough = [({STONES: 10.0}, m) for m in (10.0, 30.0, 50.0)]
    joined = [({"a": 1.0, "b": 1.0}, 2.0)] * 3  # nothing tells these apart
    by_name = {f.of: f for f in fitted(told(*exact, *rough, *joined))}
    assert set(by_name) == {"short", STONES}
    assert by_name["short"].high == pytest.approx(by_name["short"].low)
    assert by_name[STONES].minutes == pytest.approx(3.0)


# --- what sessions say ---

LAWN = new_item(grass.KIND, box(0, 0, 20, 10))
MEADOW = new_item(grass.KIND, box(0, 20, 10, 30), details=GrassDetails(regime=Regime.SUMMER))
STRIP = new_item(grass.KIND, box(0, 40, 10, 41), details=GrassDetails(regime=Regime.BY_HAND))


def stone(east, north):
    return new_item(memorial.KIND, Rectangle(east=east, north=north, width=0.8, length=0.2))


def proposed(item):
    return replace(item, status=Status.PROPOSED)


GROUND = (LAWN, MEADOW, STRIP, stone(2, 2), stone(5, 5), stone(3, 25), proposed(stone(8, 8)))


def said(**details):
    plan = plan_of([*GROUND, new_item(visit.KIND, details=VisitDetails(**details))])
    return [(dict(e.amounts), e.minutes) for e in equations(plan)]


@pytest.mark.parametrize(
    ("rest", "date", "mown"),
    [
        ({"uncut_until": "2026-07-20"}, "2026-07-19", False),
        ({"uncut_until": "2026-07-20"}, "2026-07-20", True),
        ({"uncut_from": "2026-04-01", "uncut_until": "2026-07-20"}, "2026-03-31", True),
        ({"uncut_from": "2026-04-01", "uncut_until": "2026-07-20"}, "2026-04-01", False),
        # a month may mean its last day, so a rest until it goes on through it
        ({"uncut_until": "2026-07"}, "2026-07-20", False),
        ({"uncut_until": "2026-07"}, "2026-07-31", True),
        ({"uncut_from": "2026-07", "uncut_until": "2026-09"}, "2026-06-30", True),
        ({"uncut_from": "2026-07", "uncut_until": "2026-09"}, "2026-07-01", False),
        # a session of which no more than the month is known may have been before or after
        ({"uncut_from": "2026-04-01", "uncut_until": "2026-07-20"}, "2026-07", True),
        ({"uncut_from": "2026-04-10", "uncut_until": "2026-07-20"}, "2026-04", True),
        ({"uncut_from": "2026-04-10", "uncut_until": "2026-07-20"}, "2026-05", False),
        ({}, "2026-07-20", False),  # nobody said when its rest ends
    ],
)
def test_a_session_of_the_whole_ground_leaves_out_what_rests(rest, date, mown):
    meadow = new_item(
        grass.KIND, box(0, 20, 10, 30), details=GrassDetails(regime=Regime.SUMMER, **rest)
    )
    session = new_item(visit.KIND, details=VisitDetails(date=date, mowing_h=1.0))
    (told_,) = equations(plan_of([LAWN, meadow, session]))
    assert ("summer meadow" in dict(told_.amounts)) is mown


@pytest.mark.parametrize(
    ("details", "equations_"),
    [
        ({}, []),
        ({"people": 3}, []),
        (
            {"grass": LAWN.id, "minutes": 45.0, "people": 2},
            [({"short": 200.0, STONES: 2.0}, 90.0)],
        ),
        ({"grass": LAWN.id, "minutes": 45.0}, [({"short": 200.0, STONES: 2.0}, 45.0)]),
        # told apart, in hours of all together: then the clock counts for nothing
        (
            {
                "grass": LAWN.id,
                "mowing_h": 0.5,
                "trimming_h": 0.25,
                "minutes": 9.0,
                "people": 2,
            },
            [({"short": 200.0}, 30.0), ({STONES: 2.0}, 15.0)],
        ),
        ({"grass": LAWN.id, "mowing_h": 0.5}, [({"short": 200.0}, 30.0)]),
        ({"grass": LAWN.id, "mowing_h": 0.0}, []),
        (
            {"regime": Mown.SUMMER, "minutes": 30.0},
            [({"summer meadow": 100.0, STONES: 1.0}, 30.0)],
        ),
        ({"regime": Mown.ROUGH, "minutes": 30.0}, []),
        (
            {"trimming_h": 1.0},
            [({"hand-trim only": 10.0, STONES: 2.0}, 60.0)],
        ),
    ],
)
def test_a_session_says_what_it_mowed_and_how_long_it_took(details, equations_):
    assert said(**details) == equations_


def test_kinds_of_mown_grass_are_called_as_the_grass_is():
    assert {m.value for m in Mown} == {r.value for r in Regime} - {Regime.BY_HAND.value}


# --- taking them over ---


def after(edit, *items):
    plan = plan_of(items)
    (found,) = plan.after(edit.changes(plan)).of(parish.KIND)
    return found.details


def test_rates_are_written_into_the_parishs_figures_with_their_source():
    there = new_item(
        parish.KIND, details=parish.ParishDetails(name="St Elfric", minutes_a_stone=4.0)
    )
    edit = TakeOverRates(source="8 sessions", mowing_m2_h=950.0)
    found = after(edit, there)
    assert (found.name, found.mowing_m2_h, found.minutes_a_stone) == ("St Elfric", 950.0, 4.0)
    assert found.mowing_source == "8 sessions"


def test_a_plan_without_figures_gets_some():
    found = after(TakeOverRates(source="8 sessions", minutes_a_stone=2.5), new_item(grass.KIND))
    assert (found.mowing_m2_h, found.minutes_a_stone) == (None, 2.5)


@pytest.mark.parametrize(
    "rates",
    [{}, {"mowing_m2_h": 0.0}, {"mowing_m2_h": float("nan")}, {"minutes_a_stone": 1e9}],
)
def test_what_is_no_rate_is_refused(rates):
    edit = TakeOverRates(source="", **rates)
    assert "mowing rates" in edit.title
    with pytest.raises(EditRefused, match="Nothing was changed"):
        edit.changes(plan_of([]))


def test_grass_that_is_not_drawn_has_no_area():
    bare = new_item(grass.KIND)
    session = new_item(visit.KIND, details=VisitDetails(grass=bare.id, minutes=30.0))
    stones = new_item(memorial.KIND, Point(0, 0))
    assert equations(plan_of([bare, session, stones])) == ()
