"""Rectangles found in a whole scan, through its way to the ground."""

from dataclasses import replace

import numpy as np
import pytest
from drawn_damage import CLEAN
from drawn_graves import HIGH_M, METRES_PER_PIXEL, WIDE_M, drawn
from pictures import as_bytes
from PIL import Image

from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Perspective, Straight
from plan_editor.scans import finding
from plan_editor.scans.finding import rectangles_in
from plan_editor.scans.sought import Size, Sought, Span
from plan_editor.scans.tiles import Pyramid, make_tiles, open_tiles

SEED = 3
PIXEL = METRES_PER_PIXEL
LIES = Straight((PIXEL, 0.0, 0.0, 0.0, -PIXEL, HIGH_M))


@pytest.fixture(scope="module")
def plan():
    return drawn(SEED, CLEAN)


@pytest.fixture(scope="module")
def sought(plan):
    widths = [g.width for g in plan.graves]
    lengths = [g.length for g in plan.graves]
    turns = [(g.bearing_deg + 180.0) % 360.0 - 180.0 for g in plan.graves]
    return Sought(
        sizes=(
            Size(
                width=Span(0.95 * min(widths), 1.05 * max(widths)),
                length=Span(0.95 * min(lengths), 1.05 * max(lengths)),
            ),
        ),
        bearings=(Span(min(turns) - 1.0, max(turns) + 1.0),),
    )


@pytest.fixture(scope="module")
def scan(plan, tmp_path_factory) -> Pyramid:
    return laid(tmp_path_factory.mktemp("shelf"), Image.fromarray(plan.grey))


def laid(folder, image: Image.Image) -> Pyramid:
    return open_tiles(make_tiles(as_bytes(image, "PNG", compress_level=1), folder))


def missed(plan, found) -> list[float]:
    """Return of each grave how far the nearest found one's middle is away, in metres."""
    middles = np.array([f.rectangle.centre for f in found])
    return [float(np.hypot(*(middles - g.centre).T).min()) for g in plan.graves]


def test_they_lie_on_the_ground_with_their_heads_where_they_are_sought(plan, scan, sought):
    told: list[float] = []
    found = rectangles_in(scan, LIES, sought, progress=told.append)
    assert told[0] == 0.0
    assert told[-1] == 1.0
    off = np.array(missed(plan, found))
    assert (off < 0.1).mean() > 0.97
    low, high = sought.bearings[0].low - 4.0, sought.bearings[0].high + 4.0
    assert all(
        low < (f.rectangle.bearing_deg + 180.0) % 360.0 - 180.0 < high
        for f in found
        if f.score > 0.9
    )


def test_the_edges_between_pieces_lose_nothing(plan, scan, sought, monkeypatch):
    whole = rectangles_in(scan, LIES, sought)
    monkeypatch.setattr(finding, "PIECE_PX", 400)
    told: list[float] = []
    pieces = rectangles_in(scan, LIES, sought, progress=told.append)
    assert len(told) > 5
    sure = [f for f in whole if f.score > 0.9]
    middles = np.array([f.rectangle.centre for f in pieces])
    away = [np.hypot(*(middles - f.rectangle.centre).T).min() for f in sure]
    assert np.mean(np.array(away) < 0.1) > 0.98
    # and nothing is told twice
    assert all(np.sort(np.hypot(*(middles - f.rectangle.centre).T))[1] > 0.4 for f in pieces)


def test_through_a_fit_that_bends_they_are_found_too(plan, scan, sought):
    a, b, c, d, e, f = LIES.numbers
    bent = Perspective(LIES.numbers, (a, b, c, d, e, f, 1e-6, -1e-6))
    found = rectangles_in(scan, bent, sought)
    assert (np.array(missed(plan, found)) < 0.2).mean() > 0.95


def test_a_coloured_scan_is_looked_at_in_grey(plan, sought, tmp_path):
    image = Image.merge("RGB", [Image.fromarray(plan.grey)] * 3)
    found = rectangles_in(laid(tmp_path, image), LIES, sought)
    assert (np.array(missed(plan, found)) < 0.1).mean() > 0.97


def test_it_can_be_stopped(scan, sought):
    assert rectangles_in(scan, LIES, sought, cancelled=lambda: True) is None


def test_a_scan_that_is_too_coarse_is_refused(scan, sought):
    coarse = Straight(tuple(8 * n for n in LIES.numbers))
    with pytest.raises(CannotUse, match="too coarse to look for things"):
        rectangles_in(scan, coarse, sought)


def test_a_scan_of_a_whole_county_is_refused(scan, sought):
    far = Straight((PIXEL * 1e4, 0.0, 0.0, 0.0, -PIXEL * 1e4, HIGH_M))
    with pytest.raises(CannotUse, match="too coarse"):
        rectangles_in(scan, far, sought)


@pytest.mark.parametrize("grey", [0, 255], ids=["black", "white"])
@pytest.mark.parametrize("size", [(64, 900), (300, 200)], ids=["a strip", "plain"])
def test_a_scan_that_shows_nothing_gives_nothing(tmp_path, sought, grey, size):
    pyramid = laid(tmp_path, Image.new("L", size, grey))
    assert rectangles_in(pyramid, LIES, sought) == ()
    assert rectangles_in(pyramid, LIES, replace(sought, bearings=())) == ()


def test_the_drawn_plan_is_as_large_as_it_says(plan):
    assert plan.grey.shape == (round(HIGH_M / PIXEL), round(WIDE_M / PIXEL))
