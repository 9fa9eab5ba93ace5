"""A thing without a number is called by the number of its grave."""

import pytest

from plan_editor.commands.naming import item_named
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
    plan = plan_of([SPACE, wanted(), wanted()])
    with pytest.raises(CannotUse, match="“C 14” may be Application, Application"):
        item_named(plan, "C 14", ASKED)
    with pytest.raises(CannotUse, match="There is no application “C 15”"):
        item_named(plan, "C 15", ASKED)
