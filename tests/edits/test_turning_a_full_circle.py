"""Three hundred and sixty turns of one degree, as the Turn tool makes them."""

from functools import reduce
from math import cos, hypot, sin, tau

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import Polygon

from plan_editor.edits.places import Turn
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import bench, grass, grave
from plan_editor.kinds.bench import BenchDetails
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of

rectangles = st.builds(
    Rectangle,
    east=st.integers(-60_000, 60_000).map(lambda mm: mm / 1000),
    north=st.integers(-60_000, 60_000).map(lambda mm: mm / 1000),
    width=st.integers(300, 3_000).map(lambda mm: mm / 1000),
    length=st.integers(300, 3_000).map(lambda mm: mm / 1000),
    bearing_deg=st.integers(0, 3599).map(lambda tenths: tenths / 10),
)
pivots = st.tuples(st.floats(-60, 60), st.floats(-60, 60))


def turned_round(item: Item, about: tuple[float, float] | None, steps: int = 360) -> Item:
    """Return an item after so many turns that make a circle, each kept as the plan keeps it."""
    edit = Turn(ids=(item.id,), degrees=360.0 / steps, about=about)

    def step(plan: Plan, _: int) -> Plan:
        return plan.after(edit.changes(plan))

    return reduce(step, range(steps), plan_of([item])).items[item.id]


@settings(max_examples=max(6, settings.default.max_examples // 50))
@given(rectangles, st.none() | pivots)
@example(Rectangle(east=1.0, north=2.0, width=1.22, length=2.74, bearing_deg=7.0), (40.0, -9.0))
def test_a_grave_comes_back_to_the_same_outline(rectangle, about):
    before = new_item(grave.KIND, rectangle)
    after = turned_round(before, about)
    (e0, n0), (e1, n1) = ((r.east, r.north) for r in (before.rectangle, after.rectangle))
    # its truth is kept to a micrometre at each step: 360 roundings of half of one at most
    assert hypot(e1 - e0, n1 - n0) < 0.000_26
    assert after.rectangle.bearing_deg == pytest.approx(rectangle.bearing_deg, abs=1e-6)
    assert (after.rectangle.width, after.rectangle.length) == (
        rectangle.width,
        rectangle.length,
    )
    assert after.shape.equals_exact(before.shape, 0.001 + 1e-9)


@settings(max_examples=max(6, settings.default.max_examples // 50))
@given(st.lists(st.integers(2_000, 15_000), min_size=3, max_size=8), pivots)
def test_an_area_comes_back_within_three_centimetres(reaches, about):
    spokes = ((tau * n / len(reaches), r / 1000) for n, r in enumerate(reaches))
    outline = Polygon([(r * cos(a), r * sin(a)) for a, r in spokes])
    before = new_item(grass.KIND, outline)
    after = turned_round(before, about)
    # each corner is kept in whole millimetres at each step: errors of 0.29 mm east and north
    # that add up as a random walk, to 0.29 · √360 = 5.5 mm in the standard deviation; of all
    # corners of all runs one in a hundred million lies more than six of these away
    apart = shapely.get_coordinates(after.shape) - shapely.get_coordinates(before.shape)
    assert abs(apart).max() < 6 * 0.0055


def test_a_front_comes_back_to_where_it_faced():
    before = new_item(bench.KIND, shapely.Point(3, 4), details=BenchDetails(facing_deg=33.0))
    after = turned_round(before, None)
    assert after.details.facing_deg == pytest.approx(33.0, abs=1e-6)
    assert after.shape == before.shape
