"""A thing without a number is called by the number of its grave."""

from dataclasses import replace

import pytest

from plan_editor.commands.naming import example_of, item_named
from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import application, grave, memorial
from plan_editor.kinds.application import ApplicationDetails
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of

PLACE = Rectangle(east=10, north=0, width=1.22, length=2.74)
SPACE = new_item(grave.KIND, PLACE, number="C 14")
STONE = new_item(memorial.KIND, PLACE, number="C 14")
ASKED = ("application",)


def wanted() -> Item:
    return new_item(application.KIND, details=ApplicationDetails(grave=SPACE.id))


def test_an_application_is_found_by_its_grave() -> None:
    one = wanted()
    plan = plan_of([SPACE, STONE, one, new_item(application.KIND)])
    assert item_named(plan, "c14", ASKED) == one
    assert item_named(plan, one.id, ASKED) == one
    # without kinds, and for kinds that bear numbers, numbers count alone
    assert item_named(plan, "C 14", ("grave",)) == SPACE
    with pytest.raises(CannotUse, match="may be Grave C 14, Memorial C 14"):
        item_named(plan, "C 14")


def test_two_of_one_grave_are_not_guessed_between() -> None:
    dated = wanted()
    dated = replace(dated, details=replace(dated.details, received="2026-03-01"))
    other = wanted()
    plan = plan_of([SPACE, dated, other])
    with pytest.raises(CannotUse) as refusal:
        item_named(plan, "C 14", ASKED)
    assert str(refusal.value) == (
        f"“C 14” may be Application new memorial of 1 March 2026: {dated.id}; Application new"
        f" memorial without a day: {other.id}. Nothing was done. Write what stands after the"
        " colon instead."
    )
    assert item_named(plan, other.id, ASKED) == other
    with pytest.raises(CannotUse, match="There is no application “C 15”"):
        item_named(plan, "C 15", ASKED)


def test_many_of_one_grave_are_not_all_listed() -> None:
    plan = plan_of([SPACE, *(wanted() for _ in range(9))])
    with pytest.raises(CannotUse, match=r", and 3 more\. Nothing was done"):
        item_named(plan, "C 14", ASKED)


def test_an_example_is_what_can_be_typed() -> None:
    plan = plan_of([SPACE, wanted(), STONE, new_item(memorial.KIND, PLACE, number="C 2")])
    assert example_of(plan, ("memorial",)) == "C 2"
    # of the kind that the sheet names first
    assert example_of(plan, ("grave", "memorial")) == "C 14"
    assert example_of(plan, ASKED) == "C 14"
    assert example_of(plan, ("tree",)) == ""
    alone = new_item(application.KIND)
    assert example_of(plan_of([alone]), ASKED) == alone.id
