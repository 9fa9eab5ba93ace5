"""Root protection against the figures of the published guidance."""

import pytest

from plan_editor.kinds.dimension import DimensionDetails
from plan_editor.kinds.tree import TreeDetails

# BS 5837:2012, annex D: radius of a single stem; area in whole square metres
ANNEX_D = [(75, 0.90), (100, 1.20), (300, 3.60), (500, 6.00), (900, 10.80), (1250, 15.00)]


@pytest.mark.parametrize(("stem_mm", "radius"), ANNEX_D)
def test_the_radius_of_a_single_stem_is_that_of_the_table(
    stem_mm: float, radius: float
) -> None:
    assert TreeDetails(stems_mm=(stem_mm,)).roots_m == pytest.approx(radius)


def test_the_radius_ends_at_15_m() -> None:
    assert TreeDetails(stems_mm=(1300.0,)).roots_m == 15.0


def test_several_stems_count_as_their_combined_diameter() -> None:
    # clause 4.6.1, worked out by hand: 321.4 mm of three stems, 396.9 mm of seven
    assert TreeDetails(stems_mm=(220.0, 180.0, 150.0)).roots_m == pytest.approx(3.857, abs=5e-4)
    assert TreeDetails(stems_mm=(150.0,) * 7).roots_m == pytest.approx(4.762, abs=5e-4)


def test_a_veteran_is_left_fifteen_diameters_without_limit() -> None:
    # a yew of 5 m girth is 1.59 m through: 23.9 m
    assert TreeDetails(stems_mm=(1591.5,), veteran=True).roots_m == pytest.approx(
        23.9, abs=0.05
    )


def test_an_unmeasured_tree_has_no_radius() -> None:
    assert TreeDetails().roots_m is None
    assert TreeDetails().stem_m is None
    assert TreeDetails(stems_mm=(300.0, 450.0)).stem_m == 0.45


def test_a_dimension_says_its_length_in_metres_and_if_wanted_in_feet() -> None:
    assert DimensionDetails().figure(2.0) == "2.00 m"
    # 1.8288 m are six feet
    told = DimensionDetails(feet=True, words="between kerbs").figure(1.8288)
    assert told.startswith("1.83 m (6")
    assert told.endswith("between kerbs")
