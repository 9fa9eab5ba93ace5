"""Figures that kinds are born with, against what is published."""

import pytest

from plan_editor.kinds import base_plan, parish, tree
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.kinds.dimension import DimensionDetails
from plan_editor.kinds.parish import ParishDetails
from plan_editor.kinds.tree import TreeDetails
from plan_editor.plan.kind import kinds
from plan_editor.survey.fits.models import Control

FOOT = 0.3048
"""Metres, exactly, by the international agreement of 1959."""


def test_a_usual_grave_is_four_feet_by_nine() -> None:
    # cemetery regulations of Stockton-on-Tees Borough Council: a full-earth grave, 4 ft by 9 ft
    usual = ParishDetails()
    assert usual.grave_width_m == pytest.approx(4 * FOOT, abs=0.005)
    assert usual.grave_length_m == pytest.approx(9 * FOOT, abs=0.005)


def test_earth_over_and_between_coffins_is_three_feet_and_six_inches() -> None:
    # Local Authorities' Cemeteries Order 1977, Schedule 2, Part I, paragraphs 2 and 3
    usual = ParishDetails()
    assert usual.cover_m == pytest.approx(3 * FOOT, abs=0.001)
    assert usual.separation_m == pytest.approx(FOOT / 2, abs=0.001)


def test_memorials_have_the_common_greatest_and_least_sizes() -> None:
    # the pattern of several dioceses, the greatest as Birstall's regulations print it
    usual = ParishDetails()
    most = (usual.memorial_height_mm, usual.memorial_width_mm, usual.memorial_thickness_mm)
    assert most == (1200.0, 900.0, 150.0)
    assert usual.memorial_source
    assert usual.test_force_n == 250.0  # BS 8415 as amended in 2012, by trade reports


def test_further_rules_for_memorials_have_the_figures_of_a_common_pattern() -> None:
    # regulations of Bath and Wells as Wrington prints them (2010): ledger at most
    # 2100 by 900 mm, at least 1200 by 600; ashes tablet 450 by 400; 1200 mm to the church;
    # slate from 38 mm: 453churches.com; bases and foundations: Birstall
    usual = ParishDetails()
    assert (usual.ledger_length_mm, usual.ledger_width_mm) == (2100.0, 900.0)
    assert (usual.ledger_least_length_mm, usual.ledger_least_width_mm) == (1200.0, 600.0)
    assert (usual.tablet_length_mm, usual.tablet_width_mm) == (450.0, 400.0)
    assert usual.church_distance_m == 1.2
    assert usual.slate_least_thickness_mm == 38.0
    assert (usual.base_projection_mm, usual.vase_projection_mm) == (100.0, 200.0)
    assert (usual.foundation_least_mm, usual.foundation_most_mm) == (75.0, 125.0)


def test_a_parish_has_a_source_for_each_group_of_its_figures() -> None:
    sources = [d for d in parish.KIND.entries() if d.name.endswith("_source")]
    assert len(sources) == 8
    assert all(d.default for d in sources if d.name != "mowing_source")


def test_the_usual_size_of_what_is_drawn_agrees_with_the_parish() -> None:
    usual = ParishDetails()
    sizes = {k.name: k.usual_m for k in kinds() if k.usual_m is not None}
    assert sizes["grave"] == (usual.grave_width_m, usual.grave_length_m)
    assert sizes["ashes_plot"] == (usual.ashes_width_m, usual.ashes_length_m)


def test_a_crown_that_was_not_measured_all_round_is_eked_out_with_the_mean() -> None:
    assert TreeDetails().crown_m is None
    assert TreeDetails(crown_north_m=4.0, crown_south_m=2.0).crown_m == (4.0, 3.0, 2.0, 3.0)
    assert tree.KIND.crown_m(TreeDetails(crown_east_m=0.0)) == (0.0, 0.0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("stems", "veteran", "radius"),
    [
        # BS 5837:2012, annex D: twelve times the stem, as far as the limit at 1250 mm
        ((75.0,), False, 0.90),
        ((100.0,), False, 1.20),
        ((300.0,), False, 3.60),
        ((500.0,), False, 6.00),
        ((900.0,), False, 10.80),
        ((1250.0,), False, 15.00),
        ((1300.0,), False, 15.00),
        # 4.6.1: up to five stems by the root of the sum of squares, 321.4 mm; more by the mean,
        # which is from memory
        ((220.0, 180.0, 150.0), False, 3.857),
        ((150.0,) * 7, False, 4.762),
        # Natural England and the Forestry Commission: fifteen times, without limit
        ((1590.0,), True, 23.85),
    ],
)
def test_roots_are_protected_as_published(
    stems: tuple[float, ...], *, veteran: bool, radius: float
) -> None:
    told = TreeDetails(stems_mm=stems, veteran=veteran)
    assert told.roots_m == pytest.approx(radius, abs=0.001)
    assert tree.KIND.roots_m(told) == told.roots_m
    assert tree.KIND.width_m(told) == max(stems) / 1000


@pytest.mark.parametrize(
    ("stems", "spread", "radius"),
    [
        # the same standing advice: or 5 m beyond the crown, whichever is more
        ((1590.0,), 8.0, 23.85),
        ((400.0,), 7.0, 12.0),
        ((), 7.0, 12.0),
    ],
)
def test_a_veteran_is_left_its_crown_and_five_metres_more(
    stems: tuple[float, ...], spread: float, radius: float
) -> None:
    told = TreeDetails(stems_mm=stems, crown_west_m=spread, crown_east_m=2.0, veteran=True)
    assert told.roots_m == pytest.approx(radius)


def test_nothing_is_known_of_the_roots_of_a_tree_that_was_not_measured() -> None:
    assert (TreeDetails().stem_m, TreeDetails().roots_m) == (None, None)
    assert TreeDetails(veteran=True).roots_m is None


def test_control_points_are_read_four_numbers_at_a_time() -> None:
    told = BasePlanDetails(control=(1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0))
    assert told.control_points == (
        Control(x=1.0, y=2.0, east=3.0, north=4.0),
        Control(x=5.0, y=6.0, east=7.0, north=8.0),
    )
    assert base_plan.BasePlanDetails().control_points == ()


def test_a_dimension_says_its_length_as_drawn() -> None:
    assert DimensionDetails().figure(9 * FOOT) == "2.74 m"
    told = DimensionDetails(feet=True, words="between kerbs")
    assert told.figure(9 * FOOT) == "2.74 m (9' 0\") between kerbs"
