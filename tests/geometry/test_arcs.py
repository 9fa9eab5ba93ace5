"""Arcs and circles: against hand examples and the formula of the sagitta."""

from math import acos, ceil, cos, hypot, pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from plan_editor.geometry.arcs import SAGITTA, Circle, arc_through, circle_through

near = st.floats(-50.0, 50.0)
places = st.tuples(near, near)


def test_the_circle_through_three_places_of_a_hand_example():
    # (0,0), (1,1), (2,0): the middle is (1,0), the radius 1
    found = circle_through((0, 0), (1, 1), (2, 0))
    assert found == Circle((1.0, 0.0), 1.0)
    assert circle_through((0, 0), (1, 1), (2, 2)) is None
    # a right angle stands on a diameter (Thales): 6 and 8 give 10
    assert circle_through((0, 0), (6, 0), (0, 8)) == Circle((3.0, 4.0), 5.0)


def test_an_arc_goes_through_the_place_that_was_pointed_at():
    over = arc_through((0, 0), (1, 1), (2, 0))
    assert over.length == pytest.approx(pi)
    assert over.places()[-1] == (2, 0)
    line = LineString([(0, 0), *over.places()])
    assert max(n for _, n in line.coords) == pytest.approx(1.0, abs=SAGITTA)
    # in at the end of the half circle one goes due south
    assert over.way == pytest.approx((0.0, -1.0))
    under = arc_through((0, 0), (1, -1), (2, 0))
    assert min(n for _, n in under.places()) == pytest.approx(-1.0, abs=SAGITTA)
    assert under.way == pytest.approx((0.0, 1.0))
    # three quarters of the circle: the long way round
    long = arc_through((0, 0), (1, 1), (1, -1))
    assert long.length == pytest.approx(1.5 * pi)


def test_places_in_a_line_make_no_arc():
    assert arc_through((0, 0), (1, 0), (2, 0)) is None
    assert arc_through((0, 0), (1, 0.0004), (2, 0)) is None
    assert arc_through((0, 0), (3, 0), (2, 0)) is None
    assert arc_through((0, 0), (0, 0), (2, 0)) is None


def test_the_pieces_of_a_circle_bulge_by_the_stated_sagitta_at_most():
    # r (1 - cos(t/2)) for a chord over an angle t; sagitta of a chord, elementary geometry
    for radius in (0.05, 0.3, 1.0, 5.0, 40.0):
        ring = Circle((3.0, 4.0), radius).corners()
        angle = 2 * pi / len(ring)
        assert radius * (1 - cos(angle / 2)) <= SAGITTA * (1 + 1e-9)
        assert all(hypot(e - 3, n - 4) == pytest.approx(radius) for e, n in ring)
        most = Polygon(ring).length
        assert 2 * pi * radius * (1 - SAGITTA / radius) <= most <= 2 * pi * radius
    # a segment of a small angle has two thirds of its chord times its sagitta as area
    lost = 1 - Polygon(Circle((0.0, 0.0), 5.0).corners()).area / (25 * pi)
    assert lost == pytest.approx(4 / 3 * SAGITTA / 5, rel=0.03)
    assert len(Circle((0.0, 0.0), 5.0).corners()) == ceil(pi / acos(1 - 0.002 / 5)) == 112


def test_a_ring_begins_where_it_was_pointed_at():
    assert Circle((1.0, 1.0), 2.0).corners((1.0, 9.0))[0] == pytest.approx((1.0, 3.0))
    assert Circle((0.0, 0.0), 0.001).corners()[0] == (0.001, 0.0)


@given(start=places, through=places, end=places)
def test_every_arc_passes_its_three_places_and_keeps_near_its_circle(start, through, end):
    arc = arc_through(start, through, end)
    assume(arc is not None and arc.circle.radius < 1000.0)
    line = LineString([start, *arc.places()])
    assert line.coords[-1] == end
    assert line.distance(Point(through)) <= SAGITTA * 1.01 + 1e-6
    assert line.length <= arc.length * (1 + 1e-9)
    for e, n in arc.places()[:-1]:
        away = hypot(e - arc.circle.middle[0], n - arc.circle.middle[1])
        assert away == pytest.approx(arc.circle.radius, rel=1e-9)
