"""Things aligned with a bearing, each about its own middle: turns of 45 degrees at most."""

import pytest
import shapely
from shapely import LineString, Point

from plan_editor.edits.places import Align
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle, longest_side_deg
from plan_editor.kinds import bench, grave, hedge, tree
from plan_editor.kinds.bench import BenchDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of


def aligned(item, bearing_deg):
    (change,) = Align(ids=(item.id,), bearing_deg=bearing_deg).changes(plan_of([item]))
    return change.after


@pytest.mark.parametrize(
    ("before", "to", "wanted"),
    [(10.0, 90.0, 0.0), (10.0, 30.0, 30.0), (350.0, 5.0, 5.0), (50.0, 0.0, 90.0)],
)
def test_a_grave_turns_the_short_way_and_its_head_stays_a_head(before, to, wanted):
    place = Rectangle(east=5.0, north=5.0, width=1.2, length=2.7, bearing_deg=before)
    after = aligned(new_item(grave.KIND, place), to)
    assert after.rectangle.bearing_deg == pytest.approx(wanted)
    assert after.rectangle.centre == pytest.approx(place.centre, abs=2e-6)


def test_a_hedge_goes_by_its_longest_side():
    line = new_item(hedge.KIND, LineString([(0, 0), (3, 4), (3, 5)]))
    # the side of 5 m runs at atan(3/4) = 36.87 degrees; aligned with north it turns that back
    after = aligned(line, 0.0)
    assert longest_side_deg(after.shape) == pytest.approx(0.0, abs=0.02)
    assert after.shape.length == pytest.approx(6.0, abs=0.002)


def test_a_bench_goes_by_its_front():
    seat = new_item(bench.KIND, Point(1, 1), details=BenchDetails(facing_deg=80.0))
    assert aligned(seat, 0.0).details.facing_deg == pytest.approx(90.0)


def test_what_lies_in_no_direction_is_refused():
    with pytest.raises(EditRefused, match=r"Tree lies in no direction\. Nothing was changed"):
        aligned(new_item(tree.KIND, Point(1, 1)), 0.0)


def test_the_longest_side_of_an_area_with_a_hole():
    yard = shapely.Polygon([(0, 0), (9, 0), (9, 4), (0, 4)], [[(1, 1), (2, 1), (2, 3)]])
    assert longest_side_deg(yard) % 180.0 == 90.0
