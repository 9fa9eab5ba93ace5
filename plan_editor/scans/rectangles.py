"""Rectangles drawn by hand in a grey, north-up picture: found, laid on their ink, judged."""

from math import ceil

import numpy as np
from numpy.typing import NDArray

from plan_editor.scans.boxes import Boxes, together
from plan_editor.scans.candidates import LEAST_INKED, candidates
from plan_editor.scans.directions import bearings_of_lines
from plan_editor.scans.judging import Judged, all_of, alone, judged
from plan_editor.scans.sides import (
    FINE,
    ROUGH,
    laid_on_ink,
    other_sides,
    profiles,
    shares_inked,
)
from plan_editor.scans.sought import Size, Sought, Span
from plan_editor.scans.strokes import Floats, density, ridges, usual_strength
from plan_editor.scans.turned import Inked, turned
from plan_editor.scans.turning import Pixels

NARROW_PX = 24.0
"""Pixels to the narrow side of what is sought, where the scan has so many."""

STEP_DEG = 4.0
"""A bearing is searched at steps of about so much; between them the sides are still met."""

SAME_PX = 1.5
"""Boxes whose numbers differ by less are the same."""

OUT_OF_SIZE = 0.07
"""Share by which what was found may leave the span of sizes that are sought."""


MOST_STROKES = 0.3
"""Of a closely drawn plan an eighth is strokes, of random greys nearly a half."""


def rectangles(grey: Pixels, sought: Sought) -> Judged:
    """Return the rectangles of a picture, none over another, the surest first.

    Args:
        grey: north up; the narrow side of what is sought has about ``NARROW_PX`` pixels.
        sought: sizes in pixels of the picture.
    """
    unit = min(min(s.width.middle, s.length.middle) for s in sought.sizes) / NARROW_PX
    reaches = tuple(sorted({max(2, round(3 * unit)), max(2, round(6 * unit))}))
    dense = density(grey)
    strokes = ridges(dense, 0, reaches), ridges(dense, 1, reaches)
    strength = usual_strength(*strokes)
    if _is_no_drawing(strokes, strength):
        return all_of([])
    seen = [
        _at(turned(dense, bearing, strength, reaches), sought.sizes, unit)
        for bearing in bearings(sought.bearings or bearings_of_lines(dense))
    ]
    return alone(all_of(seen))


def _is_no_drawing(strokes: tuple[Floats, Floats], strength: float) -> bool:
    """Return whether more of a picture is strokes than any drawing has: noise, a halftone."""
    share = np.mean(np.maximum(*strokes) > strength / 2)
    return bool(share > MOST_STROKES)


def _at(picture: Inked, sizes: tuple[Size, ...], unit: float) -> Judged:
    """Return the rectangles that stand about upright in a turned picture."""
    near = [_near(picture, candidates(picture, size), unit) for size in sizes]
    boxes = _once(laid_on_ink(picture, together(near), 2.5 * unit, FINE))
    others = other_sides(boxes, profiles(picture, boxes, 9.0 * unit, ROUGH), 2.5 * unit)
    boxes = laid_on_ink(picture, together([boxes, others]), 1.5 * unit, FINE)
    return judged(picture, boxes.some(_of_a_size(boxes, sizes)), 4.0 * unit)


def bearings(spans: tuple[Span, ...]) -> tuple[float, ...]:
    """Return the bearings at which to look, each in degrees from 0 to under 180."""
    found: list[float] = []
    for span in spans:
        steps = max(1, ceil((span.high - span.low) / STEP_DEG))
        for n in range(steps):
            turn = (span.low + (n + 0.5) * (span.high - span.low) / steps) % 180.0
            if all(abs((turn - f + 90.0) % 180.0 - 90.0) > STEP_DEG / 2 for f in found):
                found.append(turn)
    return tuple(found)


def _near(picture: Inked, boxes: Boxes, unit: float) -> Boxes:
    """Return boxes moved roughly onto their ink, without those that have little."""
    boxes = laid_on_ink(picture, boxes, 4.0 * unit, ROUGH)
    inked = shares_inked(profiles(picture, boxes, 1.0, ROUGH)).mean(axis=2)
    return boxes.some(boxes.by_run(inked) >= LEAST_INKED)


def _once(boxes: Boxes) -> Boxes:
    """Return boxes without those that are the same as another."""
    places = np.stack([boxes.right, boxes.down, boxes.width, boxes.length], axis=1)
    _, first = np.unique(np.rint(places / SAME_PX), axis=0, return_index=True)
    return boxes.some(np.sort(first))


def _of_a_size(boxes: Boxes, sizes: tuple[Size, ...]) -> NDArray[np.bool_]:
    """Return which boxes are still about as large as what is sought."""
    less, more = 1.0 - OUT_OF_SIZE, 1.0 + OUT_OF_SIZE
    fits = np.zeros(len(boxes), dtype=bool)
    for size in sizes:
        fits |= (
            (boxes.width >= less * size.width.low)
            & (boxes.width <= more * size.width.high)
            & (boxes.length >= less * size.length.low)
            & (boxes.length <= more * size.length.high)
        )
    return fits
