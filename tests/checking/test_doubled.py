from dataclasses import replace

import pytest
import shapely
from churchyards import found, grave_at, mended

from plan_editor.kinds import bench, burial, grave, note
from plan_editor.kinds.burial import BurialDetails
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.plan.item import new_item

RULE = "doubled"


def test_a_grave_drawn_twice_is_found_and_the_empty_one_goes() -> None:
    told = replace(grave_at(0, 0, "A 1"), details=GraveDetails(state=State.OCCUPIED))
    empty = grave_at(0.01, 0.01)
    (finding,) = found(RULE, (empty, told))
    assert finding.items == (empty.id, told.id)
    assert list(mended(RULE, (empty, told)).items) == [told.id]


def test_of_two_alike_the_second_goes() -> None:
    one, other = grave_at(0, 0), grave_at(0, 0)
    assert "on the plan twice" in found(RULE, (one, other))[0].text
    assert list(mended(RULE, (one, other)).items) == [one.id]


@pytest.mark.parametrize("east", [0.03, 1.0])
def test_what_lies_3_cm_apart_is_two_things(east: float) -> None:
    assert found(RULE, (grave_at(0, 0), grave_at(east, 0))) == ()


def test_two_that_both_tell_something_are_left_to_people() -> None:
    one = replace(grave_at(0, 0, "A 1"), details=GraveDetails(state=State.OCCUPIED))
    (finding,) = found(RULE, (one, grave_at(0, 0, "A 2")))
    assert finding.mend is None


def test_one_that_something_points_to_stays() -> None:
    one, other = grave_at(0, 0), grave_at(0, 0)
    who = new_item(burial.KIND, details=BurialDetails(grave=other.id))
    assert list(mended(RULE, (one, other, who)).of(grave.KIND)) == [other]


def test_things_of_two_kinds_may_lie_in_one_place() -> None:
    seat = new_item(bench.KIND, shapely.Point(0, 0))
    assert found(RULE, (seat, new_item(note.KIND, shapely.Point(0, 0)))) == ()
