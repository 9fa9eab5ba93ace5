"""A picture turned so that what is sought stands level and upright, with its pen strokes."""

from dataclasses import dataclass, replace
from math import ceil, cos, radians, sin

import numpy as np
from PIL import Image

from plan_editor.scans.boxes import Boxes
from plan_editor.scans.strokes import Floats, ridges

_MOST_INK = 1.2
"""A stroke counts up to so much more than one in full."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Inked:
    """A turned picture.

    Args:
        dense: its densities.
        level, upright: the strength of strokes that run level, and upright; 1 is in full.
        bearing_deg: of its way up.
        back: six numbers a to f from its pixels to those of the picture as it was:
            right = a·x + b·y + c, down = d·x + e·y + f.
    """

    dense: Floats
    level: Floats
    upright: Floats
    bearing_deg: float
    back: tuple[float, ...]

    def as_it_was(self, boxes: Boxes) -> Boxes:
        """Return boxes of the turned picture in the picture as it was."""
        a, b, c, d, e, f = self.back
        return replace(
            boxes,
            right=a * boxes.right + b * boxes.down + c,
            down=d * boxes.right + e * boxes.down + f,
            turn=boxes.turn + radians(self.bearing_deg),
        )


def turned(
    dense: Floats, bearing_deg: float, strength: float, reaches: tuple[int, ...]
) -> Inked:
    """Return a picture turned so that a bearing points up.

    Args:
        dense: densities, north up.
        bearing_deg: from 0 to under 360.
        strength: of a stroke that counts in full, as a density.
        reaches: see ``ridges``.
    """
    c, s = cos(radians(bearing_deg)), sin(radians(bearing_deg))
    high, wide = dense.shape
    new_wide = ceil(abs(c) * wide + abs(s) * high) + 1
    new_high = ceil(abs(s) * wide + abs(c) * high) + 1
    back = (
        *(c, -s, (wide - c * new_wide + s * new_high) / 2),
        *(s, c, (high - s * new_wide - c * new_high) / 2),
    )
    moved = np.asarray(
        Image.fromarray(dense).transform(
            (new_wide, new_high), Image.Transform.AFFINE, back, Image.Resampling.BILINEAR
        )
    )
    full = np.float32(strength)
    level, upright = (
        np.minimum(ridges(moved, axis, reaches) / full, np.float32(_MOST_INK))
        for axis in (0, 1)
    )
    return Inked(dense=moved, level=level, upright=upright, bearing_deg=bearing_deg, back=back)
