"""What works come to, in which order, and when they are due."""

from dataclasses import replace

import pytest
from shapely import Point

from plan_editor.kinds import quote, tree, works
from plan_editor.kinds.quote import QuoteDetails
from plan_editor.kinds.tree import TreeDetails
from plan_editor.kinds.works import Leave, Priority, Progress, WorksDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.due import dues
from plan_editor.records.programme import (
    Figure,
    Sum,
    five_yearly,
    lacks_leave,
    leave_told,
    programme,
    sums,
    works_done,
)

DAY = "2026-06-01"
YEW = new_item(tree.KIND, Point(0, 0), number="T 1", details=TreeDetails())


def work(what, **told):
    return new_item(works.KIND, details=WorksDetails(what=what, **told))


def quoted(of, amount, **told):
    return new_item(quote.KIND, details=QuoteDetails(works=of.id, amount=amount, **told))


WALL = work("Rebuild the wall", priority=Priority.YEAR, estimate=4000.0, item_no="2.10")
STONE = work("Lay a stone flat", priority=Priority.NOW, estimate=250.0)
GATE = work("Hang the gate", priority=Priority.YEAR, due="2026-09", item_no="2.9")
SEAT = work("A seat")
PATH = work(
    "Mend the path",
    priority=Priority.NOW,
    progress=Progress.DONE,
    done="2026-03-01",
    cost=900.0,
    item_no="1",
)
TAP = work("A tap", progress=Progress.DROPPED, estimate=70.0)
ALL = (SEAT, WALL, GATE, STONE, PATH, TAP)


def lines(*items, found=programme):
    return [
        (x.work.details.what, x.amount, x.figure, x.running) for x in found(plan_of(items), DAY)
    ]


def test_works_go_by_priority_then_by_their_day_with_running_totals():
    assert lines(*ALL) == [
        ("Lay a stone flat", 250.0, Figure.ESTIMATE, 250.0),
        ("Hang the gate", 0.0, Figure.NONE, 250.0),
        ("Rebuild the wall", 4000.0, Figure.ESTIMATE, 4250.0),
        ("A seat", 0.0, Figure.NONE, 4250.0),
    ]


@pytest.mark.parametrize(
    ("quotes", "amount", "figure"),
    [
        ([], 4000.0, Figure.ESTIMATE),
        ([(5200.0, {}), (4800.0, {})], 4800.0, Figure.LOWEST),
        ([(5200.0, {"accepted": True}), (4800.0, {})], 5200.0, Figure.ACCEPTED),
        # in two lots
        ([(5200.0, {"accepted": True}), (80.0, {"accepted": True})], 5280.0, Figure.ACCEPTED),
        # the cheapest holds no longer; of one that holds until June any day may be meant
        (
            [(3000.0, {"valid_until": "2026-05-31"}), (4800.0, {"valid_until": "2026-06"})],
            4800.0,
            Figure.LOWEST,
        ),
        ([(3000.0, {"valid_until": "2025"})], 4000.0, Figure.ESTIMATE),
        ([(None, {"accepted": True})], 4000.0, Figure.ESTIMATE),
        ([(0.0, {})], 0.0, Figure.LOWEST),
    ],
)
def test_an_accepted_quote_goes_before_the_lowest_and_that_before_the_estimate(
    quotes, amount, figure
):
    found = [quoted(WALL, a, **told) for a, told in quotes]
    (line,) = programme(plan_of([WALL, *found]), DAY)
    assert (line.amount, line.figure, line.quotes) == (amount, figure, len(quotes))


def test_what_is_done_counts_with_its_cost():
    assert lines(*ALL, quoted(PATH, 1.0, accepted=True), found=works_done) == [
        ("Mend the path", 900.0, Figure.COST, 900.0)
    ]
    uncosted = replace(PATH, details=replace(PATH.details, cost=None))
    assert lines(uncosted, quoted(PATH, 850.0), found=works_done) == [
        ("Mend the path", 850.0, Figure.LOWEST, 850.0)
    ]


