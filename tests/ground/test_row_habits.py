"""What a further row of a plan is likely to be."""

import pytest
from shapely import box

from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import Axis, at_pitch
from plan_editor.ground.row_habits import habit, numbers_of, prefix_at, spaces_of
from plan_editor.ground.rows import row_through
from plan_editor.kinds import ashes_plot, grave, section
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan

NORTH = Axis(start=(0.0, 0.0), bearing_deg=0.0)


def graves(count: int, pitch: float = 1.5) -> list[Item]:
    places = at_pitch(NORTH, (1.1, 2.3), count, pitch, right=True)
    return [new_item(grave.KIND, p, number=f"A {n}") for n, p in enumerate(places, 1)]


def test_an_empty_plan_has_the_usual_size_with_the_feet_to_the_east() -> None:
    found = habit(Plan(), grave.KIND)
    assert found.size == grave.KIND.usual_m
    assert found.pitch_m == 1.22
    assert found.facing_deg == 90.0
    assert found.told_by == "the usual size"


def test_what_is_there_tells_size_pitch_and_facing() -> None:
    found = habit(plan_of(graves(5)), grave.KIND)
    assert found.size == (1.1, 2.3)
    assert found.pitch_m == 1.5
    assert found.told_by == "as in the row there is"
    two = habit(plan_of(graves(2)), grave.KIND)
    assert (two.pitch_m, two.told_by) == (1.1, "as the 2 graves there")
    one = habit(plan_of(graves(1)), grave.KIND)
    assert one.told_by == "as the 1 grave there"
    assert habit(plan_of(graves(5)), ashes_plot.KIND).told_by == "the usual size"


def test_the_sample_has_its_feet_to_the_east_and_pitches_of_a_plot() -> None:
    found = habit(read_plan(sample("harrowmere.gpkg")), grave.KIND)
    assert found.facing_deg in {80.0, 90.0}
    assert 1.2 < found.pitch_m < 1.5
    assert found.told_by == "as in the 24 rows there are"


def _section(prefix: str, half: float) -> Item:
    details = section.SectionDetails(name=prefix, prefix=prefix)
    return new_item(section.KIND, box(-half, -half, half, half), details=details)


def test_the_smallest_section_that_holds_a_place_tells_how_numbers_begin() -> None:
    plan = plan_of([_section("Old ", 50.0), _section("C", 5.0), _section("", 2.0)])
    assert prefix_at(plan, (0.0, 0.0)) == "C"
    assert prefix_at(plan, (20.0, 0.0)) == "Old"
    assert prefix_at(plan, (90.0, 0.0)) == ""


def test_empty_spaces_are_counted_by_the_pitch() -> None:
    row = graves(9)
    some = [row[0], row[1], row[2], row[5], row[6]]
    found = row_through(some)
    assert found is not None
    assert spaces_of(found) == (0, 1, 2, 5, 6)
    assert numbers_of(plan_of(some), found) == ("A 1", "A 2", "A 3", "A 6", "A 7")


def test_graves_closer_than_the_pitch_still_have_a_space_each() -> None:
    places = [0.0, 0.4, 2.0, 3.6]
    some = [
        new_item(grave.KIND, Rectangle(east=0, north=n, width=0.3, length=2)) for n in places
    ]
    found = row_through(some)
    assert found is not None
    assert found.pitch_m == pytest.approx(1.6)
    assert spaces_of(found) == (0, 1, 2, 3)
