"""Differences in plain words."""

from dataclasses import replace
from typing import Any

import pytest
from strategies import plain

from plan_editor.commands.difference_words import line, moved_words
from plan_editor.kinds import burial, grave, tree
from plan_editor.plan.comparing import Moved, moved
from plan_editor.plan.differences import differences
from plan_editor.plan.item import Item
from plan_editor.plan.plan import plan_of

GRAVE = replace(plain(grave.KIND), number="C 14")


def told(before: Item[Any], after: Item[Any], *others: Item[Any]) -> list[str]:
    plan = plan_of([*others])
    return [line(d, moved(before, after), plan, plan) for d in differences(before, after)]


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ((1.25, 45.0, 0.0, False), "moved 1.250 m on bearing 045.0°"),
        ((0.0, 0.0, -3.0, False), "turned 3.00° anticlockwise"),
        ((0.0, 0.0, 3.0, True), "turned 3.00° clockwise, given another shape"),
        ((0.0001, 10.0, 0.001, False), "moved by less than a millimetre"),
    ],
)
def test_a_move_is_told_with_what_is_worth_telling(
    numbers: tuple[float, float, float, bool], words: str
) -> None:
    far, bearing, turned, reshaped = numbers
    told = Moved(distance_m=far, bearing_deg=bearing, turned_deg=turned, reshaped=reshaped)
    assert moved_words(told) == words


def test_a_place_is_given_or_taken_away() -> None:
    nowhere = replace(GRAVE, shape=None, rectangle=None)
    assert told(nowhere, GRAVE) == ["Place: given"]
    assert told(GRAVE, nowhere) == ["Place: taken away"]


def test_things_referred_to_are_named_and_long_texts_cut() -> None:
    entry = plain(burial.KIND, 5)
    after = replace(entry, details=replace(entry.details, grave=GRAVE.id, remarks="so " * 50))
    assert told(entry, after, GRAVE)[0] == "Lies in: nothing → Grave C 14"
    assert told(entry, after)[0] == "Lies in: nothing → something not named"
    assert len(told(entry, after, GRAVE)[1]) < 100


def test_numbers_have_their_unit_and_no_more_digits_than_they_have() -> None:
    oak = plain(tree.KIND)
    stems = replace(oak, details=replace(oak.details, stems_mm=(450.0, 300.5)))
    assert told(oak, stems) == ["Stem diameters: nothing → 450 300.5 mm"]
