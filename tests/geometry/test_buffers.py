"""Ground within a distance, against Steiner's formula and another engine."""

from math import cos, hypot, pi, sin

import numpy as np
import pyclipper
import pytest
import shapely
from hypothesis import example, given
from hypothesis import strategies as st

from plan_editor.geometry.buffers import clearance, quarter_segments

PLOT = shapely.box(0, 0, 2.4, 1.2)

radii = st.floats(0.05, 30.0)
# whole millimetres, as plans keep them
coordinate = st.integers(-40_000, 40_000).map(lambda n: n / 1000)
places = st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=9)


@pytest.mark.parametrize(
    ("radius", "least"),
    # a gap of r (1 - cos(pi / 4q)) is 1.13 mm for r 15 m at q = 64 and 0.98 mm at q = 69
    [(15.0, 69), (1.5, 22), (0.5, 13), (0.001, 1), (0.0, 1)],
)
def test_a_quarter_has_as_few_chords_as_a_millimetre_allows(radius, least):
    assert quarter_segments(radius) == least
    gap = radius * (1 - cos(pi / (4 * least)))
    assert gap <= 0.001
    if least > 1:
        assert radius * (1 - cos(pi / (4 * (least - 1)))) > 0.001


@given(radii)
def test_the_outline_falls_short_by_no_more_than_a_millimetre(radius):
    # measured at the middle of every chord of the outline of a point
    ring = shapely.get_coordinates(clearance(shapely.Point(0, 0), radius))
    middles = (ring[1:] + ring[:-1]) / 2
    away = np.hypot(*middles.T)
    assert away.min() >= radius - 0.001 - 1e-9
    assert np.hypot(*ring.T).max() <= radius + 1e-9


@pytest.mark.parametrize("radius", [0.5, 1.5, 4.0, 15.0])
def test_a_plot_s_clearance_has_the_area_of_an_inscribed_outline(radius):
    # square corners and q chords to the quarter: exactly A + P r + 2 q r² sin(pi / 2q)
    q = quarter_segments(radius)
    exact = 2.88 + 7.2 * radius + 2 * q * radius**2 * sin(pi / (2 * q))
    assert clearance(PLOT, radius).area == pytest.approx(exact, rel=1e-9)


@given(places, radii)
def test_a_convex_shape_keeps_within_steiner_s_formula(corners, radius):
    # J. Steiner: area A + P r + pi r², perimeter P + 2 pi r, of a convex body
    hull = shapely.convex_hull(shapely.MultiPoint(corners))
    if hull.geom_type != "Polygon" or hull.area < 0.01:
        return
    found = clearance(hull, radius)
    area = hull.area + hull.length * radius + pi * radius**2
    perimeter = hull.length + 2 * pi * radius
    assert found.area <= area + 1e-6
    assert found.area >= area - perimeter * 0.001 - 1e-6
    assert found.length <= perimeter + 1e-6
    assert found.length >= perimeter - 2 * pi * 0.001 - 1e-6


@given(places, radii)
@example([(28, 0), (7, 2), (0, 2), (28, 0), (7, 2)], 0.05)  # filled in by GEOS 3.14
def test_no_connected_line_clears_more_than_its_length_allows(corners, radius):
    # of connected sets the area is at most A + P r + pi r² (mathoverflow.net, 303041);
    # a line is a body of no area whose boundary is run twice
    line = shapely.LineString(corners)
    assert clearance(line, radius).area <= 2 * line.length * radius + pi * radius**2 + 1e-6


@pytest.mark.parametrize("radius", [0.3, 1.5, 6.0])
def test_another_engine_finds_the_same_area(radius):
    l_shape = [(0, 0), (12, 0), (12, 5), (6, 5), (6, 10), (0, 10)]
    offset = pyclipper.PyclipperOffset(2.0, 100.0)  # arcs within 0.1 mm
    whole = [(round(e * 1e6), round(n * 1e6)) for e, n in l_shape]
    offset.AddPath(whole, pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    (ring,) = offset.Execute(radius * 1e6)
    found = clearance(shapely.Polygon(l_shape), radius)
    assert found.area == pytest.approx(pyclipper.Area(ring) / 1e12, abs=0.001 * found.length)


def test_what_lies_just_in_reach_is_told_by_distance_and_not_by_the_outline():
    # 10 m off at the middle of a chord: within reach, but outside the drawn outline
    angle = pi / (4 * quarter_segments(10.0))
    person = shapely.Point(9.9999 * cos(angle), 9.9999 * sin(angle))
    assert not clearance(shapely.Point(0, 0), 10.0).covers(person)
    assert shapely.distance(shapely.Point(0, 0), person) <= 10.0
    assert hypot(person.x, person.y) == pytest.approx(9.9999)


def test_a_line_that_runs_back_along_itself_clears_what_its_pieces_clear():
    # a triangle of 21.1, 7 and 28.1 m, its first side run twice: a ring 0.1 m wide with a hole
    doubled = shapely.LineString([(28, 0), (7, 2), (0, 2), (28, 0), (7, 2)])
    apart = shapely.MultiLineString([doubled, [(100, 0), (110, 0)]])
    pieces = [shapely.LineString(doubled.coords[i : i + 2]) for i in range(3)]
    one_by_one = shapely.union_all([shapely.buffer(p, 0.05, quad_segs=8) for p in pieces])
    assert clearance(doubled, 0.05).area == pytest.approx(one_by_one.area, rel=1e-3)
    more = 10 * 0.1 + pi * 0.05**2
    assert clearance(apart, 0.05).area == pytest.approx(one_by_one.area + more, rel=1e-3)
