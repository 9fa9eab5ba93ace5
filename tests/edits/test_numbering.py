"""Numbers by rule, written out by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.edits.numbering import (
    LETTERS,
    Gaps,
    NumberRule,
    going_on,
    next_letter,
    renumbered,
    rule_from,
)


def test_a_number_tells_the_rule_by_which_it_is_the_first() -> None:
    assert rule_from("C 14") == NumberRule(prefix="C ", first=14)
    assert rule_from("C04") == NumberRule(prefix="C", first=4, digits=2)
    assert rule_from("7") == NumberRule(first=7)
    assert rule_from("Old 2/031") == NumberRule(prefix="Old 2/", first=31, digits=3)
    assert rule_from("14a") is None
    assert rule_from("") is None


def test_numbers_follow_the_rule_and_keep_noughts() -> None:
    rule = NumberRule(prefix="C ", first=9, digits=2)
    assert rule.numbers(3) == ("C 09", "C 10", "C 11")
    assert NumberRule(prefix="D", first=5, step=-2).numbers(3) == ("D5", "D3", "D1")
    with pytest.raises(ValueError, match="-1"):
        NumberRule(first=5, step=-2).numbers(4)


def test_a_row_goes_on_the_way_it_runs() -> None:
    assert going_on(("C 1", "C 2", "C 4")) == NumberRule(prefix="C ", first=5)
    assert going_on(("C 9", "C 8", "C 7")) == NumberRule(prefix="C ", first=6, step=-1)
    # two tell it as well as three: or the next would bear the number of the first
    assert going_on(("C 5", "C 4")) == NumberRule(prefix="C ", first=3, step=-1)
    assert going_on(("C 4", "C 5")) == NumberRule(prefix="C ", first=6)
    assert going_on(("C 9", "", "C 10")) == NumberRule(prefix="C ", first=11)
    assert going_on(("C 9", "")) is None
    assert going_on(()) is None


def test_gaps_are_closed_kept_or_counted_as_they_lie() -> None:
    old, spaces = ("B 1", "B 2", "B 5"), (0, 1, 3)
    rule = NumberRule(prefix="C ", first=10)
    assert renumbered(rule, old, spaces, Gaps.CLOSED) == ("C 10", "C 11", "C 12")
    assert renumbered(rule, old, spaces, Gaps.AS_NUMBERED) == ("C 10", "C 11", "C 14")
    assert renumbered(rule, old, spaces, Gaps.AS_THEY_LIE) == ("C 10", "C 11", "C 13")
    falling = renumbered(rule, ("B 5", "B 2", "B 1"), (0, 2, 3), Gaps.AS_NUMBERED)
    assert falling == ("C 10", "C 13", "C 14")
    for bare, told in (("14a", "14a"), ("", "no number")):
        with pytest.raises(ValueError, match=told):
            renumbered(rule, ("B 1", bare), (0, 1), Gaps.AS_NUMBERED)


def test_the_next_row_takes_the_next_letter_without_i_and_o() -> None:
    # ISO 5457:1999, 4.4: the letters I and O are not used along the edges of a sheet
    assert next_letter([]) == "A"
    assert next_letter(["A", "C", "B"]) == "D"
    assert next_letter(["H"]) == "J"
    assert next_letter(["N"]) == "P"
    assert next_letter(["Z", "A"]) == "AA"
    assert next_letter(["AZ"]) == "BA"
    assert next_letter(["north wall", "I", "7"]) == "A"


@given(st.integers(1, 2000))
def test_no_row_is_called_twice(count: int) -> None:
    taken: list[str] = []
    for _ in range(min(count, 60)):
        taken.append(next_letter(taken))
    assert len(set(taken)) == len(taken)
    assert set("".join(taken)) <= set(LETTERS)
