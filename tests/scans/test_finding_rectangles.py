"""Rectangles found in pictures: on drawn plans, whatever they show, and at any bearing."""

import os
import sys

import numpy as np
import pytest
from drawn_damage import CLEAN, SAMPLE
from finding_figures import DEVELOPMENT, HELD_OUT, figures, precision, recall, table, together
from PIL import Image, ImageDraw

from plan_editor.scans.boxes import Boxes
from plan_editor.scans.heads import turned_to_heads
from plan_editor.scans.judging import Judged
from plan_editor.scans.rectangles import rectangles
from plan_editor.scans.sought import Size, Sought, Span
from plan_editor.scans.turning import Pixels

THOROUGH = os.environ.get("HYPOTHESIS_PROFILE") == "thorough"
SIZES = (Size(width=Span(20.0, 28.0), length=Span(50.0, 66.0)),)
UPRIGHT = Sought(sizes=SIZES, bearings=(Span(-3.0, 3.0),))


def picture(*bearings: float, heavy: bool = False) -> tuple[Pixels, list[np.ndarray]]:
    """Draw rectangles of 24 by 58 pixels side by side, at some bearings; four times as fine."""
    image = Image.new("L", (4 * 120 * len(bearings), 480), 230)
    draw = ImageDraw.Draw(image)
    drawn = []
    for n, bearing in enumerate(bearings):
        one = Boxes(
            right=np.array([60.3 + 120 * n]),
            down=np.array([59.6]),
            width=np.array([24.0]),
            length=np.array([58.0]),
            turn=np.radians([bearing]),
        ).corners()[0]
        ring = [tuple(4 * c - 0.5) for c in one]
        draw.line([*ring, ring[0], ring[1]], fill=40, width=7)
        if heavy:
            draw.line(ring[:2], fill=40, width=15)
        drawn.append(one)
    return np.asarray(image.resize((image.width // 4, 120), Image.Resampling.BOX)), drawn


def off(found: Judged, drawn: np.ndarray) -> float:
    """Return by how much the corners of the nearest found one miss, in pixels."""
    boxes = found.boxes.corners()
    turns = [np.roll(boxes, k, axis=1) for k in range(4)]
    return min(float(np.hypot(*(t - drawn).T).max(axis=0).min()) for t in turns)


@pytest.mark.parametrize("damage", [CLEAN, SAMPLE], ids=["clean", "as the sample"])
def test_graves_of_drawn_plans_are_found(damage):
    told = together(figures(seed, damage) for seed in DEVELOPMENT[:2])
    assert told.graves > 200
    assert precision(told) >= 0.95
    assert recall(told) >= 0.97
    # the ink's own middle: half the corners lie within half a pixel of it
    assert np.median(told.corners_px) < 0.6


@pytest.mark.skipif(not THOROUGH, reason="the whole tables take a quarter of an hour")
@pytest.mark.timeout(3600)
@pytest.mark.parametrize("seeds", [DEVELOPMENT, HELD_OUT], ids=["development", "held-out"])
def test_the_whole_table_by_rising_damage(seeds, capsys):
    with capsys.disabled():
        lines = list(table(seeds))
        sys.stdout.write("\n".join(("", *lines, "")))
    told = {words[:24].strip(): words[24:].split() for words in lines[2:]}
    clean, sample = told["clean"], told["as the sample"]
    assert min(float(clean[1]), float(clean[2])) >= 0.97
    assert float(sample[1]) >= 0.9
    assert float(sample[2]) >= 0.85


@pytest.mark.parametrize("bearing", [0.0, 2.2, 177.5])
def test_corners_lie_on_the_middle_of_the_ink(bearing):
    grey, drawn = picture(bearing)
    found = rectangles(grey, UPRIGHT)
    assert len(found.scores) == 1
    assert found.scores[0] > 0.9
    assert off(found, drawn[0]) < 0.5


def test_without_a_bearing_they_are_found_at_any():
    grey, drawn = picture(10.0, 48.0, 81.0, 133.0)
    found = rectangles(grey, Sought(sizes=SIZES))
    assert len(found.scores) == 4
    assert max(off(found, one) for one in drawn) < 2.5


def test_another_size_is_not_found():
    grey, _ = picture(0.0)
    small = (Size(width=Span(12.0, 16.0), length=Span(30.0, 38.0)),)
    assert not len(rectangles(grey, Sought(sizes=small, bearings=UPRIGHT.bearings)).scores)


@pytest.mark.parametrize("bearing", [0.0, 180.0])
@pytest.mark.parametrize("bearings", [(Span(-3.0, 3.0),), (Span(-3, 3), Span(177, 183))])
def test_the_heavier_end_is_the_head(bearing, bearings):
    grey, drawn = picture(bearing, heavy=True)
    sought = Sought(sizes=SIZES, bearings=bearings)
    found = turned_to_heads(rectangles(grey, sought), sought)
    middle = found.boxes.corners()[0, :2].mean(axis=0)
    assert np.hypot(*(middle - drawn[0][:2].mean(axis=0))) < 1.5


def test_where_no_head_is_drawn_it_lies_as_sought():
    grey, drawn = picture(1.0)
    sought = Sought(sizes=SIZES, bearings=(Span(177.0, 183.0),))
    found = turned_to_heads(rectangles(grey, sought), sought)
    middle = found.boxes.corners()[0, :2].mean(axis=0)
    assert np.hypot(*(middle - drawn[0][2:].mean(axis=0))) < 1.5


def test_one_of_which_it_is_not_clear_lies_as_its_neighbours():
    count = 6
    boxes = Boxes(
        right=np.arange(count) * 40.0,
        down=np.zeros(count),
        width=np.full(count, 24.0),
        length=np.full(count, 58.0),
        turn=np.zeros(count),
    )
    heavier = np.array([-0.9, -0.8, 0.02, -0.7, -0.9, -0.8])
    judged = Judged(boxes=boxes, scores=np.full(count, 0.9), heavier=heavier)
    turned = turned_to_heads(judged, Sought(sizes=SIZES))
    assert np.allclose(turned.boxes.turn, np.pi)


NOISE = np.random.default_rng(5).integers(0, 256, (200, 300), dtype=np.uint8)


@pytest.mark.parametrize(
    "grey",
    [
        np.zeros((200, 300), dtype=np.uint8),
        np.full((200, 300), 255, dtype=np.uint8),
        np.tile(np.arange(300, dtype=np.uint8), (200, 1)),
        np.zeros((300, 1), dtype=np.uint8),
        np.full((1, 300), 255, dtype=np.uint8),
        np.full((2, 2), 90, dtype=np.uint8),
        np.tile(NOISE[:, :1], (1, 1)),
        NOISE,
    ],
    ids=["black", "white", "slope", "1 wide", "1 high", "2 by 2", "noise 1 wide", "noise"],
)
@pytest.mark.parametrize("bearings", [UPRIGHT.bearings, ()], ids=["upright", "any"])
def test_a_picture_without_rectangles_gives_none(grey, bearings):
    found = rectangles(grey, Sought(sizes=SIZES, bearings=bearings))
    assert not (found.scores > 0.5).any()
