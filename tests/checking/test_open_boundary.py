import pytest
import shapely
from churchyards import found, ground, mended

from plan_editor.kinds import boundary

RULE = "open_boundary"


def line(*corners: tuple[float, float]):
    return ground(shapely.LineString(corners))


def test_ends_that_nearly_meet_are_closed_to_an_area_by_the_mend() -> None:
    nearly = line((0, 0), (40, 0), (40, 30), (0, 30), (0, 0.8))
    (finding,) = found(RULE, (nearly,))
    assert "its ends are 0.80 m apart" in finding.text
    assert finding.place == pytest.approx((0, 0.8))
    (after,) = mended(RULE, (nearly,)).of(boundary.KIND)
    assert after.shape is not None
    assert after.shape.area == pytest.approx(1200.0)


def test_a_line_that_comes_back_to_its_start_is_closed() -> None:
    round_it = line((0, 0), (40, 0), (40, 30), (0, 0))
    assert "comes back to its start" in found(RULE, (round_it,))[0].text
    mended(RULE, (round_it,))


def test_ends_far_apart_are_told_and_left() -> None:
    (finding,) = found(RULE, (line((0, 0), (40, 0), (40, 30)),))
    assert "its ends lie 50.0 m apart." in finding.text
    assert finding.mend is None


def test_a_line_that_another_carries_on_is_told_so() -> None:
    one, other = line((0, 0), (40, 0)), line((40, 0.5), (40, 30), (0, 30))
    first, second = found(RULE, (one, other))
    assert "carried on by" in first.text
    assert "carried on by" not in second.text


def test_a_line_that_cannot_be_an_area_is_told_without_a_mend() -> None:
    crossing = line((0, 0), (40, 30), (40, 0), (0, 30), (0, 1))
    assert found(RULE, (crossing,))[0].mend is None


def test_an_area_is_not_found() -> None:
    assert found(RULE, (ground(),)) == ()
