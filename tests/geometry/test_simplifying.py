"""Fewer corners: Douglas and Peucker's rule (1973), and edges that stay shared.

The other engine is the geometry library's simplification of a coverage (Visvalingam and Whyatt,
1993): it chooses other corners, but says, by ``coverage_is_valid``, whether edges are shared.
"""

from itertools import pairwise

import pyogrio
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Point, Polygon, box

from plan_editor.geometry.simplifying import simplified


def corners(shape) -> list[list[float]]:
    return shapely.get_coordinates(shape).tolist()


def test_a_corner_within_the_tolerance_goes_and_one_beyond_stays():
    line = LineString([(0, 0), (5, 0.2), (10, 0)])
    assert corners(simplified([line], 0.21)[0]) == [[0, 0], [10, 0]]
    assert simplified([line], 0.19) == (line,)


def test_points_have_nothing_to_spare():
    assert simplified([Point(1, 2)], 1.0) == (Point(1, 2),)


def test_a_common_edge_becomes_the_same_in_both():
    edge = [(10, 0), (10.2, 2), (9.9, 5), (10.1, 8), (10, 10)]
    west = Polygon([(0, 0), *edge, (0, 10)])
    east = Polygon([*edge[::-1], (20, 0), (20, 10)])
    thin = simplified([west, east], 0.5)
    assert [s.area for s in thin] == [100.0, 100.0]
    assert shapely.coverage_is_valid(thin)


def test_the_corner_where_three_meet_stays():
    north = box(0, 10, 20, 20)
    west = Polygon([(0, 0), (10, 0), (10, 10), (0, 10)])
    east = Polygon([(10, 0), (20, 0), (20, 10), (10, 10)])
    north = Polygon([(0, 10), (10, 10), (20, 10), (20, 20), (0, 20)])
    for thin in simplified([north, west, east], 3.0):
        assert [10, 10] in corners(thin)


def test_an_edge_shared_with_what_is_left_alone_stays():
    edge = [(10, 0), (10.2, 5), (10, 10)]
    west, wall = Polygon([(0, 0), (5, -0.1), *edge, (0, 10)]), LineString(edge)
    (alone,) = simplified([west], 0.5)
    (beside,) = simplified([west], 0.5, [wall])
    assert [10.2, 5] not in corners(alone)
    assert [10.2, 5] in corners(beside)
    assert [5, -0.1] not in corners(beside)


def test_holes_and_islands_lose_corners_too():
    yard = Polygon(
        [(0, 0), (10, 0), (10, 5.1), (10, 10), (0, 10)],
        [[(2, 2), (2, 4), (3, 4.1), (4, 4), (4, 2)]],
    )
    shape = MultiPolygon([yard, Polygon([(20, 0), (22, 0.1), (24, 0), (24, 4), (20, 4)])])
    (thin,) = simplified([shape], 0.2)
    assert thin.geom_type == "MultiPolygon"
    assert [len(corners(r)) - 1 for p in thin.geoms for r in shapely.get_rings(p)] == [4, 4, 4]


def test_a_ring_that_would_vanish_is_out_of_order_and_is_seen_to_be():
    (gone,) = simplified([box(0, 0, 1, 1)], 50.0)
    assert not gone.is_valid


@given(
    st.lists(
        st.tuples(st.integers(-50, 50), st.integers(-50, 50)),
        min_size=2,
        max_size=12,
        unique=True,
    ),
    st.floats(0.1, 9),
)
def test_no_corner_that_went_lies_farther_off_than_allowed(places, tolerance):
    line = LineString(places)
    (thin,) = simplified([line], tolerance)
    kept = corners(thin)
    assert kept[0] == list(map(float, places[0]))
    assert kept[-1] == list(map(float, places[-1]))
    # each corner that went is near the chord that took the place of its part of the line
    numbers, at = [], 0
    for corner in kept:
        while list(map(float, places[at])) != corner:
            at += 1
        numbers.append(at)
    for first, last in pairwise(numbers):
        chord = LineString([places[first], places[last]])
        for place in places[first : last + 1]:
            assert chord.distance(Point(place)) <= tolerance + 1e-9


@given(st.lists(st.integers(-400, 400), min_size=4, max_size=9), st.floats(0.05, 3.0))
def test_zones_side_by_side_never_come_apart(aside, tolerance):
    # a row of zones between wavy edges
    def edge(east: float, waves: list[int]) -> list[tuple[float, float]]:
        return [(east + mm / 1000, 2.0 * n) for n, mm in enumerate(waves)]

    edges = [edge(10.0 * k, aside[k:] + aside[:k]) for k in range(4)]
    zones = [Polygon([*a, *b[::-1]]) for a, b in pairwise(edges)]
    assert shapely.coverage_is_valid(zones)
    thin = simplified(zones, tolerance)
    assert shapely.coverage_is_valid(thin)
    assert sum(shapely.get_num_coordinates(thin)) <= sum(shapely.get_num_coordinates(zones))
    away = shapely.union_all(thin).symmetric_difference(shapely.union_all(zones))
    assert away.area <= tolerance * 8 * (len(aside) + 20)


def test_neighbourhoods_of_a_real_town_stay_side_by_side(libpysal_examples):
    # the 49 neighbourhoods of Columbus, Ohio: example data of libpysal; a unit is a unit
    _, _, shapes, _ = pyogrio.raw.read(libpysal_examples / "columbus" / "columbus.shp")
    town = shapely.from_wkb(shapes)
    assert shapely.coverage_is_valid(town)
    thin = simplified(list(town), 0.05)
    assert shapely.is_valid(thin).all()
    assert shapely.coverage_is_valid(thin)
    assert sum(shapely.get_num_coordinates(thin)) < sum(shapely.get_num_coordinates(town))
    assert shapely.union_all(thin).area == pytest.approx(shapely.union_all(town).area, rel=0.01)
