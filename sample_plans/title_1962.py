"""What frames the sheet of 1962: border, title, scale of feet, north point."""

from paper import METRES_PER_INCH, SHEET
from pen import Hand, Layer, closed, letter, stroke, washed

FOOT = 0.3048 / METRES_PER_INCH
"""Inches on the sheet for one foot on the ground."""


def furnish(on: Layer) -> None:
    """Draw border, title, scale and north point."""
    _border(on)
    _title(on)
    _scale(on)
    _north(on)


def _border(on: Layer) -> None:
    for edge, width in ((0.45, 0.02), (0.53, 0.009)):
        x, y = SHEET[0] - edge, SHEET[1] - edge
        closed(on, [(edge, edge), (x, edge), (x, y), (edge, y)], width=width)


def _title(on: Layer) -> None:
    middle = 11.2
    letter(on, "PLAN OF THE CHURCHYARD OF", (middle, 1.72), Hand(size=0.2, spacing=0.06))
    letter(on, "ST ELFRIC, HARROWMERE", (middle, 1.36), Hand(size=0.32, spacing=0.07))
    letter(
        on, "Surveyed 1962 for the Parochial Church Council", (middle, 1.02), Hand(size=0.18)
    )
    letter(on, "Scale: 20 feet to one inch", (middle, 0.77), Hand(size=0.15))


def _scale(on: Layer) -> None:
    left, low, high = 1.3, 1.05, 1.14
    for k in range(10):
        x0, x1 = left + k * 10 * FOOT, left + (k + 1) * 10 * FOOT
        box = [(x0, low), (x1, low), (x1, high), (x0, high)]
        if k % 2 == 0:
            washed(on, box, 225)
        closed(on, box, width=0.009)
    for feet in (0, 20, 40, 60, 80, 100):
        x = left + feet * FOOT
        stroke(on, [(x, high), (x, high + 0.06)], width=0.009)
        letter(on, str(feet), (x, high + 0.16), Hand(size=0.14))
    letter(on, "feet", (left + 100 * FOOT + 0.35, high + 0.16), Hand(size=0.14))


def _north(on: Layer) -> None:
    x, low, high = 16.2, 0.85, 2.1
    stroke(on, [(x, low), (x, high)], width=0.014)
    head = [(x, high), (x - 0.09, high - 0.34), (x, high - 0.26)]
    washed(on, head, 225)
    closed(on, head, width=0.01)
    closed(on, [(x, high), (x + 0.09, high - 0.34), (x, high - 0.26)], width=0.01)
    stroke(on, [(x - 0.16, low + 0.36), (x + 0.16, low + 0.36)], width=0.01)
    letter(on, "N", (x, high + 0.17), Hand(size=0.24))
