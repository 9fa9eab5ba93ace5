"""Lines and areas that are cut: sums by hand, and areas by another engine.

The other engine is Clipper (A. Johnson), a clipping library with arithmetic of its own in whole
numbers, by way of pyclipper. It and the geometry library here share no code.
"""

from collections.abc import Sequence
from itertools import combinations

import numpy as np
import pyclipper
import pytest
import shapely
from hypothesis import assume, example, given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Polygon, box
from shapely.geometry.base import BaseGeometry
from strategies import rings

from plan_editor.geometry.cutting import areas_of, crossings, cut_out, lengthened, split

MM2 = 1e-6
"""A square millimetre."""


def clipped(how: int, one: Polygon, others: Sequence[Polygon]) -> float:
    """Return the area that Clipper gives, from corners in whole millimetres."""
    machine = pyclipper.Pyclipper()
    machine.AddPath(in_mm(one), pyclipper.PT_SUBJECT, closed=True)
    for other in others:
        machine.AddPath(in_mm(other), pyclipper.PT_CLIP, closed=True)
    paths = machine.Execute(how, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    return sum(pyclipper.Area(path) for path in paths) * MM2


def in_mm(shape: Polygon) -> list[list[int]]:
    assert not shape.interiors
    whole: list[list[int]] = (
        np.round(shapely.get_coordinates(shape)[:-1] * 1000).astype(int).tolist()
    )
    return whole


def whole_mm(shape: Polygon) -> Polygon:
    return shapely.transform(shape, lambda c: c.round(3) + 0.0)


outlines = rings().map(Polygon).map(whole_mm).filter(lambda s: s.is_valid and s.area > 0.01)


@st.composite
def overlapping(draw: st.DrawFn, count: int = 2) -> list[Polygon]:
    """Return outlines that lie over one another."""
    first, *others = (draw(outlines) for _ in range(count))
    e, n = first.representative_point().coords[0]
    shifts = [o.representative_point().coords[0] for o in others]
    aside = st.integers(-9_000, 9_000).map(lambda mm: mm / 1000)
    return [
        first,
        *(
            whole_mm(shapely.affinity.translate(o, e - oe + draw(aside), n - on + draw(aside)))
            for o, (oe, on) in zip(others, shifts, strict=True)
        ),
    ]


def areas(parts: Sequence[BaseGeometry]) -> list[float]:
    return [round(part.area, 6) for part in parts]


# split


def test_a_rectangle_is_split_square_across():
    parts = split(box(0, 0, 10, 4), LineString([(7, -1), (7, 5)]))
    assert areas(parts) == [28.0, 12.0]
    assert parts[1].bounds == (7.0, 0.0, 10.0, 4.0)


def test_a_line_that_crosses_a_horseshoe_twice_leaves_three_parts():
    # below the line 6 by 3 less the slot's 2 by 1; above it two arms of 2 by 3
    shoe = Polygon([(0, 0), (6, 0), (6, 6), (4, 6), (4, 2), (2, 2), (2, 6), (0, 6)])
    parts = split(shoe, LineString([(-1, 3), (7, 3)]))
    assert areas(parts) == [6 * 3 - 2 * 1, 6.0, 6.0]


def test_holes_stay_with_the_part_round_them_and_a_hole_that_is_crossed_opens():
    yard = box(0, 0, 10, 10).difference(box(1, 1, 2, 2)).difference(box(4, 4, 6, 6))
    parts = split(yard, LineString([(5, -1), (5, 11)]))
    assert areas(parts) == [48.0, 50.0 - 2.0 - 1.0]
    assert [len(part.interiors) for part in parts] == [0, 1]


def test_what_does_not_go_right_across_leaves_one_part():
    square = box(0, 0, 4, 4)
    for cut in ([(1, -1), (1, 3)], [(1, 1), (3, 3)], [(9, 0), (9, 4)], [(0, 0), (0, 4)]):
        assert split(square, LineString(cut)) == (square,)


def test_a_cut_whose_ends_were_rounded_short_of_the_edges_still_goes_across():
    slanting = Polygon([(0, 0), (10, 0.007), (10, 5.003), (0, 5)])
    parts = split(slanting, LineString([(3.333, 0.003), (3.333, 5.001)]))
    assert len(parts) == 2


def test_dust_along_a_cut_is_no_part_of_its_own():
    # a cut that runs along an edge but for a hair leaves a sliver of 11 by 0.00001 / 2
    assert len(split(box(0, 0, 10, 4), LineString([(-1, 0.0), (11, 0.00001)]))) == 1
    # and one of 0.5 cm² beside two real parts goes to the one it has most edge with
    notched = Polygon([(0, 0), (10, 0), (10, 4), (5.01, 4), (5.005, 4.01), (5.0, 4), (0, 4)])
    parts = split(notched, LineString([(2, -1), (2, 4), (11, 4)]))
    assert len(parts) == 2
    assert sum(areas(parts)) == pytest.approx(notched.area, abs=MM2)


def test_of_two_islands_the_one_that_is_left_alone_stays_with_the_largest_part():
    islands = MultiPolygon([box(0, 0, 10, 4), box(20, 0, 21, 1)])
    parts = split(islands, LineString([(7, -1), (7, 5)]))
    assert areas(parts) == [28.0 + 1.0, 12.0]
    assert split(islands, LineString([(15, -1), (15, 5)])) == (islands,)
    both = split(islands, LineString([(-1, 0.5), (22, 0.5)]))
    assert areas(both) == [35.0, 5.0, 0.5, 0.5]


def test_a_line_is_split_at_every_place_where_it_is_crossed():
    bent = LineString([(0, 0), (10, 0), (10, 10)])
    parts = split(bent, LineString([(8, -1), (8, 1), (11, 4)]))
    assert [p.length for p in parts] == [8.0, 7.0, 2.0 + 3.0]
    assert split(bent, LineString([(5, 1), (9, 1)])) == (bent,)
    # at a corner, and along a side of it: the cut is carried on by 2 mm at both ends
    assert [p.length for p in split(bent, LineString([(9, -1), (11, 1)]))] == [10.0, 10.0]
    along = split(bent, LineString([(2, 0), (6, 0)]))
    assert sorted(p.length for p in along) == pytest.approx([2.0, 4.0, 14.0], abs=0.005)


def test_a_closed_line_cut_twice_is_two_lines_wherever_it_begins():
    ring = LineString([(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)])
    parts = split(ring, LineString([(-1, 4), (11, 4)]))
    assert [p.length for p in parts] == [22.0, 18.0]


def test_a_line_is_not_cut_a_hair_from_its_end():
    line = LineString([(0, 0), (10, 0)])
    assert len(split(line, LineString([(9.995, -1), (9.995, 1)]))) == 1


@given(st.integers(1, 9999), st.floats(0.1, 3.0))
def test_the_pieces_of_a_line_add_up(at, slant):
    line = LineString([(0, 0), (6, 0), (6, 4)])
    place = line.interpolate(at / 1000)
    cut = LineString([(place.x - slant, place.y - 1), (place.x + slant, place.y + 1)])
    assert sum(p.length for p in split(line, cut)) == pytest.approx(10.0, abs=1e-6)


@given(outlines, st.floats(0, 180), st.integers(-5_000, 5_000))
def test_the_parts_make_up_the_whole_as_clipper_sums_it(shape, way, aside):
    east, north = shape.representative_point().coords[0]
    line = shapely.affinity.rotate(LineString([(0, -90), (0, 90)]), way, origin=(0, 0))
    cut = shapely.affinity.translate(line, east + aside / 1000, north)
    parts = split(shape, cut)
    thousandth_of_a_mm = 1e-6 * shape.length + MM2
    expected = clipped(pyclipper.CT_UNION, shape, [])
    assert sum(p.area for p in parts) == pytest.approx(expected, abs=thousandth_of_a_mm)
    assert shapely.union_all(parts).symmetric_difference(shape).area < thousandth_of_a_mm
    assert [p.area for p in parts] == sorted((p.area for p in parts), reverse=True)
    half = cut.buffer(200, single_sided=True, cap_style="flat")
    on_one_side = sum(p.area for p in parts if half.covers(p.representative_point()))
    mm = Polygon(np.round(shapely.get_coordinates(half)[:-1], 3))
    # the half plane that Clipper gets is rounded to the millimetre, along at most 40 m of cut
    expected = clipped(pyclipper.CT_INTERSECTION, shape, [mm])
    assert on_one_side == pytest.approx(expected, abs=0.001 * 40 + 2e-4)


@given(
    outlines,
    st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=2, max_size=6),
)
@example(
    Polygon([(-15.339, 0), (-16.412, 0.992), (-16.089, -0.433)]),
    [(0.0, 0.0), (0.0, -2.0), (4.2e-15, -1.0), (1.0, 0.0)],  # back on its own way, all but
)
def test_whatever_is_drawn_across_parts_are_whole_and_nothing_is_lost(shape, corners):
    assume(LineString(corners).length > 0.1)
    east, north = shape.representative_point().coords[0]
    cut = LineString([(east + e, north + n) for e, n in corners])
    parts = split(shape, cut)
    hair = 1e-6 * (shape.length + cut.length) + MM2
    assert all(p.is_valid and p.area > 1e-4 for p in parts)
    assert sum(p.area for p in parts) == pytest.approx(shape.area, abs=hair)
    for one, other in combinations(parts, 2):
        assert one.intersection(other).area < hair


