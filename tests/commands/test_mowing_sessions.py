"""Mowing sessions in a list, and their rates in words and taken over."""

import pytest
from shapely import box

from plan_editor.commands.mowing_sessions import (
    add_session,
    in_use,
    may_take_over,
    rates_of,
    rates_told,
    session_lines,
    take_over,
)
from plan_editor.errors import CannotUse, EditRefused
from plan_editor.kinds import grass, parish, visit
from plan_editor.kinds.grass import GrassDetails, Regime
from plan_editor.kinds.visit import Mown, VisitDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.mowing_rates import STONES, Fitted

LAWN = new_item(grass.KIND, box(0, 0, 40, 25), details=GrassDetails(name="South side"))
ROUGH = new_item(grass.KIND, box(0, 30, 10, 40), details=GrassDetails(regime=Regime.ROUGH))


def session(date, **told):
    return new_item(visit.KIND, details=VisitDetails(date=date, **told))


def season(*hours):
    """Return sessions on the lawn of 1,000 square metres."""
    return [session(f"2026-0{n}-01", grass=LAWN.id, mowing_h=h) for n, h in enumerate(hours, 3)]


@pytest.mark.parametrize(
    ("told", "where", "time"),
    [
        ({}, "the whole ground", "not noted"),
        ({"grass": LAWN.id, "mowing_h": 1.5, "raking_h": 0.25}, "South side", "1.75 h"),
        ({"grass": ROUGH.id, "minutes": 40.0}, "Grass", "40 min"),
        ({"regime": Mown.ROUGH, "minutes": 40.0, "people": 3}, "Rough", "40 min × 3"),
        ({"minutes": 40.0, "people": 1}, "the whole ground", "40 min"),
    ],
)
def test_a_session_is_listed_with_where_and_how_long(told, where, time):
    (line,) = session_lines(plan_of([LAWN, ROUGH, session("2026-05-01", **told)]))
    assert (line.date, line.where, line.time) == ("2026-05-01", where, time)


def test_the_newest_comes_first():
    plan = plan_of([session("2026-03-01"), session("2026-06-01"), session("2026-04-01")])
    assert [x.date for x in session_lines(plan)] == ["2026-06-01", "2026-04-01", "2026-03-01"]


def test_rates_are_told_with_bounds_and_sessions_and_taken_over_with_them():
    document = Document(plan_of([LAWN, *season(1.0, 1.0, 1.0)]))
    rates = rates_of(document.plan)
    told = "1\u202f000 m²/h, 1\u202f000 to 1\u202f000"
    assert rates_told(rates) == (("Short", f"{told} (3 sessions)"),)
    assert in_use(document.plan)[0] == ("In the open", "not entered")
    document.apply(take_over(rates))
    assert in_use(document.plan) == (
        ("In the open", "1\u202f000 m²/h"),
        ("Round a stone", "not entered"),
    )
    (figures,) = document.plan.of(parish.KIND)
    assert f"short {told}, 3 sessions" in figures.details.mowing_source
    assert "90% bounds" in figures.details.mowing_source


def test_minutes_a_stone_are_told_and_taken_over():
    rates = (Fitted(of=STONES, minutes=2.5, low=2.0, high=3.0, visits=7),)
    assert rates_told(rates) == (("Round a stone", "2.5 min, 2.0 to 3.0 (7 sessions)"),)
    document = Document(plan_of([]))
    document.apply(take_over(rates))
    assert in_use(document.plan)[1] == ("Round a stone", "2.5 min")


def test_what_sessions_do_not_bound_is_said_so():
    rates = (Fitted(of="rough", minutes=0.1, low=0.0, high=0.3, visits=3),)
    assert rates_told(rates)[0][1].startswith("600 m²/h, 200 to more than can be told")
    assert not may_take_over(rates)
    with pytest.raises(EditRefused, match="no mowing rate"):
        Document(plan_of([])).apply(take_over(rates))


def test_two_sessions_tell_nothing():
    assert rates_of(plan_of([LAWN, *season(1.0, 1.1)])) == ()


def test_a_session_needs_its_date():
    with pytest.raises(CannotUse, match="Give the date"):
        add_session({})
