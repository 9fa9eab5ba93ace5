"""Strokes near a place, on pictures whose lines are known."""

from math import atan2, degrees, hypot

import numpy as np
import pytest
from numpy.typing import NDArray

from plan_editor.scans.ink import REACH_PX, Stroke, strokes

Place = tuple[float, float]

SIDE = 400


def drawn(*lines: tuple[Place, Place], noise: float = 8.0, ink: int = 60) -> NDArray[np.uint8]:
    """Return grey paper with lines three pixels wide, as dark as the ink covers each."""
    down, right = np.mgrid[0:SIDE, 0:SIDE] + 0.5
    grey = np.full((SIDE, SIDE), 225.0)
    for (x0, y0), (x1, y1) in lines:
        dx, dy = x1 - x0, y1 - y0
        share = ((right - x0) * dx + (down - y0) * dy) / (dx * dx + dy * dy)
        share = np.clip(share, 0.0, 1.0)
        away = np.hypot(right - x0 - share * dx, down - y0 - share * dy)
        grey = np.minimum(grey, 225.0 - (225.0 - ink) * np.clip(2.0 - away, 0.0, 1.0))
    speckled = grey + np.random.default_rng(7).normal(0.0, noise, grey.shape)
    return np.clip(speckled, 0, 255).astype(np.uint8)


def off(stroke: Stroke, place: Place) -> float:
    """Return how far a place lies from the line of a stroke, in pixels."""
    dx, dy = stroke.x1 - stroke.x0, stroke.y1 - stroke.y0
    across = (place[0] - stroke.x0) * dy - (place[1] - stroke.y0) * dx
    return abs(across) / hypot(dx, dy)


def turn_deg(stroke: Stroke) -> float:
    return degrees(atan2(stroke.y1 - stroke.y0, stroke.x1 - stroke.x0)) % 180.0


@pytest.mark.parametrize("turn", [0.0, 17.0, 45.0, 90.0, 133.0, 179.0])
def test_a_line_is_found_to_a_quarter_of_a_pixel_whatever_its_bearing(turn: float) -> None:
    way = np.array([np.cos(np.radians(turn)), np.sin(np.radians(turn))])
    middle = np.array([200.0, 190.0])
    ends = [tuple((middle + s * 120 * way).tolist()) for s in (-1, 1)]
    (found,) = strokes(drawn((ends[0], ends[1])), (204.0, 193.0), 10.0)
    assert off(found, (200.0, 190.0)) < 0.25
    assert abs((turn_deg(found) - turn + 90.0) % 180.0 - 90.0) < 1.0


def test_both_lines_at_a_corner_are_found_and_cross_where_it_is() -> None:
    corner = (150.0, 160.0)
    grey = drawn((corner, (320.0, 200.0)), (corner, (120.0, 330.0)))
    found = strokes(grey, (154.0, 163.0), 10.0)
    assert len(found) == 2
    assert all(off(stroke, corner) < 0.7 for stroke in found)


def test_blank_paper_stains_and_short_strokes_are_no_lines() -> None:
    assert strokes(drawn(), (200.0, 200.0), 12.0) == ()
    assert strokes(drawn(((195.0, 200.0), (207.0, 203.0))), (200.0, 200.0), 12.0) == ()
    stained = drawn(noise=2.0)
    rows, columns = np.ogrid[:SIDE, :SIDE]
    stained[(rows - 200) ** 2 + (columns - 200) ** 2 < 900] = 190
    assert strokes(stained, (200.0, 200.0), 12.0) == ()
    assert strokes(drawn(((50.0, 200.0), (350.0, 200.0)), ink=205), (200.0, 200.0), 9.0) == ()


def test_dots_far_apart_are_no_line() -> None:
    dots = [((x, 200.0), (x + 1.5, 200.0)) for x in range(140, 260, 12)]
    assert strokes(drawn(*dots, noise=1.0), (200.0, 201.0), 8.0) == ()


def test_a_line_out_of_reach_is_not_told() -> None:
    grey = drawn(((100.0, 100.0), (300.0, 100.0)))
    assert strokes(grey, (200.0, 108.0), 5.0) == ()
    assert len(strokes(grey, (200.0, 108.0), 10.0)) == 1
    assert strokes(grey, (200.0, 100.0 + REACH_PX + 2), 500.0) == ()


def test_the_edge_of_the_picture_and_places_beside_it_do_no_harm() -> None:
    grey = drawn(((0.0, 3.0), (400.0, 3.0)))
    (found,) = strokes(grey, (2.0, 1.0), 8.0)
    assert off(found, (0.0, 3.0)) < 0.5
    assert strokes(drawn(noise=0.0), (5.0, 5.0), 10.0) == ()
    for beside in ((-500.0, 10.0), (10.0, 900.0), (-3.0, -3.0)):
        assert strokes(drawn(), beside, 10.0) == ()


def test_coloured_scans_are_looked_at_as_grey() -> None:
    grey = drawn(((100.0, 100.0), (300.0, 140.0)))
    coloured = np.dstack([grey, grey, grey])
    assert strokes(coloured, (200.0, 121.0), 8.0) == strokes(grey, (200.0, 121.0), 8.0)
