import pytest
from churchyards import found, grave_at
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.checking.rules.numbers_twice import heard
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import memorial, vault
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Item, new_item

RULE = "numbers_twice"


@pytest.mark.parametrize("number", ["C 14", "c14", "C-14", "C.014", " c / 14"])
def test_numbers_that_sound_the_same_are_the_same(number: str) -> None:
    assert heard(number) == heard("C 14")


@pytest.mark.parametrize(("one", "other"), [("1/2", "12"), ("A 10", "A 1"), ("A 1a", "A 1b")])
def test_numbers_that_sound_otherwise_are_not(one: str, other: str) -> None:
    assert heard(one) != heard(other)


@given(st.text(max_size=12))
def test_blanks_are_not_heard(number: str) -> None:
    assert heard("".join(f"{c} " for c in number)) == heard(number)


def test_two_graves_whose_numbers_sound_the_same_are_found() -> None:
    one, other = grave_at(0, 0, "C 14"), grave_at(0, 5, "C-014")
    (finding,) = found(RULE, (one, other, grave_at(0, 9, "C 15"), grave_at(0, 12)))
    assert finding.items == (one.id, other.id)
    assert finding.text.startswith("Grave C 14 and grave C-014 have one number")


def test_a_vault_and_a_grave_of_one_number_are_found() -> None:
    tomb = new_item(vault.KIND, Rectangle(east=9, north=9, width=3, length=3), number="C14")
    assert len(found(RULE, (grave_at(0, 0, "C 14"), tomb))) == 1


def stone(number: str, on: Item | None) -> Item:
    details = MemorialDetails(grave=None if on is None else on.id)
    place = Rectangle(east=0, north=0, width=0.9, length=0.15)
    return new_item(memorial.KIND, place, details=details, number=number)


def test_a_stone_with_the_number_of_another_grave_than_it_stands_on_is_found() -> None:
    one, other = grave_at(0, 0, "C 14"), grave_at(0, 5, "C 15")
    (finding,) = found(RULE, (one, other, stone("C 14", other)))
    assert finding.text == (
        "Memorial C 14 bears the number of grave C 14, but stands on grave C 15."
    )


def test_a_stone_with_the_number_of_its_grave_or_of_none_is_not_found() -> None:
    one = grave_at(0, 0, "C 14")
    stones = (stone("C 14", one), stone("M 1", one), stone("", one))
    assert found(RULE, (one, *stones)) == ()
    assert found(RULE, (one, stone("C 14", None))) == ()
