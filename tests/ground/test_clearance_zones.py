"""Areas against Steiner, A + P r + pi r^2 of a convex body (seen at several places)."""

from math import pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.clearance import zones
from plan_editor.ground.rules import Purpose
from plan_editor.kinds import bench, memorial
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of


def stone(east, north, *, height=1.0, number="", bearing=0.0):
    return new_item(
        memorial.KIND,
        Rectangle(east=east, north=north, width=0.8, length=0.2, bearing_deg=bearing),
        details=memorial.MemorialDetails(height_m=height),
        number=number,
    )


def zones_of(*stones, purpose=Purpose.PEOPLE):
    return zones(plan_of(stones), [s.id for s in stones], purpose=purpose)


@pytest.mark.parametrize(
    ("purpose", "height", "distance"),
    [
        (Purpose.PEOPLE, 1.0, 2.0),
        (Purpose.PEOPLE, 0.4, 1.4),
        (Purpose.MACHINE, 1.0, 2.5),
        (Purpose.MACHINE, 2.0, 4.0),
    ],
)
def test_a_zone_is_the_footprint_widened_by_the_rule(purpose, height, distance):
    (zone,) = zones_of(stone(3, 4, height=height, bearing=33), purpose=purpose)
    steiner = 0.8 * 0.2 + 2 * (0.8 + 0.2) * distance + pi * distance**2
    assert zone.distance_m == pytest.approx(distance)
    assert zone.area_m2 == pytest.approx(steiner, abs=0.02)
    assert zone.area_m2 <= steiner + 0.005


def test_zones_that_run_into_each_other_are_one_and_know_their_stones():
    near, next_to, far = stone(0, 0, number="B 2"), stone(3, 0, number="B 1"), stone(30, 0)
    large, small = zones_of(near, next_to, far)
    assert [k.item.number for k in large.kept_from] == ["B 1", "B 2"]
    assert [k.item.id for k in small.kept_from] == [far.id]
    assert large.area_m2 > small.area_m2


def test_a_stone_of_unknown_height_is_given_the_height_that_the_rule_assumes():
    (zone,) = zones_of(stone(0, 0, height=None))
    assert zone.kept_from[0].distance_m == 2.5
    assert zone.kept_from[0].assumed == ("height_m",)


def test_without_a_purpose_everyone_s_zones_are_given():
    one = stone(0, 0)
    found = zones(plan_of([one]), [one.id])
    assert {zone.rule.purpose for zone in found} == set(Purpose)


def test_nothing_unsafe_makes_no_zone():
    assert zones(plan_of([stone(0, 0)]), []) == ()


def test_what_is_gone_or_of_another_kind_makes_no_zone():
    seat = new_item(bench.KIND, shapely.Point(0, 0))
    assert zones(plan_of([seat]), [seat.id, stone(0, 0).id]) == ()


def test_reach_is_measured_and_not_read_off_the_outline():
    (zone,) = zones_of(stone(0, 0))
    # 2 m due south of the corner, and a hair nearer or farther
    assert zone.reaches(shapely.Point(0.1, -1.9999))
    assert not zone.reaches(shapely.Point(0.1, -2.0001))


@given(
    st.lists(st.tuples(st.integers(-20, 20), st.integers(-20, 20)), min_size=1, max_size=12),
    st.floats(0.1, 3.0),
)
def test_merging_loses_no_stone_and_no_ground(places, height):
    stones = [stone(e, n, height=height) for e, n in places]
    found = zones_of(*stones)
    assert sorted(k.item.id for z in found for k in z.kept_from) == sorted(s.id for s in stones)
    for zone in found:
        for kept in zone.kept_from:
            assert zone.shape.covers(kept.footprint)
    apart = shapely.area([z.shape for z in found]).sum()
    together = shapely.union_all([z.shape for z in found]).area
    assert apart == pytest.approx(together)
