"""Hatches against shapely's own intersection."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.hatching import hatched
from plan_editor.drawing.ink import Stroke
from plan_editor.plan.look import Hatch, Pattern, Pen

HOLED = Polygon([(0, 0), (30, 2), (25, 28), (-3, 20)], [[(8, 8), (15, 8), (15, 15), (8, 15)]])


def areas(*shapes: BaseGeometry) -> "np.ndarray":
    return np.array(shapes, dtype=object)


def stroke(shape: BaseGeometry, hatch: Hatch) -> Stroke:
    (found,) = hatched(areas(shape), hatch)
    assert isinstance(found, Stroke)
    return found


@given(
    st.lists(st.tuples(st.floats(0, 40), st.floats(0, 40)), min_size=3, max_size=8),
    st.floats(-90, 180),
)
def test_hatch_lines_are_the_part_of_the_ruling_inside(
    points: list[tuple[float, float]], angle: float
) -> None:
    shape = shapely.convex_hull(shapely.multipoints(points))
    if shape.geom_type != "Polygon" or shape.area < 1.0:
        return
    shape = shape.difference(shapely.buffer(shape.centroid, 2.0))
    if shape.geom_type != "Polygon":
        return
    found = hatched(areas(shape), Hatch(angle_deg=angle, spacing=1.5))
    ours = sum(LineString(line).length for piece in found for line in piece.lines)
    way = np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    across = np.array([-way[1], way[0]])
    ruling = MultiLineString(
        [[k * 1.5 * across - 200 * way, k * 1.5 * across + 200 * way] for k in range(-60, 60)]
    )
    assert ours == pytest.approx(shape.intersection(ruling).length, abs=0.01)


def test_a_hole_is_left_out() -> None:
    hatch = stroke(HOLED, Hatch(spacing=1.0))
    hole = box(8, 8, 15, 15).buffer(-1e-6)
    assert not any(LineString(line).intersects(hole) for line in hatch.lines)


def test_lines_are_as_far_apart_as_they_should_be() -> None:
    hatch = stroke(box(0.3, 0.3, 20.3, 20.3), Hatch(angle_deg=0.0, spacing=2.0))
    heights = sorted(line[0][1] for line in hatch.lines)
    assert np.diff(heights) == pytest.approx(2.0)
    assert len(heights) == 10


def test_neighbours_join_without_a_step() -> None:
    (both,) = hatched(areas(box(0, 0, 7, 9), box(7, 0, 13, 9)), Hatch(spacing=1.3))
    whole = stroke(box(0, 0, 13, 9), Hatch(spacing=1.3))
    parts, alone = MultiLineString(list(both.lines)), MultiLineString(list(whole.lines))
    assert parts.length == pytest.approx(alone.length)
    assert alone.buffer(1e-6).contains(parts)


@pytest.mark.parametrize("pattern", [Pattern.DOTS, Pattern.STROKES, Pattern.CROSSES])
def test_marks_lie_whole_inside(pattern: Pattern) -> None:
    hatch = Hatch(pattern=pattern, spacing=2.0, size=1.0)
    lines = [LineString(line) for line in stroke(HOLED, hatch).lines]
    assert len(lines) > 50
    assert all(HOLED.contains(line) for line in lines)


def test_a_dot_is_as_wide_as_it_is_long() -> None:
    hatch = stroke(
        HOLED, Hatch(pattern=Pattern.DOTS, spacing=3.0, size=0.4, pen=Pen(width=0.18))
    )
    assert hatch.pen.width == pytest.approx(LineString(hatch.lines[0]).length) == 0.4


def test_crossed_lines_run_both_ways() -> None:
    plain = stroke(box(0, 0, 20, 20), Hatch(spacing=2.0))
    crossed = stroke(box(0, 0, 20, 20), Hatch(pattern=Pattern.CROSSED, spacing=2.0))
    assert len(crossed.lines) == pytest.approx(2 * len(plain.lines), abs=1)


def test_an_area_between_two_lines_has_no_ink() -> None:
    assert hatched(areas(box(0.1, 0.1, 0.9, 0.9)), Hatch(angle_deg=0.0, spacing=1.0)) == ()
    assert (
        hatched(areas(box(0.1, 0.1, 0.4, 0.4)), Hatch(pattern=Pattern.DOTS, spacing=3.0)) == ()
    )
