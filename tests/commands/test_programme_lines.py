"""The programme of works as a list, and what is recorded from there."""

import pytest
from shapely import Point

from plan_editor.commands.programme_lines import (
    Which,
    add_quote,
    add_work,
    pounds,
    programme_lines,
    quote_fields,
    sums_told,
    work_fields,
)
from plan_editor.errors import CannotUse
from plan_editor.kinds import quote, tree, works
from plan_editor.kinds.quote import QuoteDetails
from plan_editor.kinds.works import Leave, Priority, Progress, WorksDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of

YEW = new_item(tree.KIND, Point(0, 0), number="T 1")


def work(what, **told):
    return new_item(works.KIND, details=WorksDetails(what=what, **told))


FELL = work(
    "Crown-lift",
    target=YEW.id,
    priority=Priority.NOW,
    progress=Progress.ORDERED,
    leave_needed=Leave.LIST_B,
    due="2099-03-01",
    item_no="4.2",
)
SEAT = work("A seat")
DONE = work("Mend the path", progress=Progress.DONE, cost=900.0)
QUOTE = new_item(quote.KIND, details=QuoteDetails(works=FELL.id, amount=1250.0))
PLAN = plan_of([YEW, SEAT, FELL, DONE, QUOTE])


def test_works_are_listed_with_amounts_and_what_stands_behind_them():
    fell, seat = programme_lines(PLAN, Which.WANTED)
    assert (fell.what, fell.amount, fell.running) == (
        "Crown-lift, Tree T 1",
        "£1\u202f250",
        "£1\u202f250",
    )
    assert fell.told.split("\n") == [
        "Ordered, by 1 March 2099",
        "Lowest quote; one quote",
        "Leave: List B: not asked for yet",
        "It is under way, and no leave for it is recorded.",
        "Item 4.2 of the report",
    ]
    assert (seat.what, seat.amount) == ("A seat", "–")
    assert "no quotes" in seat.told


def test_sums_say_what_they_leave_out():
    assert sums_told(PLAN, Which.WANTED) == (
        ("At once", "£1\u202f250"),
        ("Without a priority", "£0 + 1 without a figure"),
        ("Together", "£1\u202f250"),
    )
    assert sums_told(plan_of([]), Which.WANTED) == ()


def test_done_and_five_yearly_are_lists_of_their_own():
    assert [x.what for x in programme_lines(PLAN, Which.DONE)] == ["Mend the path"]
    assert [x.item for x in programme_lines(PLAN, Which.FIVE_YEARLY)] == [FELL.id]


def test_a_work_and_a_quote_are_added():
    document = Document(PLAN)
    document.apply(add_work({"what": "Hang the gate", "estimate": 300.0}))
    (gate,) = (x for x in programme_lines(document.plan, Which.WANTED) if "gate" in x.what)
    assert gate.amount == "£300"
    two = add_quote(gate.item, {"amount": 280.0, "firm": "A. Smith & Son"})
    assert "Smith" not in two.title
    document.apply(two)
    (gate,) = (x for x in programme_lines(document.plan, Which.WANTED) if "gate" in x.what)
    assert gate.amount == "£280"


def test_without_what_or_amount_nothing_is_recorded():
    with pytest.raises(CannotUse, match="what is to be done"):
        add_work({})
    with pytest.raises(CannotUse, match="the amount"):
        add_quote(FELL.id, {"amount": None})


def test_the_forms_ask_the_least():
    assert work_fields()[0].name == "what"
    assert "works" not in [d.name for d in quote_fields()]
    assert pounds(12.4) == "£12"
