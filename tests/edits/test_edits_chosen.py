"""The items that an edit changes, and what its title calls them."""

from dataclasses import replace

import pytest
from strategies import kind_of, plain

from plan_editor.edits.chosen import called, called_on, chosen, things
from plan_editor.errors import EditRefused
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import plan_of

GRAVES = tuple(plain(kind_of("grave"), n) for n in range(3))
C14 = replace(GRAVES[0], number="C 14")
PLAN = plan_of([C14, *GRAVES[1:], plain(kind_of("note"), 9)])
LOST = ItemId("f" * 32)


def test_each_item_is_chosen_once() -> None:
    assert chosen(PLAN, (C14.id, GRAVES[1].id, C14.id)) == (C14, GRAVES[1])
    assert chosen(PLAN, ()) == ()


def test_what_is_gone_cannot_be_chosen() -> None:
    with pytest.raises(EditRefused, match="no longer on the plan"):
        chosen(PLAN, (C14.id, LOST))


def test_one_is_called_by_name_and_many_are_counted() -> None:
    assert called([C14]) == "grave C 14"
    assert called([plain(kind_of("path"))]) == "a path"
    assert called([plain(kind_of("ashes_plot"))]) == "an ashes plot"
    assert called(GRAVES) == "3 graves"
    assert called([C14, plain(kind_of("note"))]) == "2 things"


def test_nobody_living_is_named_in_a_title() -> None:
    # titles are printed by the command line and read by whoever has the file
    owner = plain(kind_of("owner_contact"))
    told = replace(owner, details=replace(owner.details, name="Ann Example"))
    assert called([told]) == "an owner"
    assert told.called() == "Owner"
    assert told.named() == "Owner Ann Example"


def test_what_a_paper_says_and_who_is_to_be_buried_are_in_no_title() -> None:
    letter, asked = plain(kind_of("paper")), plain(kind_of("request"))
    letter = replace(letter, details=replace(letter.details, says="From Ann Example"))
    asked = replace(asked, details=replace(asked.details, surname="Example"))
    assert called([letter]) == "a photograph or paper"
    assert called([asked]) == "a burial request"
    assert letter.named() == "Photograph or paper From Ann Example"
    assert asked.named() == "Burial request Example"
    assert called([plain(kind_of("application"))]) == "application new memorial"


def test_what_is_on_the_plan_is_called_and_what_is_not_is_counted() -> None:
    assert called_on(PLAN, (C14.id,)) == "grave C 14"
    assert called_on(PLAN, (C14.id, LOST)) == "grave C 14"
    assert called_on(PLAN, (LOST,)) == "nothing"
    assert things((LOST,)) == "1 thing"
    assert things((LOST, C14.id)) == "2 things"
