import pytest
import shapely
from churchyards import found, mended

from plan_editor.kinds import grass, path, section, zone
from plan_editor.kinds.path import PathDetails
from plan_editor.kinds.zone import ZoneDetails, ZoneSort
from plan_editor.plan.item import Item, new_item

RULE = "gaps"
OVER = "overlapping_pieces"


def lawn(*box: float) -> Item:
    return new_item(grass.KIND, shapely.box(*box))


def part(*box: float) -> Item:
    return new_item(section.KIND, shapely.box(*box))


def test_a_strip_of_30_cm_between_two_lawns_is_found_and_filled() -> None:
    pieces = (lawn(0, 0, 20, 30), lawn(20.3, 0, 40, 30))
    (finding,) = found(RULE, pieces)
    assert "a gap of 9.00 m² between them, 0.30 m broad" in finding.text
    assert finding.place == pytest.approx((20.15, 15.0), abs=0.02)
    after = mended(RULE, pieces)
    whole = shapely.union_all([i.shape for i in after.of(grass.KIND)])
    assert whole.area == pytest.approx(1200.0, abs=0.1)
    assert found(OVER, after) == ()


def test_a_strip_broader_than_half_a_metre_is_meant() -> None:
    assert found(RULE, (lawn(0, 0, 20, 30), lawn(20.6, 0, 40, 30))) == ()


def test_a_path_between_two_lawns_is_no_gap() -> None:
    line = shapely.LineString([(20.15, -1), (20.15, 31)])
    way = new_item(path.KIND, line, details=PathDetails(width_m=0.3))
    assert found(RULE, (lawn(0, 0, 20, 30), lawn(20.3, 0, 40, 30), way)) == ()


def test_strips_on_either_side_of_a_narrow_path_are_no_gap() -> None:
    line = shapely.LineString([(20.2, -1), (20.2, 31)])
    way = new_item(path.KIND, line, details=PathDetails(width_m=0.2))
    assert found(RULE, (lawn(0, 0, 20, 30), lawn(20.4, 0, 40, 30), way)) == ()


def test_lawns_that_meet_in_a_corner_at_an_angle_leave_no_gap() -> None:
    wedge = new_item(grass.KIND, shapely.Polygon([(20, 0), (40, 0), (40, 30), (30, 30)]))
    assert found(RULE, (lawn(0, 0, 20, 30), wedge)) == ()


def test_a_notch_in_one_lawn_is_no_gap() -> None:
    notched = shapely.box(0, 0, 20, 30) - shapely.box(10, 0, 10.3, 20)
    assert found(RULE, (new_item(grass.KIND, notched), lawn(20, 0, 40, 30))) == ()


def test_a_hole_of_which_one_piece_alone_has_the_edge_is_no_gap_between_two() -> None:
    assert found(RULE, (lawn(0, 0, 20, 30),)) == ()


def test_a_strip_of_two_sections_is_found_and_cut_from_the_larger() -> None:
    pieces = (part(0, 0, 20.3, 30), part(20, 0, 35, 30))
    (finding,) = found(OVER, pieces)
    assert "share 9.00 m², 0.30 m broad" in finding.text
    large, small = mended(OVER, pieces).of(section.KIND)
    assert (large.shape.area, small.shape.area) == pytest.approx((600.0, 450.0))


def test_a_broad_overlap_is_found_and_left_to_people() -> None:
    (finding,) = found(OVER, (part(0, 0, 22, 30), part(20, 0, 35, 30)))
    assert finding.mend is None


def test_a_section_within_a_section_is_a_part_of_it_but_grass_on_grass_is_cut() -> None:
    assert found(OVER, (part(0, 0, 20, 30), part(5, 5, 8, 8))) == ()
    rough = (lawn(5, 5, 8, 8), lawn(0, 0, 20, 30))
    (finding,) = found(OVER, rough)
    assert "lies over" in finding.text
    _, large = mended(OVER, rough).of(grass.KIND)
    assert large.shape.area == pytest.approx(591.0)


def test_pieces_that_touch_share_nothing() -> None:
    assert found(OVER, (part(0, 0, 20, 30), part(20, 0, 35, 30))) == ()


def test_ground_consecrated_and_not_is_a_fault_that_no_button_settles() -> None:
    def sort(sort: ZoneSort, *box: float) -> Item:
        return new_item(zone.KIND, shapely.box(*box), details=ZoneDetails(sort=sort))

    holy, other = ZoneSort.CONSECRATED, ZoneSort.UNCONSECRATED
    (finding,) = found(OVER, (sort(holy, 0, 0, 20, 30), sort(other, 19.9, 0, 30, 30)))
    assert finding.mend is None
    assert found(OVER, (sort(holy, 0, 0, 20, 30), sort(holy, 19, 0, 30, 30))) == ()


def test_a_lawn_wholly_covered_by_its_like_has_nothing_to_cut() -> None:
    (finding,) = found(OVER, (lawn(0, 0, 20, 30), lawn(0, 0, 20, 30)))
    assert finding.mend is None
