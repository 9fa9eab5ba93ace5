"""Lines and areas are cut: areas add up, by hand, by area and against another library."""

from itertools import combinations
from math import cos, sin, tau

import pyclipper
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Polygon

from plan_editor.geometry.cutting import areas_of, crossings, cut_out, lengthened, split

MM2 = 1e-6
"""A square millimetre, in square metres."""

SQUARE = shapely.box(0.0, 0.0, 10.0, 10.0)
YARD = Polygon(SQUARE.exterior, [shapely.box(3, 3, 6, 6).exterior])


@st.composite
def stars(draw: st.DrawFn) -> Polygon:
    """Return an outline round a middle, in whole millimetres, that never crosses itself."""
    reaches = draw(st.lists(st.integers(2_000, 20_000), min_size=3, max_size=9))
    east, north = draw(st.tuples(st.integers(-5_000, 5_000), st.integers(-5_000, 5_000)))
    corners = [
        (
            round(east + r * cos(tau * n / len(reaches))) / 1000,
            round(north + r * sin(tau * n / len(reaches))) / 1000,
        )
        for n, r in enumerate(reaches)
    ]
    return Polygon(corners)


cuts = st.lists(
    st.tuples(st.floats(-25.0, 25.0), st.floats(-25.0, 25.0)),
    min_size=2,
    max_size=4,
    unique=True,
).map(LineString)


def areas(parts):
    return [round(p.area, 6) for p in parts]


def test_a_square_split_at_four_tenths_has_parts_of_60_and_40():
    larger, smaller = split(SQUARE, LineString([(4, -1), (4, 11)]))
    assert areas((larger, smaller)) == [60.0, 40.0]
    assert smaller.equals(shapely.box(0, 0, 4, 10))


def test_a_cut_through_a_hole_gives_two_parts_without_one():
    # by hand: 100 - 9 = 91; left of 4: 40 - 3 = 37, right of it: 60 - 6 = 54
    parts = split(YARD, LineString([(4, -1), (4, 11)]))
    assert areas(parts) == [54.0, 37.0]
    assert [len(p.interiors) for p in parts] == [0, 0]


def test_a_cut_beside_a_hole_leaves_it_in_its_part():
    whole, piece = split(YARD, LineString([(8, -1), (8, 11)]))
    assert areas((whole, piece)) == [71.0, 20.0]
    assert len(whole.interiors) == 1


def test_a_bent_cut_may_leave_more_than_two_parts():
    # a zigzag that leaves and comes back: two corners are cut off the top
    parts = split(SQUARE, LineString([(-1, 9), (5, 12), (11, 9)]))
    assert len(parts) == 1
    parts = split(SQUARE, LineString([(-1, 8), (3, 12), (7, 12), (11, 8)]))
    # by hand: triangles with legs of 1 at either corner: the line leaves at (1, 10), (9, 10)
    assert areas(parts) == [99.0, 0.5, 0.5]


@pytest.mark.parametrize(
    "cut",
    [
        [(4, -1), (4, 9)],
        [(2, 2), (8, 8)],
        [(11, 0), (11, 9)],
        [(10, 0), (10, 10)],
    ],
    ids=["to the middle", "within", "beside", "along its edge"],
)
def test_what_does_not_go_right_across_cuts_nothing(cut):
    assert split(SQUARE, LineString(cut)) == (SQUARE,)


def test_an_end_laid_on_an_edge_and_rounded_cuts_all_the_same():
    slant = Polygon([(0, 0), (9.7, 0.3), (8.1, 7.7), (0.4, 8)])
    start = slant.exterior.interpolate(5.1)
    end = slant.exterior.interpolate(21.3)
    cut = LineString([(round(p.x, 3), round(p.y, 3)) for p in (start, end)])
    parts = split(slant, cut)
    assert len(parts) == 2
    assert sum(p.area for p in parts) == pytest.approx(slant.area, abs=MM2)


def test_dust_at_a_corner_stays_with_its_neighbour():
    # the cut leaves a triangle with legs of 5 mm at the corner: 12.5 mm²
    parts = split(SQUARE, LineString([(-1, 5), (9.995, 10), (10, 9.995), (11, 4)]))
    assert all(p.area > 1.0 for p in parts)
    assert sum(p.area for p in parts) == pytest.approx(100.0, abs=MM2)


def test_a_part_that_the_cut_leaves_alone_stays_with_the_largest():
    far = shapely.box(20, 0, 21, 1)
    larger, smaller = split(MultiPolygon([SQUARE, far]), LineString([(4, -1), (4, 11)]))
    assert areas((larger, smaller)) == [61.0, 40.0]
    assert split(MultiPolygon([SQUARE, far]), LineString([(4, 1), (4, 2)])) == (
        MultiPolygon([SQUARE, far]),
    )


@given(stars(), cuts)
def test_the_parts_of_an_area_add_up_to_it_and_do_not_overlap(area, cut):
    parts = split(area, cut)
    assert all(p.is_valid for p in parts)
    assert sum(p.area for p in parts) == pytest.approx(area.area, abs=MM2)
    assert shapely.union_all(parts).symmetric_difference(area).area < MM2
    for one, other in combinations(parts, 2):
        assert one.intersection(other).area < MM2
    assert [p.area for p in parts] == sorted((p.area for p in parts), reverse=True)


