import pytest
import shapely
from churchyards import found, grave_at, ground

from plan_editor.checking.rule import Severity

RULE = "outside_boundary"


def test_a_grave_across_the_boundary_is_found_with_how_far_it_reaches_out() -> None:
    yard, out = ground(), grave_at(49.0, 0, "A 1")  # 2.74 m long, so 1.74 m over the edge
    (finding,) = found(RULE, (yard, out))
    assert "Grave A 1 lies across the boundary, up to 1.74 m outside" in finding.text
    assert finding.items == (out.id, yard.id)
    assert finding.severity is Severity.DOUBT
    assert finding.place == pytest.approx((50.37, 0.61))


def test_a_grave_beyond_the_boundary_is_a_fault() -> None:
    (finding,) = found(RULE, (ground(), grave_at(53.0, 0)))
    assert "lies outside the boundary, 3.00 m from it" in finding.text
    assert finding.severity is Severity.FAULT


def test_a_grave_out_by_less_than_the_doubt_or_inside_is_not_found() -> None:
    assert found(RULE, (ground(), grave_at(47.30, 0), grave_at(0, 0))) == ()


def test_a_second_ground_holds_its_own_graves() -> None:
    far = ground(shapely.box(600, 0, 640, 30))
    assert found(RULE, (ground(), far, grave_at(610, 5), grave_at(0, 0))) == ()
    (finding,) = found(RULE, (ground(), far, grave_at(700, 5)))
    assert finding.items[1] == far.id


def test_a_boundary_that_is_a_line_holds_nothing_and_finds_nothing() -> None:
    line = ground(shapely.LineString([(0, 0), (9, 0), (9, 9)]))
    assert found(RULE, (line, grave_at(50, 50))) == ()
