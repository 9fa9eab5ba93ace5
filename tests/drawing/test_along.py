"""Marks along lines."""

import numpy as np
import pytest
from shapely import LineString, Polygon

from plan_editor.drawing.along import decorated, scalloped, stations, upright
from plan_editor.drawing.ink import Stroke, Text
from plan_editor.plan.look import Along, Mark, Pen

LINE = np.array([(0.0, 0.0), (30.0, 0.0), (30.0, 20.0)])
PEN = Pen(width=0.25)


def test_marks_are_regular_and_half_a_step_from_the_ends() -> None:
    at, ways = stations(LINE, 5.0)
    assert len(at) == 10
    assert at[0].tolist() == [2.5, 0.0]
    assert at[-1].tolist() == [30.0, 17.5]
    assert ways[0].tolist() == [1.0, 0.0]
    assert ways[-1].tolist() == [0.0, 1.0]


def test_a_line_shorter_than_a_step_has_one_mark_in_its_middle() -> None:
    at, _ = stations(LINE[:2] / 100, 5.0)
    assert at.tolist() == [[0.15, 0.0]]


def test_a_fence_has_cross_strokes_of_its_size() -> None:
    line, ticks = decorated((LINE,), Along(mark=Mark.TICKS, every=5.0, size=1.2), PEN)
    assert isinstance(line, Stroke)
    assert isinstance(ticks, Stroke)
    assert len(ticks.lines) == 10
    assert all(LineString(t).length == pytest.approx(1.2) for t in ticks.lines)
    assert all(LineString(t).centroid.distance(LineString(LINE)) < 1e-9 for t in ticks.lines)


def test_an_arrow_points_the_way_the_line_runs() -> None:
    _, heads = decorated((LINE,), Along(mark=Mark.ARROWS, every=25.0, size=2.0), PEN)
    assert isinstance(heads, Stroke)
    (left, tip, right), *_ = heads.lines
    assert tip[0] > left[0] == right[0]


def test_letters_stand_in_gaps_of_the_line() -> None:
    line, *letters = decorated((LINE,), Along(mark=Mark.LETTERS, every=15.0, text="W"), PEN)
    assert isinstance(line, Stroke)
    assert [t.text for t in letters if isinstance(t, Text)] == ["W"] * 3
    drawn = sum(LineString(part).length for part in line.lines)
    assert 50.0 - 3 * 4.0 < drawn < 50.0 - 3 * 2.0
    at, _ = stations(LINE, 15.0)
    assert all(
        LineString(part).distance(LineString([p, p + 1e-6])) > 0.9
        for part in line.lines
        for p in at
    )


def test_a_corner_between_two_gaps_is_kept() -> None:
    line, *_ = decorated((LINE,), Along(mark=Mark.LETTERS, every=25.0, text="W"), PEN)
    assert isinstance(line, Stroke)
    assert any((part == (30.0, 0.0)).all(axis=1).any() for part in line.lines)


@pytest.mark.parametrize("turn", range(-360, 361, 15))
def test_text_is_never_upside_down(turn: int) -> None:
    assert abs(upright(turn)) <= 90.0 + 1e-9
    assert (upright(turn) - turn) % 180.0 == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("step", [1, -1])
def test_scallops_bulge_outwards(step: int) -> None:
    ring = np.array([(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)])[::step]
    drawn = scalloped((ring,), Along(mark=Mark.SCALLOPS, every=2.5), PEN)
    assert isinstance(drawn, Stroke)
    assert Polygon(drawn.lines[0]).area > 200.0


def test_a_hedge_without_width_is_scalloped_on_both_sides() -> None:
    (drawn,) = decorated((LINE,), Along(mark=Mark.SCALLOPS, every=2.5, size=1.0), PEN)
    assert isinstance(drawn, Stroke)
    assert drawn.lines[0].min(axis=0)[1] < -0.5
    assert drawn.lines[0].max(axis=0)[0] > 30.5
    assert drawn.closed
