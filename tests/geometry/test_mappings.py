"""Ways to the ground and back, against the equations worked by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.geometry.mappings import Perspective, Straight

SKEW = Straight((0.02, 0.001, 100.0, 0.003, -0.025, 200.0))
SLANT = Perspective(
    (0.02, 0.0, 5.0, 0.0, -0.02, 90.0),
    (0.02, 0.001, 5.0, 0.002, -0.02, 90.0, 0.0001, 0.00005),
)


def test_six_numbers_are_used_as_they_are_told():
    # east = 0.02·300 + 0.001·400 + 100, north = 0.003·300 - 0.025·400 + 200
    assert SKEW.to_ground(np.array([(300.0, 400.0)])) == pytest.approx(
        np.array([(106.4, 190.9)])
    )
    assert SKEW.is_straight
    assert SKEW.straight == SKEW.numbers


def test_eight_numbers_are_used_as_they_are_told():
    # east = (0.02·300 + 0.001·400 + 5) / (0.0001·300 + 0.00005·400 + 1) = 11.4 / 1.05
    # north = (0.002·300 - 0.02·400 + 90) / 1.05 = 82.6 / 1.05
    found = SLANT.to_ground(np.array([(300.0, 400.0)]))
    assert found == pytest.approx(np.array([(10.857142857, 78.666666667)]))
    assert not SLANT.is_straight


@given(st.floats(0, 3000), st.floats(0, 3000))
def test_there_and_back_is_where_one_was(x, y):
    place = np.array([(x, y)])
    for mapping in (SKEW, SLANT):
        assert mapping.to_paper(mapping.to_ground(place)) == pytest.approx(place, abs=1e-6)
