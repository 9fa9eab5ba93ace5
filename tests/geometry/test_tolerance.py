"""What counts as the same, and what a plan keeps of a shape."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from plan_editor.geometry.tolerance import rounded, stored

# hundredths of a millimetre: finer than the grain, coarse enough to meet it often
coordinate = st.integers(-50_000, 50_000).map(lambda n: n / 100_000)
corners = st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=8)


def test_a_coordinate_is_kept_in_whole_millimetres():
    assert rounded(1.23456) == 1.235
    assert math.copysign(1, rounded(-0.0001)) == 1.0


@given(corners)
def test_a_shape_is_kept_valid_on_whole_millimetres_where_it_was(places):
    shape = Polygon(places)
    if not shape.is_valid:
        return
    try:
        kept = stored(shape)
    except ValueError as refused:
        assert "thinner than a millimetre" in str(refused)  # noqa: PT017  # either is right
        # less two millimetres all round, nothing or more than one piece is left
        left = shape.buffer(-0.002)
        assert left.is_empty or left.geom_type != "Polygon"
        return
    assert kept.is_valid
    assert kept.geom_type == "Polygon"
    millimetres = shapely.get_coordinates(kept) * 1000
    assert abs(millimetres - millimetres.round()).max() < 1e-6
    assert shape.symmetric_difference(kept).area <= 0.002 * shape.length
    assert stored(kept).equals_exact(kept)


def test_corners_keep_their_order():
    shape = Polygon([(0.0004, 0), (0, 2.0004), (1, 2), (1, 0)])
    kept = shapely.get_coordinates(stored(shape)).tolist()
    assert kept == [[0, 0], [0, 2], [1, 2], [1, 0], [0, 0]]


def test_a_line_is_kept_as_it_runs():
    kept = stored(LineString([(0.0001, 0), (1.0004, 2), (1.0001, 2), (3, 0)]))
    assert shapely.get_coordinates(kept).tolist() == [[0, 0], [1, 2], [1, 2], [3, 0]]


def test_heights_are_dropped():
    assert not stored(Point(1, 2, 3)).has_z


def test_a_needle_that_rounding_would_break_is_rebuilt():
    # a notch 0.4 mm wide closes; what is left is valid and as large
    notched = Polygon([(0, 0), (10, 0), (10, 5), (5.0002, 5), (5, 0.0004), (4.9998, 5), (0, 5)])
    assert notched.is_valid
    kept = stored(notched)
    assert kept.is_valid
    assert kept.area == pytest.approx(50.0, abs=0.01)


@pytest.mark.parametrize(
    ("shape", "because"),
    [
        (Polygon(), "empty"),
        (Point(200_000, 0), "100 km"),
        (LineString([(0, 0), (math.inf, 0)]), "nowhere"),
        (Polygon([(0, 0), (1, 1), (1, 0), (0, 1)]), "(?i)self-intersection"),
        (LineString([(0, 0), (0.0001, 0.0001)]), "thinner than a millimetre"),
        (Polygon([(0, 0), (5, 0), (5, 0.0002)]), "thinner than a millimetre"),
    ],
)
def test_what_cannot_be_kept_is_refused(shape, because):
    with pytest.raises(ValueError, match=because):
        stored(shape)


def test_a_corner_that_is_not_a_number_is_refused():
    with np.errstate(invalid="ignore"):
        shape = LineString([(0, 0), (math.nan, 0)])
    with pytest.raises(ValueError, match="nowhere"):
        stored(shape)