# cut out


@given(overlapping())
def test_what_is_left_is_what_clipper_leaves(pair):
    shape, piece = pair
    left = cut_out(shape, piece)
    expected = clipped(pyclipper.CT_DIFFERENCE, shape, [piece])
    # less than a square centimetre is no part; Clipper rounds corners to a millimetre
    perimeter = shape.length + piece.length
    assert sum(p.area for p in left) == pytest.approx(expected, abs=perimeter * 0.001 + 5e-4)
    assert all(p.is_valid for p in left)


def test_a_piece_within_is_a_hole_and_one_right_across_leaves_two_parts():
    field = box(0, 0, 10, 4)
    (holed,) = cut_out(field, box(4, 1, 6, 3))
    assert holed.area == 36.0
    assert len(holed.interiors) == 1
    assert areas(cut_out(field, box(7, -1, 8, 5))) == [28.0, 8.0]


def test_where_nothing_is_left_there_is_nothing():
    assert cut_out(box(0, 0, 4, 4), box(-1, -1, 5, 5)) == ()


def test_islands_that_the_piece_does_not_touch_stay():
    islands = MultiPolygon([box(0, 0, 10, 4), box(20, 0, 21, 1)])
    assert areas(cut_out(islands, box(7, -1, 8, 5))) == [28.0 + 1.0, 8.0]
    assert areas(cut_out(islands, box(-1, -1, 11, 5))) == [1.0]
    assert areas(cut_out(islands, box(50, 0, 51, 1))) == [41.0]


def test_lines_and_dust_are_no_areas():
    line = LineString([(0, 0), (1, 1)])
    mixed = shapely.GeometryCollection([box(0, 0, 4, 4), box(0, 0, 0.005, 0.005), line])
    assert areas_of(mixed) == [box(0, 0, 4, 4)]


# lines


def test_a_line_is_carried_on_at_both_ends():
    longer = lengthened(LineString([(0, 0), (3, 0), (3, 4)]), 0.5)
    assert shapely.get_coordinates(longer).tolist() == [[-0.5, 0], [3, 0], [3, 4.5]]


def test_places_where_lines_meet_are_points_and_the_ends_of_what_they_share():
    line = LineString([(0, 0), (10, 0)])
    assert crossings(line, LineString([(2, -1), (2, 1)])) == ((2.0, 0.0),)
    assert set(crossings(line, LineString([(2, 0), (6, 0)]))) == {(2.0, 0.0), (6.0, 0.0)}
    assert crossings(line, LineString([(2, 1), (6, 1)])) == ()
