"""The way along an edge: a square and an angle by hand, and any ring."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing, LineString

from plan_editor.geometry.edges import Spot, spot_on, ways_between

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
ANGLE = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0))


def ways(corners, start, end, *, closed=True):
    spots = [spot_on(corners, closed=closed, near=p) for p in (start, end)]
    return ways_between(corners, closed=closed, start=spots[0], end=spots[1])


def test_the_shorter_way_round_comes_first_and_takes_every_corner():
    shorter, longer = ways(SQUARE, (2.0, 0.0), (4.0, 3.0))
    assert shorter == ((2.0, 0.0), (4.0, 0.0), (4.0, 3.0))
    assert longer == ((2.0, 0.0), (0.0, 0.0), (0.0, 4.0), (4.0, 4.0), (4.0, 3.0))
    assert ways(SQUARE, (4.0, 3.0), (2.0, 0.0))[0] == shorter[::-1]


def test_the_way_over_the_first_corner_of_a_ring_is_found():
    assert ways(SQUARE, (0.0, 1.0), (1.0, 0.0))[0] == ((0.0, 1.0), (0.0, 0.0), (1.0, 0.0))


def test_from_corner_to_corner_there_are_no_others():
    assert ways(SQUARE, (0.0, 0.0), (4.0, 0.0))[0] == ((0.0, 0.0), (4.0, 0.0))
    assert ways(SQUARE, (0.0, 4.0), (0.0, 0.0))[0] == ((0.0, 4.0), (0.0, 0.0))


def test_along_a_line_there_is_one_way():
    assert ways(ANGLE, (1.0, 0.0), (4.0, 1.0), closed=False) == (
        ((1.0, 0.0), (4.0, 0.0), (4.0, 1.0)),
    )
    assert ways(ANGLE, (4.0, 3.0), (0.0, 0.0), closed=False) == (ANGLE[::-1],)


def test_a_spot_is_the_corner_itself_or_the_foot_on_the_nearest_side():
    assert spot_on(ANGLE, closed=False, near=(4.0003, -0.0003)) == Spot(1, 0.0, (4.0, 0.0))
    assert spot_on(ANGLE, closed=False, near=(1.0, 0.5)) == Spot(0, 0.25, (1.0, 0.0))
    assert spot_on(ANGLE, closed=False, near=(9.0, 9.0)) == Spot(2, 0.0, (4.0, 3.0))
    assert spot_on(
        ((0.0, 0.0), (0.0, 0.0), (1.0, 0.0)), closed=False, near=(0.0, 0.0)
    ).place == (
        0.0,
        0.0,
    )


@given(
    corners=st.lists(
        st.tuples(st.integers(-9, 9), st.integers(-9, 9)), min_size=3, max_size=7, unique=True
    ),
    shares=st.tuples(st.floats(0.0, 1.0), st.floats(0.0, 1.0)),
)
def test_both_ways_round_together_are_the_whole_ring(corners, shares):
    ring = LinearRing(corners)
    start, end = (ring.interpolate(s, normalized=True).coords[0] for s in shares)
    one, other = ways([tuple(map(float, c)) for c in corners], start, end)
    length = LineString(one).length + LineString(other).length
    assert length == pytest.approx(ring.length, abs=0.01) or start == pytest.approx(
        end, abs=0.001
    )