def test_the_items_of_the_five_yearly_report_go_by_their_numbers():
    assert [w for w, *_ in lines(*ALL, found=five_yearly)] == [
        "Mend the path",
        "Hang the gate",
        "Rebuild the wall",
    ]


def test_each_priority_has_its_sum():
    assert sums(programme(plan_of([*ALL, quoted(GATE, 600.0)]), DAY)) == (
        Sum(priority=Priority.NOW, works=1, amount=250.0, without_figure=0),
        Sum(priority=Priority.YEAR, works=2, amount=4600.0, without_figure=0),
        Sum(priority=None, works=1, amount=0.0, without_figure=1),
    )


def test_a_quote_for_nothing_changes_nothing():
    stray = new_item(quote.KIND, details=QuoteDetails(amount=1.0))
    assert lines(WALL, stray) == lines(WALL)


@pytest.mark.parametrize(
    ("told", "says", "lacks"),
    [
        ({}, "ask what leave it takes", True),
        ({"leave_needed": Leave.NONE}, "none needed", False),
        ({"leave_needed": Leave.LIST_A}, "List A, on its conditions", False),
        ({"leave_needed": Leave.LIST_B}, "List B: not asked for yet", True),
        ({"leave_needed": Leave.FACULTY}, "Faculty: not asked for yet", True),
        (
            {"leave_needed": Leave.FACULTY, "leave_given": "2026-04-01"},
            "Faculty given 2026-04-01",
            False,
        ),
        ({"leave_given": "2026-04-01"}, "Leave given 2026-04-01", False),
    ],
)
def test_leave_is_told_as_it_stands(told, says, lacks):
    ordered = work("It", progress=Progress.ORDERED, **told)
    assert leave_told(ordered) == says
    assert lacks_leave(ordered) is lacks


def test_leave_that_was_asked_for_is_waited_for():
    asked = work("It", progress=Progress.LEAVE_ASKED, leave_needed=Leave.LIST_B)
    assert leave_told(asked) == "List B: asked for"
    assert not lacks_leave(asked)


def due(sort, *items):
    return [(d.date, d.title, d.item) for d in dues(plan_of(items), DAY) if d.sort == sort]


def test_works_are_due_on_their_day_and_lead_to_what_is_worked_on():
    fell = work("Crown-lift", target=YEW.id, due="2026-11-05")
    assert due("works", YEW, *ALL, fell) == [
        ("2026-09-30", "Hang the gate", GATE.id),
        ("2026-11-05", "Crown-lift, Tree T 1", YEW.id),
    ]
    assert due("works", work("", due="2026-07-01"))[0][1] == "Work"


def test_six_weeks_and_two_years_follow_a_notice_to_the_council():
    # TCPA 1990 s. 211, from memory; 6 weeks after 1 March 2026, a Sunday, is Sunday 12 April
    given = TreeDetails(conservation_area=True, notice_given="2026-03-01")
    found = replace(YEW, details=given)
    assert due("tree_notices", found) == [
        ("2026-04-12", "Tree T 1: the council's six weeks end", YEW.id),
        ("2028-03-01", "Tree T 1: the notice to the council is two years old", YEW.id),
    ]


def test_a_notice_of_which_the_month_is_known_is_told_late_to_work_and_early_to_lapse():
    given = TreeDetails(conservation_area=True, notice_given="2026-03")
    assert [day for day, *_ in due("tree_notices", replace(YEW, details=given))] == [
        "2026-05-12",  # six weeks after 31 March
        "2028-03-01",
    ]


@pytest.mark.parametrize(
    "told", [TreeDetails(conservation_area=True), TreeDetails(notice_given="2026-03-01")]
)
def test_without_notice_or_conservation_area_no_weeks_run(told):
    assert due("tree_notices", replace(YEW, details=told)) == []
