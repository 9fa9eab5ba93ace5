"""Graves are found by any part of a name, a year or a number, however it is spelt."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave, memorial
from plan_editor.kinds.burial import BurialDetails
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.looking_up import alike, line_of, ready

PLACE = Rectangle(east=0, north=0, width=1.2, length=2.4)
C14 = new_item(grave.KIND, PLACE, number="C 14")
C15 = new_item(grave.KIND, PLACE, number="C 15")
STONE = new_item(
    memorial.KIND,
    PLACE,
    details=MemorialDetails(grave=C15.id, inscription="In memory of\nHannah Lumb 1931"),
    number="C 15",
)
BLANK = new_item(memorial.KIND, PLACE, number="C 16")


def _entry(number: str, **told: Any) -> Item[BurialDetails]:
    return replace(new_item(burial.KIND, details=BurialDetails(**told)), number=number)


JOHN = _entry("214", surname="Ibbotson", forenames="Jno", buried="1911-04-16", grave=C14.id)
ADA = _entry("215", surname="Ibbotson", forenames="Ada", died="1923", place_written="C 14")
HANNAH = _entry("216", surname="Thorpe-Lumb", forenames="Hannah", abode="Mill Lane")
REGISTER = ready(plan_of((C14, C15, STONE, BLANK, JOHN, ADA, HANNAH)))


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("Ibbotson", [JOHN, ADA]),
        ("ibbo", [JOHN, ADA]),
        ("botson", [JOHN, ADA]),
        ("Ibetson", [JOHN, ADA]),  # a letter for another, one left out
        ("Ibbotsen ada", [ADA]),
        ("ADA ibbotson", [ADA]),
        ("John", [JOHN]),  # written short in the register
        ("j ibbotson", [JOHN]),
        ("1911", [JOHN]),
        ("192", [ADA]),
        ("923", []),  # a year is not found by its end
        ("lumb", [HANNAH, STONE]),
        ("hannah 1931", [STONE]),
        ("mill lane", [HANNAH]),
        ("214", [JOHN]),
        ("C 14", [JOHN, ADA]),
        ("row c no 14", [JOHN]),
        ("c.15", [STONE]),
        ("Nobody", []),
        ("", []),
        ("  …!", []),
    ],
)
def test_what_is_typed_finds(typed: str, found: list[Item]) -> None:
    assert {f.item for f in REGISTER.find(typed)} == {i.id for i in found}


def test_the_best_stands_first_and_says_where() -> None:
    first, second = REGISTER.find("C 14")
    assert (first.item, first.grave, first.score) == (JOHN.id, C14.id, 1.0)
    assert first.text == "Entry 214, Jno Ibbotson, 1911-04-16 – Grave C 14"
    assert (second.item, second.grave) == (ADA.id, None)
    (stone,) = REGISTER.find("hannah 1931")
    assert stone.text == "Memorial C 15: In memory of Hannah Lumb 1931 – Grave C 15"


def test_no_more_are_found_than_asked_for() -> None:
    assert len(REGISTER.find("Ibbotson", 1)) == 1


def test_in_a_plan_without_a_register_nothing_is_found() -> None:
    assert ready(plan_of((C14,))).find("Ibbotson") == ()


def test_a_grave_in_which_nobody_is_known_to_lie_is_found_by_its_number() -> None:
    nameless = new_item(grave.KIND, PLACE)
    (found,) = ready(plan_of((C14, C15, nameless, JOHN))).find("row c no 15")
    assert (found.item, found.grave, found.text) == (C15.id, C15.id, "Grave C 15")


@given(st.text(max_size=40))
def test_whatever_is_typed_is_answered(typed: str) -> None:
    scores = [f.score for f in REGISTER.find(typed)]
    assert scores == sorted(scores, reverse=True)
    assert all(0.0 < s <= 1.0 for s in scores)


def test_a_single_question_finds_the_likest_surnames_first() -> None:
    plan = plan_of((C14, C15, HANNAH, ADA, JOHN, _entry("9", surname="Ibbetson")))
    found = [plan.items[i].details.surname for i in alike(plan, "john ibbetson", 2)]
    assert found == ["Ibbetson", "Ibbotson"]
    assert alike(plan, "Nobody", 5) == alike(plan_of((C14,)), "Ibbotson", 5) == ()


def test_an_entry_is_listed_with_its_dead_and_its_grave_and_other_things_as_called() -> None:
    plan = plan_of((C14, JOHN, ADA))
    assert line_of(plan, JOHN) == "Entry 214, Jno Ibbotson, 1911-04-16 – Grave C 14"
    assert line_of(plan, ADA) == "Entry 215, Ada Ibbotson, 1923"
    assert line_of(plan, C14) == "Grave C 14"
