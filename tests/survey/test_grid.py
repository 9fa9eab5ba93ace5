"""Plan coordinates and those of the system."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.survey.grids.grid import Grid

whole = st.integers(-9_000_000, 9_000_000).map(float)
millimetres = st.integers(-100_000_000, 100_000_000).map(lambda n: n / 1000)


def test_a_plan_begins_as_a_local_grid_with_its_origin_at_nought():
    assert Grid() == Grid(crs="local", east=0.0, north=0.0)
    assert Grid().epsg is None
    assert Grid().to_crs(3.25, -4.5) == (3.25, -4.5)


def test_the_origin_is_added_on_the_way_out():
    grid = Grid(crs="EPSG:27700", east=651400.0, north=313100.0)
    assert grid.epsg == 27700
    assert grid.to_crs(9.5, 77.25) == (651409.5, 313177.25)
    assert grid.to_plan(651409.5, 313177.25) == (9.5, 77.25)


@given(whole, whole, millimetres, millimetres)
def test_there_and_back_is_the_same_to_a_thousandth_of_a_millimetre(e0, n0, east, north):
    grid = Grid(crs="EPSG:27700", east=e0, north=n0)
    back_e, back_n = grid.to_plan(*grid.to_crs(east, north))
    assert abs(back_e - east) < 1e-6
    assert abs(back_n - north) < 1e-6


def test_arrays_go_at_once():
    grid = Grid(crs="EPSG:27700", east=100.0, north=200.0)
    east, north = grid.to_crs(np.array([1.0, 2.0]), np.array([3.0, 4.0]))
    assert east.tolist() == [101.0, 102.0]
    assert north.tolist() == [203.0, 204.0]
