"""Lines and areas that are joined: sums by hand, and areas by another engine (Clipper)."""

from itertools import pairwise

import pyclipper
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Polygon, box
from test_cutting import MM2, areas, clipped, outlines, overlapping

from plan_editor.geometry.cutting import split
from plan_editor.geometry.joining import Gap, joined_areas, joined_lines
from plan_editor.geometry.tolerance import stored


def corners(line) -> list[list[float]]:
    return shapely.get_coordinates(line).tolist()


def test_lines_follow_end_to_end_whichever_way_each_was_drawn():
    first = LineString([(0, 0), (10, 0)])
    back = LineString([(10, 8), (10, 0)])
    before = LineString([(0, 0), (-3, 4)])
    line = joined_lines([first, back, before])
    # the way of the first is kept: what lies before it comes before it
    assert corners(line) == [[-3, 4], [0, 0], [10, 0], [10, 8]]
    assert joined_lines([first, before, back]).equals(line)


def test_four_walls_make_a_ring():
    square = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]
    walls = [LineString(pair) for pair in pairwise(square)]
    ring = joined_lines([walls[0], walls[2], walls[3], walls[1]])
    assert ring.length == 40.0
    assert ring.is_ring


def test_lines_that_do_not_meet_are_told_how_far_apart_and_where():
    first, far = LineString([(0, 0), (10, 0)]), LineString([(13, 4), (20, 4)])
    assert joined_lines([first, far]) == Gap(5.0, (11.5, 2.0))
    # that they cross is not enough: ends are joined
    assert joined_lines([first, LineString([(4, -3), (4, 5)])]) == Gap(5.0, (2.0, -1.5))


def test_ends_a_millimetre_apart_meet():
    line = joined_lines([LineString([(0, 0), (10, 0)]), LineString([(10.001, 0), (10, 5)])])
    assert corners(line) == [[0, 0], [10, 0], [10, 5]]


def test_areas_that_share_an_edge_are_one_and_the_edge_is_gone():
    whole = joined_areas([box(0, 0, 5, 4), box(5, 0, 9, 4), box(9, 1, 10, 3)])
    assert whole.area == 20 + 16 + 2
    assert whole.geom_type == "Polygon"


def test_areas_are_joined_whatever_their_order():
    a, b, c = box(0, 0, 5, 4), box(5, 0, 9, 4), box(9, 0, 12, 4)
    assert joined_areas([a, c, b]).area == 48.0


def test_a_slit_of_a_millimetre_between_two_areas_closes():
    whole = joined_areas([box(0, 0, 5, 4), box(5.001, 0, 9, 4)])
    assert whole.geom_type == "Polygon"
    assert not whole.interiors
    assert whole.area == pytest.approx(36.0, abs=0.005)


def test_dust_between_edges_that_fit_badly_is_no_hole():
    west = Polygon([(0, 0), (5, 0), (5, 4), (0, 4)])
    east = Polygon([(5, 0), (9, 0), (9, 4), (5, 4), (5, 2.03), (5.006, 2.01), (5, 2)])
    whole = joined_areas([west, east])
    assert not whole.interiors
    assert whole.area == pytest.approx(36.0)
    # what is more than a square centimetre is a hole
    wider = Polygon([(5, 0), (9, 0), (9, 4), (5, 4), (5, 3), (5.1, 2.5), (5, 2)])
    assert joined_areas([west, wider]).area == pytest.approx(36.0 - 0.05)


def test_areas_that_lie_apart_or_meet_in_a_point_are_told():
    gap = joined_areas([box(0, 0, 4, 4), box(7, 0, 9, 4)])
    assert isinstance(gap, Gap)
    assert gap.metres == 3.0
    assert gap.place[0] == 5.5
    assert joined_areas([box(0, 0, 4, 4), box(4, 4, 9, 9)]) == Gap(0.0, (4.0, 4.0))


def test_an_area_of_two_parts_is_joined_by_one_of_them():
    islands = MultiPolygon([box(0, 0, 4, 4), box(20, 0, 24, 4)])
    whole = joined_areas([islands, box(4, 0, 6, 4)])
    assert whole.geom_type == "MultiPolygon"
    assert whole.area == 16 + 16 + 8


@given(overlapping(3))
def test_what_overlaps_is_joined_to_what_clipper_makes_of_it(shapes):
    first, *others = shapes
    whole = joined_areas(shapes)
    if isinstance(whole, Gap):
        assert not all(shapely.intersection(first, o).area > 1e-4 for o in others)
        return
    expected = clipped(pyclipper.CT_UNION, first, others)
    # holes of less than a square centimetre are filled, edges within 2 mm taken together
    edge = sum(s.length for s in shapes)
    assert whole.area == pytest.approx(expected, abs=0.002 * edge)
    assert whole.is_valid


@given(outlines, st.floats(0, 180))
def test_parts_that_were_split_and_kept_in_millimetres_join_to_the_whole(shape, way):
    east, north = shape.representative_point().coords[0]
    cut = shapely.affinity.rotate(LineString([(0, -90), (0, 90)]), way, origin=(0, 0))
    parts = split(shape, shapely.affinity.translate(cut, east, north))
    whole = joined_areas([stored(part) for part in parts])
    assert not isinstance(whole, Gap)
    assert whole.geom_type == "Polygon"
    assert not whole.interiors
    # a corner on a slanting edge is rounded by at most 0.7 mm
    assert whole.symmetric_difference(shape).area <= 0.00071 * shape.length
    assert areas([whole]) == pytest.approx(areas([shape]), abs=max(0.00071 * shape.length, MM2))
