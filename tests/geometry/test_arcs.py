"""Arcs as chords: how near they keep, and published areas and figures."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon, points

from plan_editor.geometry.arcs import SAGITTA, arc, arc_through, bulged, circle

radii = st.floats(0.0005, 200.0)
degrees = st.integers(-36000, 36000).map(lambda n: n / 100)
sagittas = st.floats(0.0005, 0.5)
place = st.tuples(st.floats(-50, 50), st.floats(-50, 50))


def farthest_from(chain, centre, radius, start_deg, sweep_deg) -> float:
    """Return how far the true arc strays from a chain: 16 places on it for every chord."""
    angles = np.radians(start_deg + np.linspace(0, sweep_deg, 16 * (len(chain) - 1) + 1))
    true = points(
        np.column_stack(
            [centre[0] + radius * np.sin(angles), centre[1] + radius * np.cos(angles)]
        )
    )
    return float(LineString(chain).distance(true).max())


@given(place, radii, degrees, degrees, sagittas)
def test_the_true_arc_strays_no_farther_than_the_sagitta(centre, radius, start, sweep, sagitta):
    chain = arc(centre, radius, start_deg=start, sweep_deg=sweep, sagitta=sagitta)
    assume(len(chain) < 500)
    assert farthest_from(chain, centre, radius, start, sweep) <= sagitta + 1e-9
    away = np.hypot(chain[:, 0] - centre[0], chain[:, 1] - centre[1])
    assert np.abs(away - radius).max() < 1e-9


def test_the_usual_sagitta_is_two_millimetres():
    assert SAGITTA == 0.002
    # a circle of 1 m: cos(half step) = 0.998 gives 49.66 chords
    assert len(circle((0.0, 0.0), 1.0)) == 50 + 1
    # one chord fewer would not do: 1 - cos(180° / 49) = 0.00205
    assert 1 - math.cos(math.pi / 49) > 0.002


def test_a_circle_is_closed_and_runs_clockwise_from_the_north():
    ring = circle((10.0, 20.0), 3.0)
    assert ring[0] == pytest.approx([10.0, 23.0])
    assert (ring[0] == ring[-1]).all()
    assert not Polygon(ring).exterior.is_ccw


@given(radii, sagittas)
def test_a_circle_falls_short_of_its_area_by_less_than_its_rim_times_the_sagitta(
    radius, sagitta
):
    # the inscribed polygon: pi r² > area > pi (r - s)²
    area = Polygon(circle((0.0, 0.0), radius, sagitta)).area
    assert area <= math.pi * radius**2
    assert area >= math.pi * max(0.0, radius - sagitta) ** 2 - 1e-9


def test_a_tiny_circle_has_eight_corners():
    assert len(circle((0.0, 0.0), 0.001)) == 9


@pytest.mark.parametrize(("radius", "sagitta"), [(0.0, 0.002), (1.0, 0.0), (math.nan, 0.002)])
def test_an_arc_without_radius_or_sagitta_is_refused(radius, sagitta):
    with pytest.raises(ValueError, match="longer than nothing"):
        circle((0.0, 0.0), radius, sagitta)


def test_a_bulge_of_one_is_half_a_disc():
    # a square of 4 with a half disc on one side has 16 + 2 pi; GDAL reads the same drawing
    # (LWPOLYLINE, bulge 1) with chords of 4 degrees as 22.2829
    side = bulged((4.0, 0.0), (4.0, 4.0), 1.0)
    area = Polygon([(0.0, 4.0), (0.0, 0.0), *side]).area
    assert area == pytest.approx(16 + 2 * math.pi, abs=math.pi * 2 * 0.002)
    assert side[:, 0].max() == pytest.approx(6.0, abs=0.002)


def test_a_bulge_of_the_tangent_of_an_eighth_is_a_quarter_circle():
    # tan(90° / 4) = 0.41421356; from (1, 0) to (0, 1) about the origin
    chain = bulged((1.0, 0.0), (0.0, 1.0), 0.41421356237309503)
    assert np.hypot(*chain.T) == pytest.approx(np.ones(len(chain)))
    back = bulged((1.0, 0.0), (0.0, 1.0), -0.41421356237309503)
    assert np.hypot(*(back - 1.0).T) == pytest.approx(np.ones(len(back)))


def test_no_bulge_is_a_straight_line():
    assert bulged((0.0, 0.0), (3.0, 4.0), 0.0).tolist() == [[0.0, 0.0], [3.0, 4.0]]
    assert bulged((1.0, 1.0), (1.0, 1.0), 0.5).tolist() == [[1.0, 1.0], [1.0, 1.0]]


@given(place, place, st.floats(-3, 3).filter(lambda b: abs(b) > 0.01))
def test_a_bulge_stands_off_its_chord_by_half_the_chord_times_the_bulge(start, end, bulge):
    # the height of the arc over its chord, as the DXF reference describes the bulge
    chord = math.dist(start, end)
    assume(chord > 0.1)
    chain = bulged(start, end, bulge)
    assert chain[0].tolist() == list(start)
    assert chain[-1].tolist() == list(end)
    right = ((chain - start) @ (end[1] - start[1], start[0] - end[0])) / chord
    assert right[np.abs(right).argmax()] == pytest.approx(chord / 2 * bulge, abs=0.003)


@given(place, place, place)
def test_an_arc_through_three_points_meets_them_in_order(first, second, third):
    sides = math.dist(first, second), math.dist(second, third), math.dist(first, third)
    assume(min(sides) > 0.5)
    doubled = abs(Polygon([first, second, third]).area) * 2
    assume(doubled > 0.01 * max(sides) ** 2)
    chain = arc_through(first, second, third)
    # circumradius = a b c / 4 area (Euclid)
    radius = math.prod(sides) / (2 * doubled)
    assert chain[0].tolist() == list(first)
    assert chain[-1].tolist() == list(third)
    line = LineString(chain)
    assert line.distance(points(second)) <= 0.002 + 1e-7
    share = line.project(points(second)) / line.length
    assert 0.0 < share < 1.0
    # all corners lie as far from the middle of the circle: chords over equal steps are equal
    steps = np.hypot(*np.diff(chain, axis=0).T)
    assert steps == pytest.approx(np.full(len(steps), steps[0]), rel=1e-3, abs=1e-6)
    assert steps[0] <= 2 * math.sqrt(2 * radius * 0.002) + 1e-6 or len(steps) <= 8


def test_three_points_in_a_line_have_no_arc():
    with pytest.raises(ValueError, match="in a line"):
        arc_through((0.0, 0.0), (1.0, 1.0), (3.0, 3.0))
    with pytest.raises(ValueError, match="in a line"):
        arc_through((0.0, 0.0), (0.0, 0.0), (3.0, 3.0))
