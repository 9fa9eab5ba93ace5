"""Scale factor and convergence, against another library and against the meridian itself."""

from math import atan2, degrees

import pytest
from pygeodesy.ellipsoids import Ellipsoids
from pygeodesy.etm import ExactTransverseMercator
from pyproj import Proj

from plan_editor.errors import CannotUse
from plan_editor.survey.grids.grid import Grid
from plan_editor.survey.grids.grid_facts import convergence_deg, grid_facts, scale_factor

# source: EPSG register, projection 19916 (British National Grid): scale at the natural origin,
# its longitude; the latitude of the origin shifts northings only
K0, LON0 = 0.9996012717, -2.0

# Ordnance Survey, A guide to coordinate systems in Great Britain, annexe C (Caister water
# tower); EPSG Guidance Note 7-2, method 9807 (its example); a place in the Western Isles
PLACES = [
    (52 + 39 / 60 + 27.2531 / 3600, 1 + 43 / 60 + 4.5177 / 3600, 1.000377315, 2.9573767),
    (50.5, 0.5, 0.999987287, 1.9295609),
    (58.2, -6.4, 1.000420655, -3.7415801),
]


@pytest.mark.parametrize(("lat", "lon", "scale", "convergence"), PLACES)
def test_scale_and_convergence_are_those_of_the_exact_projection(lat, lon, scale, convergence):
    # the exact transverse Mercator of L. P. Lee, as pygeodesy works it out
    exact = ExactTransverseMercator(Ellipsoids.Airy1830, lon0=LON0, k0=K0).forward(lat, lon)
    assert (exact.scale, exact.gamma) == (
        pytest.approx(scale, abs=1e-9),
        pytest.approx(convergence, abs=1e-7),
    )
    east, north = Proj("EPSG:27700")(lon, lat)
    # the place as seen from an origin some way off
    grid = Grid(crs="EPSG:27700", east=round(east) - 250.0, north=round(north) + 125.0)
    at = grid.to_plan(east, north)
    assert scale_factor(grid, *at) == pytest.approx(exact.scale, abs=1e-9)
    assert convergence_deg(grid, *at) == pytest.approx(exact.gamma, abs=1e-8)


@pytest.mark.parametrize(("lat", "lon"), [(p[0], p[1]) for p in PLACES])
def test_a_true_bearing_is_the_grid_bearing_and_the_convergence(lat, lon):
    project = Proj("EPSG:27700")
    (e0, n0), (e1, n1) = project(lon, lat), project(lon, lat + 1e-5)
    grid_bearing_of_true_north = degrees(atan2(e1 - e0, n1 - n0))
    convergence = convergence_deg(Grid(crs="EPSG:27700", east=e0, north=n0), 0.0, 0.0)
    assert convergence is not None
    # over a metre of meridian, coordinates to some nanometres
    assert grid_bearing_of_true_north + convergence == pytest.approx(0.0, abs=1e-5)


def test_a_local_grid_is_metres_on_the_ground_and_knows_no_true_north():
    assert scale_factor(Grid(), 3.0, 4.0) == 1.0
    assert convergence_deg(Grid(), 3.0, 4.0) is None
    assert grid_facts(Grid(), 3.0, 4.0) is None


def test_what_lies_outside_of_what_a_grid_is_made_for_is_said() -> None:
    def area(crs: str, east: float, north: float) -> str:
        facts = grid_facts(Grid(crs=crs, east=east, north=north), 0.0, 0.0)
        assert facts is not None
        return facts.area

    assert area("EPSG:27700", 651409.0, 313177.0) == ""
    assert "United Kingdom" in area("EPSG:27700", 651409.0, 2313177.0)
    # Fiji, whose grid goes over the 180th meridian, on both sides of it
    assert area("EPSG:3460", 2200000.0, 3900000.0) == ""
    assert area("EPSG:3460", 1900000.0, 4000000.0) == ""
    assert "Fiji" in area("EPSG:3460", 4000000.0, 4000000.0)


def test_where_the_projection_means_nothing_a_sentence_says_so():
    with pytest.raises(CannotUse, match=r"E 900000000, N 900000000 lies where .* no meaning"):
        scale_factor(Grid(crs="EPSG:27700", east=9e8, north=9e8), 0.0, 0.0)
