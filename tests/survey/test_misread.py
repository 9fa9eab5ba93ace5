"""What coordinates look like that lie nowhere near the plan."""

import numpy as np
import pytest

from plan_editor.survey.grids.grid import Grid
from plan_editor.survey.grids.misread import misread

GRID = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)
EAST, NORTH = 553110.0, 421010.0
LON, LAT = 0.31576, 53.66318
"""The same place in ETRS89; see tests/survey/test_crossing.py for how that is known."""

UTM30, UTM31 = "EPSG:25830", "EPSG:25831"


def told(x, y, source="EPSG:27700", grid=GRID):
    return misread(np.array([(x, y), (x, y), (0.0, 0.0)]), source=source, grid=grid)


@pytest.mark.parametrize(
    ("x", "y", "source"),
    [
        (EAST, NORTH, "EPSG:27700"),
        (LON, LAT, "EPSG:4258"),
        (LON, LAT, "EPSG:4326"),
        (EAST + 7000.0, NORTH, "EPSG:27700"),  # some way off, but no mistake that we know
    ],
)
def test_what_lies_near_the_plan_is_right(x, y, source):
    assert told(x, y, source) == ""


@pytest.mark.parametrize(
    ("x", "y", "source", "says"),
    [
        (
            NORTH,
            EAST,
            "EPSG:27700",
            "East and north seem to be exchanged: 421010.00, 553110.00",
        ),
        (
            LAT,
            LON,
            "EPSG:4258",
            "Latitude and longitude seem to be exchanged: 53.66318, 0.31576",
        ),
        (LON, LAT, "EPSG:27700", "These look like latitude and longitude in degrees"),
        (LAT, LON, "EPSG:27700", "These look like latitude and longitude in degrees"),
        (EAST, NORTH, "EPSG:4258", "These look like metres of a grid (553110.00, 421010.00)"),
        (10.0, 10.0, "EPSG:27700", "metres from some origin of their own (10.00000, 10.00000)"),
        (
            5310.0,
            2101.0,
            "EPSG:27700",
            "metres from some origin of their own (5310.00, 2101.00)",
        ),
        (EAST, NORTH, "EPSG:2157", "lies 706 km from the plan"),
        (2.35, 48.85, "EPSG:4258", "EPSG:4258 is made for Europe"),
        (174.0, -41.0, "EPSG:4258", "lies"),
        (0.0, 91.0, "EPSG:4258", "lies nowhere that can be told"),
    ],
)
def test_what_does_not_is_told_what_it_looks_like(x, y, source, says):
    sentence = told(x, y, source)
    assert says in sentence
    assert "Nothing was changed" in sentence


def test_how_far_off_the_exchanged_ones_lie_is_told():
    # √((553110 − 421000)² + (421010 − 553100)²) = 187 km; and 14 m the other way round
    assert "lies 187 km from the plan, the other way round 14 m" in told(NORTH, EAST)


def test_axes_that_are_exchanged_near_the_line_of_45_degrees_are_found():
    grid = Grid(crs="EPSG:27700", east=430000.0, north=420000.0)
    assert "exchanged" in told(420010.0, 430010.0, grid=grid)
    assert told(430010.0, 420010.0, grid=grid) == ""


def test_degrees_say_both_systems_that_they_may_be_in():
    sentence = told(LON, LAT)
    assert "--crs EPSG:4258 or --crs EPSG:4326" in sentence


def test_coordinates_of_the_nation_on_a_grid_of_ones_own():
    assert told(12.0, 34.0, "local", Grid()) == ""
    assert "Move the plan to the national grid first" in told(EAST, NORTH, "local", Grid())


def test_the_neighbouring_zone_is_called_far():
    # the same place in UTM zone 30, taken to be in zone 31: some 390 km east
    sentence = told(719100.0, 5951000.0, UTM31)
    assert "km from the plan" in sentence
    assert "EPSG:25831 is made for" in sentence