def clipped(kind: int, one: Polygon, other: Polygon) -> float:
    """Return the area of a union or difference by Vatti's algorithm, in micrometres."""
    engine = pyclipper.Pyclipper()
    scale = 1e6
    for polygon, role in ((one, pyclipper.PT_SUBJECT), (other, pyclipper.PT_CLIP)):
        path = [(round(e * scale), round(n * scale)) for e, n in polygon.exterior.coords[:-1]]
        engine.AddPath(path, role, True)  # noqa: FBT003  # as that library has it
    found = engine.Execute(kind, pyclipper.PFT_EVENODD, pyclipper.PFT_EVENODD)
    return (
        sum(
            abs(pyclipper.Area(p)) if pyclipper.Orientation(p) else -abs(pyclipper.Area(p))
            for p in found
        )
        / scale**2
    )


@given(stars(), stars())
def test_what_is_left_has_the_area_that_another_library_finds(area, piece):
    left = cut_out(area, piece)
    wanted = clipped(pyclipper.CT_DIFFERENCE, area, piece)
    # each new corner is rounded there to a micrometre; dust of a square centimetre goes here
    assert sum(p.area for p in left) == pytest.approx(wanted, abs=4e-4)
    assert all(p.is_valid for p in left)


def test_a_path_cut_out_of_a_meadow_leaves_both_sides_of_it():
    left = cut_out(SQUARE, shapely.box(4, -1, 5, 11))
    assert areas(left) == [50.0, 40.0]


def test_a_pond_cut_out_of_a_meadow_leaves_a_hole():
    (left,) = cut_out(SQUARE, shapely.box(4, 4, 6, 6))
    assert len(left.interiors) == 1
    assert left.area == 96.0


def test_nothing_is_left_where_all_is_cut_out():
    assert cut_out(SQUARE, shapely.box(-1, -1, 11, 11)) == ()


def test_of_several_parts_only_those_concerned_come_apart():
    far = shapely.box(20, 0, 21, 1)
    left = cut_out(MultiPolygon([SQUARE, far]), shapely.box(4, -1, 5, 11))
    assert areas(left) == [51.0, 40.0]
    assert cut_out(MultiPolygon([SQUARE, far]), shapely.box(-1, -1, 11, 11)) == (far,)


def test_a_line_is_split_where_another_crosses_it_every_corner_kept():
    parts = split(LineString([(0, 0), (10, 0), (10, 5)]), LineString([(4, -1), (4, 1)]))
    assert [list(p.coords) for p in parts] == [[(4, 0), (10, 0), (10, 5)], [(0, 0), (4, 0)]]


def test_a_line_is_split_at_a_corner_where_the_cut_meets_that():
    parts = split(LineString([(0, 0), (4, 0), (4, 9)]), LineString([(3, -1), (5, 1)]))
    assert [list(p.coords) for p in parts] == [[(4, 0), (4, 9)], [(0, 0), (4, 0)]]


def test_a_ring_is_not_cut_where_it_begins():
    ring = LineString([(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)])
    parts = split(ring, LineString([(5, -1), (5, 11)]))
    assert [list(p.coords) for p in parts] == [
        [(5, 10), (0, 10), (0, 0), (5, 0)],
        [(5, 0), (10, 0), (10, 10), (5, 10)],
    ]
    assert len(split(ring, LineString([(5, -1), (5, 1)]))) == 1


def test_what_runs_along_a_line_cuts_it_at_both_ends():
    parts = split(LineString([(0, 0), (10, 0)]), LineString([(3, 1), (3, 0), (6, 0), (6, 1)]))
    assert sorted(p.length for p in parts) == pytest.approx([3.0, 3.0, 4.0])


def test_a_crumb_at_the_end_of_a_line_is_no_part():
    line = LineString([(0, 0), (10, 0)])
    assert split(line, LineString([(9.995, -1), (9.995, 1)])) == (line,)


@given(st.integers(1, 9999), st.floats(0.1, 3.0))
def test_the_pieces_of_a_line_add_up(at, slant):
    line = LineString([(0, 0), (6, 0), (6, 4)])
    place = line.interpolate(at / 1000)
    cut = LineString([(place.x - slant, place.y - 1), (place.x + slant, place.y + 1)])
    assert sum(p.length for p in split(line, cut)) == pytest.approx(10.0, abs=1e-6)


def test_a_line_carried_on_at_both_ends():
    assert lengthened(LineString([(0, 0), (3, 4), (3, 9)]), 5.0) == LineString(
        [(-3, -4), (3, 4), (3, 14)]
    )


def test_where_lines_meet_points_count_and_the_ends_of_what_they_share():
    line = LineString([(0, 0), (10, 0)])
    assert crossings(line, LineString([(0, 5), (9, 5)])) == ()
    assert crossings(line, LineString([(2, 1), (2, 0), (5, 0)])) == ((2, 0), (5, 0))


def test_lines_and_dust_are_no_areas():
    mixed = shapely.GeometryCollection(
        [SQUARE, shapely.box(0, 0, 0.005, 0.005), LineString([(0, 0), (1, 1)])]
    )
    assert areas_of(mixed) == [SQUARE]
