"""A plan as ink, by the looks of its kinds."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from churchyard import churchyard, grave, made, with_status
from shapely import LineString, Point, Polygon, box

from plan_editor.drawing.compose import as_declared, compose, group_ink, grouped, protected
from plan_editor.drawing.ink import Clipped, Fill, Ink, Stroke
from plan_editor.drawing.tones import pale, proposed
from plan_editor.drawing.viewport import Viewport
from plan_editor.kinds.grave import State
from plan_editor.plan.item import Item, Status
from plan_editor.plan.kind import kinds
from plan_editor.plan.look import Look, Pen

VIEW = Viewport(east=0.0, north=0.0, scale=200.0, frame=(0.0, 0.0, 400.0, 400.0))


def ink_of(*items: Item) -> list[Ink]:
    return [i for g in grouped(items) for i in group_ink(g, VIEW, as_declared)]


def strokes(*items: Item) -> list[Stroke]:
    return [i for i in ink_of(*items) if isinstance(i, Stroke)]


def test_a_wall_of_40_m_is_200_mm_at_1_to_200() -> None:
    # 1:200 means that a metre is 5 mm (ISO 5455)
    (outline,) = strokes(made("wall", LineString([(-20, 0), (20, 0)]), width_m=0.45))
    (ring,) = outline.lines
    assert np.ptp(ring[:, 0]) == pytest.approx(200.0, abs=1e-9)
    assert np.ptp(ring[:, 1]) == pytest.approx(0.45 * 5.0, abs=1e-9)


def test_a_wall_is_closed_at_its_ends_and_a_path_is_open() -> None:
    line = LineString([(-20, 0), (20, 0)])
    (wall,) = strokes(made("wall", line, width_m=0.45))
    (path,) = strokes(made("path", line, width_m=1.5))
    assert (wall.closed, len(wall.lines)) == (True, 1)
    assert (path.closed, len(path.lines)) == (False, 2)
    for edge in path.lines:
        assert LineString(edge).length == pytest.approx(200.0, abs=0.011)


def test_a_wall_thinner_than_half_a_millimetre_is_one_line_of_half_a_millimetre() -> None:
    (line,) = strokes(made("wall", LineString([(-20, 0), (20, 0)]), width_m=0.09))
    assert line.pen.width == 0.5
    assert LineString(line.lines[0]).length == 200.0


def test_crossing_paths_are_open_to_each_other() -> None:
    one = made("path", LineString([(-10, 0), (10, 0)]), width_m=2.0)
    other = made("path", LineString([(0, -10), (0, 10)]), width_m=2.0)
    (edges,) = strokes(one, other)
    crossing = box(195, 195, 205, 205).buffer(-0.01)
    assert not any(LineString(e).intersects(crossing) for e in edges.lines)
    assert len(edges.lines) == 4


def test_a_round_path_has_an_inner_and_an_outer_edge() -> None:
    ring = Point(0, 0).buffer(8, quad_segs=8).exterior
    (edges,) = strokes(made("path", LineString(ring.coords), width_m=2.0))
    assert len(edges.lines) >= 2
    inner, outer = np.ptp(np.concatenate(edges.lines), axis=0)
    assert inner == pytest.approx(outer, abs=0.1)


def test_the_head_of_a_grave_has_a_bar_of_half_a_millimetre() -> None:
    bars = [s for s in strokes(grave("1", 0, 0, state=State.OCCUPIED)) if s.pen.width == 0.5]
    (bar,) = bars[0].lines
    # its head is to the west: the bar stands at its western end
    assert bar[:, 0].tolist() == [200.0, 200.0]
    assert abs(bar[1][1] - bar[0][1]) == pytest.approx(3.0)


def _without_colour(state: State) -> tuple:
    inked = ink_of(grave("1", 0, 0, state=state))
    return tuple(
        (s.pen.width, s.pen.dash, tuple(np.concatenate(s.lines).ravel().round(3)))
        for s in inked
        if isinstance(s, Stroke)
    )


def test_each_state_of_a_grave_is_told_apart_in_black_and_white() -> None:
    assert len({_without_colour(state) for state in State}) == len(State)


def test_a_stone_is_filled_to_its_size_and_read_from_its_face() -> None:
    stone = made("memorial", shapely.box(0, 0, 0.2, 0.9))
    fills = [i for i in ink_of(stone) if isinstance(i, Fill)]
    assert Polygon(fills[0].rings[0]).area == pytest.approx(0.18 * 25)


def test_the_face_of_a_stone_points_away_from_it() -> None:
    on = grave("1", 0, 0)
    assert on.rectangle is not None
    (face,) = strokes(made("memorial", replace(on.rectangle, width=0.9, length=0.2)))
    start, end = face.lines[0]
    assert start.tolist() == [200.0, 202.25]
    assert end.tolist() == [198.8, 202.25]


def test_a_trunk_is_to_scale_and_never_smaller_than_its_symbol() -> None:
    thin = [i for i in ink_of(made("tree", Point(0, 0))) if isinstance(i, Fill)]
    thick = [
        i
        for i in ink_of(made("tree", Point(0, 0), stems_mm=(600.0, 300.0)))
        if isinstance(i, Fill)
    ]
    assert np.ptp(thin[0].rings[0][:, 0]) == pytest.approx(0.9)
    assert np.ptp(thick[0].rings[0][:, 0]) == pytest.approx(3.0)


def test_a_crown_reaches_as_far_as_it_was_measured() -> None:
    tree = made(
        "tree",
        Point(0, 0),
        crown_north_m=4.0,
        crown_east_m=6.0,
        crown_south_m=2.0,
        crown_west_m=5.0,
    )
    (crown,) = strokes(tree)
    points = np.concatenate(crown.lines)
    reach = [*points.max(axis=0), *(400.0 - points.min(axis=0))]
    # scallops of up to 1 mm stand on it
    assert [r - 200 for r in reach] == pytest.approx([30.0, 20.0, 25.0, 10.0], abs=1.0)


def test_roots_are_protected_to_twelve_stem_diameters() -> None:
    # BS 5837:2012, table of annex D: 500 mm gives 6.00 m
    groups = grouped([made("tree", Point(0, 0), stems_mm=(500.0,)), made("tree", Point(5, 5))])
    (clipped,) = protected(groups, VIEW)
    assert isinstance(clipped, Clipped)
    (circle,) = clipped.ink
    assert isinstance(circle, Stroke)
    assert len(circle.lines) == 1
    assert np.ptp(circle.lines[0][:, 0]) == pytest.approx(60.0)
    assert protected(grouped([grave("1", 0, 0)]), VIEW) == ()
    assert protected(grouped([made("tree", Point(5, 5))]), VIEW) == ()


def test_a_thing_to_be_removed_is_crossed_past_its_outline() -> None:
    going = with_status(grave("1", 0, 0, state=State.CLOSED), Status.TO_BE_REMOVED)
    cross = strokes(going)[-1]
    assert len(cross.lines) == 2
    assert cross.lines[0].tolist() == [[198.5, 198.5], [212.5, 206.5]]


def test_a_line_to_be_removed_bears_crosses_along_it() -> None:
    wall = made("wall", LineString([(0, 0), (8, 0)]), width_m=0.3)
    cross = strokes(with_status(wall, Status.TO_BE_REMOVED))[-1]
    assert len(cross.lines) == 10


def test_a_proposed_thing_is_dashed_and_thinner() -> None:
    look = proposed(Look(pen=Pen(width=0.35), fill="#EEEEEE", solid=True))
    assert look.pen == Pen(width=0.25, dash=(1.5, 1.0))
    assert (look.fill, look.solid) == (None, False)
    assert proposed(Look(pen=Pen(width=0.18))).pen == Pen(width=0.18, dash=(1.5, 1.0))
    assert proposed(Look(pen=None)) == Look(pen=None)
    drawn = strokes(with_status(grave("1", 0, 0, state=State.OCCUPIED), Status.PROPOSED))
    assert drawn[0].pen.dash == (1.5, 1.0)


def test_a_pale_look_has_no_hatch_and_no_letters() -> None:
    groups = grouped(churchyard().items.values())
    for group in groups:
        look = pale(group.kind, group.look)
        assert look is not None
        assert look.hatch is None
        assert look.along is None or not look.along.text


def test_only_what_cannot_be_walked_through_has_a_ground_of_its_own_when_pale() -> None:
    every = kinds()
    grounds = {k.name for k in every if (look := pale(k, k.look)) and look.fill}
    assert {"building", "hedge"} <= grounds
    assert not grounds & {"path", "grave", "section", "grass", "tree"}


def test_a_pale_look_without_a_pen_is_blank() -> None:
    groups = grouped(churchyard().items.values())
    assert pale(groups[0].kind, Look(pen=None, fill="#EEEEEE")) == Look(pen=None)


def test_kinds_are_drawn_in_their_order() -> None:
    orders = [g.kind.order for g in grouped(churchyard().items.values())]
    assert orders == sorted(orders)


def test_ink_is_cut_off_at_the_frame() -> None:
    (clipped,) = compose(grouped([grave("1", 0, 0)]), VIEW)
    assert isinstance(clipped, Clipped)
    assert clipped.box == VIEW.frame
    assert compose((), VIEW) == ()


def test_a_look_can_be_left_out() -> None:
    assert compose(grouped([grave("1", 0, 0)]), VIEW, lambda kind, look: None) == ()


def test_a_look_without_a_pen_or_a_symbol_is_drawn_as_far_as_it_goes() -> None:
    bare = Look(pen=None, fill="#EEEEEE")
    items = [
        made("path", LineString([(0, 0), (9, 0)]), width_m=2.0),
        made("path", LineString([(0, 0), (9, 0)]), width_m=0.05),
        made("building", box(0, 0, 3, 3)),
        made("bench", Point(1, 1)),
    ]
    inked = [i for g in grouped(items) for i in group_ink(g, VIEW, lambda kind, look: bare)]
    assert all(isinstance(i, Fill) for i in inked)
    assert len(inked) == 3


def test_water_with_a_width_has_two_banks_and_arrows_between() -> None:
    drawn = strokes(made("watercourse", LineString([(0, 0), (30, 0)]), width_m=1.0))
    assert len(drawn) == 2
    heads = np.concatenate(drawn[1].lines)
    assert heads[:, 1].mean() == pytest.approx(200.0)


def test_a_hedge_with_a_width_is_scalloped_all_round() -> None:
    (edge,) = strokes(made("hedge", LineString([(0, 0), (30, 0)]), width_m=1.5))
    assert edge.closed
    assert Polygon(edge.lines[0]).area > 30 * 1.5 * 25


def test_an_area_bears_the_marks_along_its_outline() -> None:
    hedge = strokes(made("hedge", box(0, 0, 8, 3)))
    assert hedge[0].closed
    water = strokes(made("watercourse", box(0, 0, 20, 10)))
    assert len(water) == 2


def test_a_hatched_line_and_a_closed_one_keep_their_ends() -> None:
    steps = made("wall", LineString([(0, 0), (10, 0)]), width_m=1.0)
    look = Look(pen=Pen(), hatch=made_hatch(), edges_only=False)
    inked = [i for g in grouped([steps]) for i in group_ink(g, VIEW, lambda kind, _: look)]
    assert isinstance(inked[-1], Stroke)
    assert inked[-1].closed
    assert len(inked) == 2


def made_hatch() -> "object":
    look = made("building", box(0, 0, 1, 1)).kind.look
    return look.hatch


def test_a_dimension_is_set_aside_to_the_right_with_lines_to_what_it_measures() -> None:
    aside = made("dimension", LineString([(0, 0), (2, 0)]), aside_m=1.0)
    line, out, ticks = strokes(aside)
    assert line.lines[0].tolist() == [[200.0, 195.0], [210.0, 195.0]]
    assert [tuple(p.round(6)) for p in out.lines[0]] == [(200.0, 199.0), (200.0, 194.0)]
    assert len(ticks.lines) == 2
    assert len(strokes(made("dimension", LineString([(0, 0), (2, 0)])))) == 2
