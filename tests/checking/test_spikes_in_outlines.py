import pytest
import shapely
from churchyards import found, grave_at, mended, old_plan

from plan_editor.kinds import grass, section
from plan_editor.plan.item import Item, new_item

RULE = "spikes"


def piece(*corners: tuple[float, float]) -> Item:
    return new_item(section.KIND, shapely.Polygon(corners))


SPIKED = ((0, 0), (20, 0), (20, 10), (35.0, 10.004), (20, 10.008), (20, 30), (0, 30))


def test_a_spike_of_15_m_is_found_at_its_tip_and_taken_out() -> None:
    (finding,) = found(RULE, (piece(*SPIKED),))
    assert "has a spike 15.00 m long" in finding.text
    assert finding.place == pytest.approx((35.0, 10.004))
    (after,) = mended(RULE, (piece(*SPIKED),)).of(section.KIND)
    assert after.shape is not None
    assert after.shape.area == pytest.approx(600.0, abs=0.001)


def test_a_corner_of_10_degrees_and_a_tongue_of_5_cm_are_none() -> None:
    sharp = piece((0, 0), (20, 0), (0, 3.5))
    tongue = piece((0, 0), (20, 0), (20, 10), (35, 10), (35, 10.05), (20, 10.05), (20, 30))
    assert found(RULE, (sharp, tongue, grave_at(0, 0), old_plan())) == ()


def test_spikes_of_several_corners_and_in_holes_are_taken_out() -> None:
    two = piece(
        (0, 0), (20, 0), (20, 10), (27, 10.001), (35, 10.004), (27, 10.005), (20, 10.008),
        (20, 30), (10, 30), (10.003, 42), (9.997, 30), (0, 30),
    )  # fmt: skip
    (finding,) = found(RULE, (two,))
    assert "2 spikes" in finding.text
    mended(RULE, (two,))
    hole = [(5, 5), (5, 8), (8, 8), (8, 6.502), (15, 6.5), (8, 6.498), (8, 5)]
    holed = shapely.Polygon([(0, 0), (20, 0), (20, 30), (0, 30)], [hole])
    (after,) = mended(RULE, (new_item(grass.KIND, holed),)).of(grass.KIND)
    assert after.shape is not None
    assert after.shape.area == pytest.approx(600.0 - 9.0, abs=0.001)


def test_a_hole_that_is_all_spike_is_filled_and_an_area_that_is_all_spike_is_left() -> None:
    hole = [(5, 5), (15, 5.004), (5, 5.008)]
    holed = shapely.Polygon([(0, 0), (20, 0), (20, 30), (0, 30)], [hole])
    (after,) = mended(RULE, (new_item(grass.KIND, holed),)).of(grass.KIND)
    assert after.shape is not None
    assert after.shape.area == pytest.approx(600.0)
    (finding,) = found(RULE, (piece((0, 0), (20, 0.004), (0, 0.008)),))
    assert finding.mend is None


def test_a_spike_on_one_of_several_pieces_is_told_without_a_mend() -> None:
    both = shapely.MultiPolygon([shapely.Polygon(SPIKED), shapely.box(50, 0, 60, 9)])
    (finding,) = found(RULE, (new_item(grass.KIND, both),))
    assert finding.mend is None
    assert "has a spike, nowhere" in finding.text
