"""What is drawn of items: worked out by hand, without a screen."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Point, Polygon

from plan_editor.desktop.canvas.chunks import SIDE, Chunks
from plan_editor.desktop.canvas.dashes import dashed
from plan_editor.desktop.canvas.pieces import PAPER_MM, pieces, spread_m
from plan_editor.desktop.canvas.runs import NOTHING, Runs, joined, runs_of, runs_of_arrays
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    bench,
    drain,
    fence,
    grave,
    hedge,
    memorial,
    path,
    service,
    tree,
    wall,
)
from plan_editor.plan.item import ItemId, Status, new_item
from plan_editor.plan.kind import kinds

HOLED = Polygon([(0, 0), (9, 0), (9, 9), (0, 9)], [[(3, 3), (6, 3), (6, 6)]])


def lines_of(runs: Runs) -> list[LineString]:
    return [LineString(points) for points in np.split(runs.points, runs.starts[1:])]


def area_of(runs: Runs) -> float:
    return sum(Polygon(line.coords).area for line in lines_of(runs))


def drawn(kind, place, **details):
    item = new_item(kind, place, details=kind.details(**details))
    return pieces(kind, kind.look_of(item.details), [item])


# runs


def test_rings_are_turned_so_that_overlaps_fill_and_holes_stay_open():
    clockwise = Polygon([(0, 0), (0, 2), (2, 2), (2, 0)])
    runs = runs_of([clockwise, HOLED, Point(1, 1), LineString([(0, 0), (1, 1)])])
    rings = lines_of(runs)
    assert [shapely.is_ccw(r) for r in rings[:3]] == [True, True, False]
    assert len(rings) == 4
    assert len(runs_of([MultiPolygon([HOLED, clockwise.buffer(0)])]).starts) == 3
    assert not runs_of([])


def test_runs_are_joined_one_after_another():
    one = runs_of_arrays([np.zeros((2, 2)), np.ones((3, 2))])
    both = joined([one, NOTHING, one])
    assert both.starts.tolist() == [0, 2, 5, 7]
    assert joined([]) is NOTHING
    assert runs_of_arrays([]) is NOTHING


# lines with a width


def test_a_wall_is_as_broad_as_it_is_thick():
    made = drawn(wall.KIND, LineString([(0, 0), (10, 0)]), width_m=0.5)
    assert area_of(made.areas) == pytest.approx(10 * 0.5)
    (outline,) = lines_of(made.outline)
    assert outline.bounds == pytest.approx((0, -0.25, 10, 0.25))
    assert outline.length == pytest.approx(2 * (10 + 0.5))


def test_a_path_has_two_edges_and_is_open_at_its_ends():
    made = drawn(path.KIND, LineString([(0, 0), (10, 0)]), width_m=1.5)
    assert sorted(line.bounds for line in lines_of(made.outline)) == [
        pytest.approx((0, -0.75, 10, -0.75)),
        pytest.approx((0, 0.75, 10, 0.75)),
    ]


def test_a_wall_that_closes_has_two_rings():
    made = drawn(wall.KIND, LineString([(0, 0), (9, 0), (9, 9), (0, 0)]), width_m=0.5)
    assert len(made.outline.starts) == 2
    assert all(line.is_ring for line in lines_of(made.outline))


def test_a_line_without_a_width_is_itself():
    made = drawn(path.KIND, LineString([(0, 0), (10, 0)]), width_m=None)
    assert not made.areas
    assert lines_of(made.outline)[0].length == 10


def test_fence_strokes_stand_every_five_millimetres_of_paper():
    # 10 m at 1:200 are 50 mm: ten strokes of 1.2 mm, which is 0.24 m
    made = drawn(fence.KIND, LineString([(0, 0), (10, 0)]))
    strokes = lines_of(made.thin)
    assert len(strokes) == 10
    assert {round(s.length, 6) for s in strokes} == {0.24}
    assert strokes[0].centroid.x == pytest.approx(0.5)


def test_a_hedge_is_scalloped_and_a_drain_has_arrows():
    broad = drawn(hedge.KIND, LineString([(0, 0), (10, 0)]), width_m=1.0)
    assert not broad.outline
    assert broad.thin
    assert drawn(hedge.KIND, LineString([(0, 0), (10, 0)]), width_m=None).thin
    assert drawn(drain.KIND, LineString([(0, 0), (50, 0)])).thin


def test_a_cable_has_its_letter_in_places_and_no_marks():
    made = drawn(service.KIND, LineString([(0, 0), (50, 0)]))
    assert len(made.letters) >= 1
    assert not made.thin


# rectangles


def test_a_reserved_grave_has_one_stroke_from_corner_to_corner_and_a_closed_one_two():
    place = Rectangle(east=0, north=0, width=3, length=4)
    reserved = drawn(grave.KIND, place, state=grave.State.RESERVED)
    closed = drawn(grave.KIND, place, state=grave.State.CLOSED)
    assert [line.length for line in lines_of(reserved.thin)] == [pytest.approx(5)]
    assert [line.length for line in lines_of(closed.thin)] == [pytest.approx(5)] * 2


def test_what_is_to_be_removed_is_crossed_through():
    place = Rectangle(east=0, north=0, width=3, length=4)
    doomed = replace(new_item(grave.KIND, place), status=Status.TO_BE_REMOVED)
    made = pieces(grave.KIND, grave.KIND.look, [doomed])
    assert len(made.thin.starts) == 2
    reach = shapely.box(*doomed.shape.bounds).buffer(
        spread_m(grave.KIND, doomed), join_style="mitre"
    )
    assert all(5 < line.length < 6 and line.within(reach) for line in lines_of(made.thin))


def test_the_bar_lies_at_the_head():
    made = drawn(grave.KIND, Rectangle(east=0, north=0, width=1, length=2, bearing_deg=0))
    assert shapely.box(*lines_of(made.solids)[0].bounds).bounds == pytest.approx(
        (0.0, 0.2, 0.1, 0.8)
    )


def test_a_stone_is_solid_and_has_a_stroke_towards_its_reader():
    made = drawn(memorial.KIND, Rectangle(east=0, north=0, width=1, length=0.2))
    assert area_of(made.solids) == pytest.approx(0.2)
    assert not made.outline
    assert lines_of(made.thin)[0].bounds == pytest.approx((-0.24, 0.5, 0.0, 0.5))


def test_a_family_plot_that_is_no_rectangle_is_drawn_by_its_outline():
    made = drawn(grave.KIND, Polygon([(0, 0), (3, 0), (2, 3)]))
    assert area_of(made.areas) == pytest.approx(4.5)
    assert not made.solids


# points


def test_a_crown_reaches_as_far_as_was_measured():
    made = drawn(tree.KIND, Point(0, 0), crown_north_m=4.0, crown_east_m=2.0)
    west, south, east, north = shapely.multilinestrings(lines_of(made.thin)).bounds
    bulge = 0.5
    assert north == pytest.approx(4.0, abs=bulge)
    assert east == pytest.approx(2.0, abs=bulge)
    # what was not measured is taken as the mean of what was
    assert -south == pytest.approx(3.0, abs=bulge)
    assert -west == pytest.approx(3.0, abs=bulge)


def test_roots_are_a_circle_of_twelve_stems():
    # BS 5837:2012, 4.6.1: twelve times the diameter of a single stem, here 500 mm
    made = drawn(tree.KIND, Point(0, 0), stems_mm=(500.0,))
    (circle,) = lines_of(made.dotted)
    assert circle.length == pytest.approx(2 * pi * 6.0, rel=0.01)


@pytest.mark.parametrize("kind", [k for k in kinds() if k.drawn], ids=lambda k: k.name)
def test_nothing_is_drawn_out_of_the_box_that_is_painted_again(kind):
    one_of_each = [
        Point(0, 0),
        LineString([(0, 0), (7, 2), (9, 9)]),
        Polygon([(0, 0), (8, 0), (8, 8)]),
        Rectangle(east=0, north=0, width=1.2, length=2.4, bearing_deg=30.0),
    ]
    places = dict(zip(("point", "line", "area", "rectangle"), one_of_each, strict=True))
    for form in kind.forms:
        if form.value not in places:
            continue
        item = new_item(kind, places[form.value])
        made = pieces(kind, kind.look_of(item.details), [item])
        reach = spread_m(kind, item) + kind.width_m(item.details)
        around = shapely.box(*item.shape.bounds).buffer(reach + 2 * PAPER_MM + 0.6)
        for runs in (made.areas, made.outline, made.solids, made.thin, made.dotted):
            assert shapely.intersects_xy(around, runs.points).all()


# dashes


def test_a_line_is_cut_into_dashes():
    runs = runs_of([LineString([(0, 0), (10, 0)])])
    found = lines_of(dashed(runs, (2.0, 1.0)))
    assert [(d.bounds[0], d.bounds[2]) for d in found] == [
        pytest.approx(p) for p in ((0, 2), (3, 5), (6, 8), (9, 10))
    ]


def test_dashes_go_round_corners_and_begin_anew_with_each_line():
    corner = LineString([(0, 0), (3, 0), (3, 3)])
    found = lines_of(dashed(runs_of([corner, corner]), (4.0, 1.0)))
    assert found[0].equals(LineString([(0, 0), (3, 0), (3, 1)]))
    assert found[1].equals(LineString([(3, 2), (3, 3)]))
    assert found[2].equals(found[0])


@given(
    legs=st.lists(
        st.tuples(st.integers(-9, 9), st.integers(-9, 9)), min_size=2, max_size=6, unique=True
    ),
    dash=st.sampled_from([(0.5, 0.25), (2.0, 0.4, 0.4, 0.4), (1.0, 1.0, 0.2)]),
)
def test_dashes_lie_on_their_line_and_are_as_long_as_told(legs, dash):
    line = LineString(legs)
    found = lines_of(dashed(runs_of([line]), dash))
    pattern = dash if len(dash) % 2 == 0 else dash * 2
    whole = int(line.length // sum(pattern))
    rest = line.length - whole * sum(pattern)
    wanted = whole * sum(pattern[::2])
    for on, start in zip(pattern[::2], np.cumsum((0, *pattern))[:-1:2], strict=True):
        wanted += min(max(rest - start, 0.0), on)
    assert sum(d.length for d in found) == pytest.approx(wanted, abs=1e-6)
    assert max(d.hausdorff_distance(line.intersection(d.buffer(1e-6))) for d in found) < 1e-3


def test_nothing_has_no_dashes_and_endless_lines_stay_whole():
    assert dashed(NOTHING, (1.0, 1.0)) is NOTHING
    long = runs_of([LineString([(0, 0), (90_000, 0)])])
    assert dashed(long, (0.1, 0.1)) is long


# squares of ground

ids = st.sampled_from([ItemId(c) for c in "abcdef"])
boxes = st.tuples(st.integers(-90, 90), st.integers(-90, 90), st.integers(0, 50)).map(
    lambda b: (float(b[0]), float(b[1]), float(b[0] + b[2]), float(b[1] + b[2]))
)


@given(
    first=st.dictionaries(ids, boxes),
    then=st.lists(st.tuples(ids, st.none() | boxes)),
    where=boxes,
)
def test_squares_hold_what_is_there_and_tell_what_must_be_drawn_anew(first, then, where):
    chunks = Chunks()
    chunks.put_many(list(first), list(first.values()))
    known = dict(first)
    for item, box in then:
        if box is None:
            touched = chunks.drop(item)
            assert bool(touched) == (item in known)
            known.pop(item, None)
        else:
            touched = chunks.put(item, box)
            assert touched
            known[item] = box
    assert len(chunks) == len(known)
    seen = {i for key in chunks.meeting([where]) for i in chunks.items(key)}
    meeting = {
        i
        for i, b in known.items()
        if b[0] <= where[2] and b[2] >= where[0] and b[1] <= where[3] and b[3] >= where[1]
    }
    assert meeting <= seen <= set(known)


def test_a_large_thing_lies_in_the_square_of_its_middle():
    chunks = Chunks()
    chunks.put_many([ItemId("a")], [(-100.0, -100.0, 100.0 + SIDE, 100.0 + SIDE)])
    assert chunks.meeting([(99.0, 99.0, 99.0, 99.0)]) == [(0, 0)]


def test_a_bench_is_turned_to_where_it_faces():
    # symbols are drawn facing south
    assert drawn(bench.KIND, Point(0, 0), facing_deg=270.0).turns.tolist() == [90.0]
    assert drawn(bench.KIND, Point(0, 0)).turns.tolist() == [0.0]
