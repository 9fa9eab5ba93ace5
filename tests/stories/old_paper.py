"""The old plan of the sample as somebody sees it who traces: its ink, and where a hand clicks.

The eye looks at the picture alone: it is told what stands there, and finds where that is inked.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from random import Random

import numpy as np
from numpy.typing import NDArray
from paper import to_scan
from PIL import Image

from plan_editor.geometry.outlines import Rectangle

Numbers = NDArray[np.float64]

DARKER = 30.0
"""Ink is darker than the paper about it by so many of 255 grey levels."""

PAPER_PX = 24
"""So far round a place the paper is looked at."""

ASTRAY_PX = 6.0
"""So far at most a thing is drawn from where it is: chain, staff and pen were not exact."""

ERROR_PX = 2.0
"""A click lands up to so much beside what was meant, each way, evenly spread."""


@dataclass(frozen=True)
class OldPaper:
    """The scan, and the chance with which a hand slips."""

    file: Path
    seed: int

    @cached_property
    def grey(self) -> Numbers:
        """How bright each pixel is."""
        with Image.open(self.file) as picture:
            return np.asarray(picture.convert("L"), dtype=np.float64)

    @cached_property
    def slips(self) -> Random:
        """What a hand misses by."""
        return Random(f"slips {self.seed}")  # noqa: S311  # no secret

    def is_inked(self, right: int, down: int) -> bool:
        """Return whether a pixel is inked."""
        piece = self._piece(right, down, PAPER_PX)
        return bool(np.median(piece) - self.grey[down, right] >= DARKER)

    def ink_near(self, at: tuple[float, float], within: float) -> tuple[float, float]:
        """Return the middle of the inked pixel nearest to a place, in pixels right and down.

        Raises:
            LookupError: none is that near.
        """
        left, top = int(at[0] - within), int(at[1] - within)
        side = 2 * int(within) + 2
        found = [
            (np.hypot(x + 0.5 - at[0], y + 0.5 - at[1]), x, y)
            for y in range(top, top + side)
            for x in range(left, left + side)
            if 0 <= x < self.grey.shape[1] and 0 <= y < self.grey.shape[0]
        ]
        for far, x, y in sorted(found):
            if far <= within and self.is_inked(x, y):
                return x + 0.5, y + 0.5
        raise LookupError(f"nothing is inked within {within} pixels of {at}")

    def clicked(self, at: tuple[float, float], within: float) -> tuple[float, float]:
        """Return where a hand clicks that means the ink nearest to a place."""
        right, down = self.ink_near(at, within)
        slip = self.slips.uniform
        return right + slip(-ERROR_PX, ERROR_PX), down + slip(-ERROR_PX, ERROR_PX)

    def corners(self, truth: Rectangle) -> Numbers:
        """Return where the corners of a rectangle are drawn, in pixels.

        It was drawn near where it truly is: the eye shifts its outline until that is darkest.
        """
        there = pixels(truth.corners())
        sides = _along(there)
        steps = np.arange(-ASTRAY_PX, ASTRAY_PX + 0.25, 0.5)
        shifts = np.array([(x, y) for x in steps for y in steps])
        places = sides[None] + shifts[:, None]
        x, y = places[..., 0].astype(int), places[..., 1].astype(int)
        bright = self.grey[y, x].mean(axis=1)
        # of what is dark alike the nearest: the shifts are not to follow noise
        best = int(np.argmin(bright + 0.3 * np.hypot(*shifts.T)))
        return np.asarray(there + shifts[best])

    def _piece(self, right: int, down: int, far: int) -> Numbers:
        return self.grey[max(0, down - far) : down + far, max(0, right - far) : right + far]


def pixels(places: Sequence[Sequence[float]]) -> Numbers:
    """Return the true pixels, right and down, of places on the ground."""
    ground = np.asarray(places, dtype=np.float64)
    return np.column_stack(to_scan(ground[:, 0], ground[:, 1]))


def _along(corners: Numbers) -> Numbers:
    shares = np.linspace(0.0, 1.0, 40, endpoint=False)[:, None]
    ends = np.roll(corners, -1, axis=0)
    pairs = zip(corners, ends, strict=True)
    return np.concatenate([one + shares * (other - one) for one, other in pairs])
