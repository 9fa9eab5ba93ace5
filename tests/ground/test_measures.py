"""Areas of polygons against worked examples of surveying, with their published results."""

import pytest
import shapely

from plan_editor.ground.measures import extent, measure, measures
from plan_editor.kinds import boundary, inspection, path, wall, zone
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of


@pytest.mark.parametrize(
    ("corners", "area", "within"),
    [
        # jerrymahun.com, COGO chapter H: printed 140494 from rounded products
        (
            [
                (1259.97, 406.31),
                (1489.47, 235.12),
                (1126.40, 65.81),
                (942.04, 317.89),
                (1282.54, 675.32),
            ],
            140494,
            1.0,
        ),
        # "farm" of five corners, askfilo.com: printed 261108.1
        (
            [(0, 591.78), (517.44, 202.94), (520.41, 0), (716.29, 694.02), (125.72, 817.71)],
            261108.1,
            0.06,
        ),
    ],
)
def test_the_area_of_a_piece_of_ground_is_the_published_one(corners, area, within):
    item = new_item(boundary.KIND, shapely.Polygon(corners))
    assert measure(boundary.KIND, [item]).area_m2 == pytest.approx(area, abs=within)


def test_a_hole_is_left_out():
    ring = shapely.box(0, 0, 10, 10).difference(shapely.box(2, 2, 4, 4))
    assert measure(zone.KIND, [new_item(zone.KIND, ring)]).area_m2 == pytest.approx(96.0)


def test_a_path_along_its_middle_has_its_length_times_its_width():
    line = new_item(
        path.KIND, shapely.LineString([(0, 0), (30, 40)]), details=path.PathDetails(width_m=1.5)
    )
    area = new_item(path.KIND, shapely.box(0, 0, 2, 5))
    found = measure(path.KIND, [line, area])
    assert (found.count, found.length_m) == (2, pytest.approx(50.0))
    assert found.area_m2 == pytest.approx(50 * 1.5 + 10)


def test_kinds_are_measured_in_the_order_in_which_they_are_drawn():
    plan = plan_of(
        [
            new_item(wall.KIND, shapely.LineString([(0, 0), (10, 0)])),
            new_item(inspection.KIND),
            new_item(path.KIND, shapely.LineString([(0, 0), (0, 10)])),
        ]
    )
    found = measures(plan)
    assert {m.kind.name: m.count for m in found} == {"wall": 1, "path": 1, "inspection": 1}
    assert [m.kind.order for m in found] == sorted(m.kind.order for m in found)


def test_the_extent_holds_the_widths_too():
    thick = wall.WallDetails(width_m=0.5)
    plan = plan_of([new_item(wall.KIND, shapely.LineString([(0, 0), (10, 0)]), details=thick)])
    assert extent(plan) == (-0.25, -0.25, 10.25, 0.25)


def test_a_plan_with_nothing_on_it_has_no_extent():
    assert extent(plan_of([new_item(inspection.KIND)])) is None
