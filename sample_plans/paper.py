"""The paper of the old plan, and the true way from its scan to the ground.

The sheet was drawn flat at 1 inch to 20 feet with north up. Since then the paper has stretched
(more across than along), gone out of square, cockled by a millimetre, and it lay askew on
the scanner.
``to_ground`` says exactly where on the ground any pixel of the scan belongs, whatever fit is
made of it: what a fit makes of a pixel, less this, is the error of the fit at that place.
"""

from dataclasses import dataclass
from math import cos, radians, sin
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
M = TypeVar("M", float, Numbers)

METRES_PER_INCH = 20 * 0.3048
"""Of the drawing: 20 feet to an inch, 1:240."""

DOTS_PER_INCH = 150.0
"""Of the scan."""

SHEET = (17.6, 15.9)
"""Inches across and up."""

PIXELS = (2880, 2570)
"""Of the scan, across and down."""

SOUTH_WEST = (-7.6, -14.4)
"""East and north, in metres about the plan's origin, of the sheet's lower left corner."""

STRETCH_ACROSS, STRETCH_ALONG, SKEW = 1.017, 1.003, 0.0035
"""What an inch across and along has become; how far the sides lean, on their length."""

TURN_DEG = 3.2
"""Clockwise turn of the sheet on the scanner."""


@dataclass(frozen=True, slots=True)
class Wave:
    """One cockle of the paper: inches of shift, and radians an inch across and up."""

    across: float
    up: float
    by_x: float
    by_y: float
    phase: float


COCKLES = (
    Wave(0.046, -0.032, 0.45, 0.25, 0.4),
    Wave(-0.032, 0.046, -0.30, 0.50, 2.1),
    Wave(0.010, 0.008, 0.66, -0.38, 4.4),
)


def to_ground(right: Numbers, down: Numbers) -> tuple[Numbers, Numbers]:
    """Return east and north, in metres about the plan's origin, of pixels of the scan."""
    return ground_of_sheet(*to_sheet(right, down))


def to_scan(east: Numbers, north: Numbers) -> tuple[Numbers, Numbers]:
    """Return the pixels, right and down, of places on the ground; to a millionth of a pixel."""
    x, y = sheet_of_ground(east, north)
    right, down = _flat_to_scan(x, y)
    for _ in range(30):
        found_x, found_y = to_sheet(right, down)
        more_right, more_down = _flat_to_scan(2 * x - found_x, 2 * y - found_y)
        flat_right, flat_down = _flat_to_scan(x, y)
        right, down = right + more_right - flat_right, down + more_down - flat_down
    return right, down


def to_sheet(right: Numbers, down: Numbers) -> tuple[Numbers, Numbers]:
    """Return inches across and up on the sheet, as it was drawn, of pixels of the scan."""
    x = (right - PIXELS[0] / 2) / DOTS_PER_INCH
    y = (PIXELS[1] / 2 - down) / DOTS_PER_INCH
    shift_x, shift_y = _cockled(x, y)
    x, y = x + shift_x, y + shift_y
    c, s = cos(radians(TURN_DEG)), sin(radians(TURN_DEG))
    x, y = c * x - s * y, s * x + c * y
    x = (x - SKEW * y) / STRETCH_ACROSS
    return x + SHEET[0] / 2, y / STRETCH_ALONG + SHEET[1] / 2


def sheet_of_ground(east: M, north: M) -> tuple[M, M]:
    """Return inches across and up on the sheet of places on the ground."""
    return (east - SOUTH_WEST[0]) / METRES_PER_INCH, (north - SOUTH_WEST[1]) / METRES_PER_INCH


def ground_of_sheet(x: Numbers, y: Numbers) -> tuple[Numbers, Numbers]:
    """Return east and north of inches across and up on the sheet."""
    return x * METRES_PER_INCH + SOUTH_WEST[0], y * METRES_PER_INCH + SOUTH_WEST[1]


def _flat_to_scan(x: Numbers, y: Numbers) -> tuple[Numbers, Numbers]:
    # the way back without the cockles
    y = (y - SHEET[1] / 2) * STRETCH_ALONG
    x = (x - SHEET[0] / 2) * STRETCH_ACROSS + SKEW * y
    c, s = cos(radians(TURN_DEG)), sin(radians(TURN_DEG))
    x, y = c * x + s * y, c * y - s * x
    return x * DOTS_PER_INCH + PIXELS[0] / 2, PIXELS[1] / 2 - y * DOTS_PER_INCH


def _cockled(x: Numbers, y: Numbers) -> tuple[Numbers, Numbers]:
    waves = [(w, np.sin(w.by_x * x + w.by_y * y + w.phase)) for w in COCKLES]
    across = sum((w.across * wave for w, wave in waves), np.zeros_like(x))
    up = sum((w.up * wave for w, wave in waves), np.zeros_like(y))
    return across, up
